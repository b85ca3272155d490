"""Maps an entry to the passes, lines and surfaces whose checks must run again."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterable, Iterator, Sequence

from models.checks.finding import Subjects
from models.entries import id_fields
from models.entries.bodies.job import Machine
from models.entries.bodies.passes import PassCut, PipeLaid, Probe, TurfStrip
from models.entries.bodies.surfaces import Surface
from models.entries.body import Body
from models.entries.envelope import AnyEntry
from models.entries.index import Index
from models.entries.keys import LineKey, line_key
from models.entries.kind_names import PASS, SURFACE
from models.state.indexes import (
    CUTS_OF,
    DRAINS_TO,
    PASSES,
    PASSES_ON,
    PIPE_ON,
    SAND_OF,
    SAND_ON,
    WORK_ON,
)
from models.state.job_state import JobState


def neighbours(state: JobState, filed: Sequence[AnyEntry], entry: AnyEntry) -> Iterator[AnyEntry]:
    """Entries just before and just after an entry's place in a list, or its former place.

    A correction may have stood by its own turn before what it corrects came in.
    """
    turn = (entry.lc, entry.id)
    for key in {state.place_of(entry), (turn, turn)}:
        place = bisect_left(filed, key, key=state.place_of)
        for other in filed[max(place - 1, 0) : place + 2]:
            if other.id != entry.id:
                yield other


def entry_itself(state: JobState, entry: AnyEntry) -> Iterable[str]:
    """Id of the entry itself, as subject."""
    return (entry.id,)


def pass_of_entry(state: JobState, entry: AnyEntry) -> Iterable[str]:
    """Pass that an entry names, as subject."""
    pass_id = id_fields.pass_id_of(entry.body)
    return (pass_id,) if pass_id else ()


def material_of_entry(state: JobState, entry: AnyEntry) -> Iterable[str]:
    """Material that an entry names, as subject."""
    return (id_fields.material_id_of(entry.body),)


def surface_of_entry(state: JobState, entry: AnyEntry) -> Iterable[str]:
    """Surface that an entry names, as subject."""
    return (id_fields.surface_id_of(entry.body),)


def pass_and_neighbours(state: JobState, entry: AnyEntry) -> Iterable[str]:
    """Passes whose checks a pass affects: itself, and those cut just before and after it."""
    yield id_fields.pass_id_of(entry.body)
    surface_id = id_fields.surface_id_of(entry.body)
    for other in neighbours(state, state.current(PASSES_ON, surface_id), entry):
        yield id_fields.pass_id_of(other.body)


def surface_and_adjacent(state: JobState, entry: AnyEntry) -> Iterable[str]:
    """Surfaces that a pass affects: its own, and those that the crew came from and went to."""
    yield from surface_of_entry(state, entry)
    for other in neighbours(state, state.current(PASSES), entry):
        yield from surface_of_entry(state, other)


def surfaces_of_day(state: JobState, entry: AnyEntry) -> Iterable[str]:
    """Every surface that was cut on the day that an entry ends."""
    for one in state.current(WORK_ON, day_ended_by(entry)):
        if one.kind == "pass":
            yield from surface_of_entry(state, one)


def passes_of_surface(state: JobState, entry: AnyEntry) -> Iterable[str]:
    """Every pass cut on a surface."""
    return (cut.pass_id for cut in state.bodies(PASSES_ON, id_fields.surface_id_of(entry.body)))


def passes_of_lines(state: JobState, entry: AnyEntry) -> Iterable[str]:
    """Every pass that cut one of the lines that an entry names."""
    for key in lines_of_entry(state, entry):
        yield from (cut.pass_id for cut in state.bodies(CUTS_OF, key))


def passes_along(state: JobState, entry: AnyEntry) -> Iterable[str]:
    """The pass that an entry is, or is of, and every pass in the same lines: one cuts over another.

    A probe touches the passes in its own line alone.
    """
    yield from pass_of_entry(state, entry)
    body = entry.body
    if isinstance(body, Probe):
        for cut in list(state.bodies(PASS, body.pass_id)):
            key = line_key(cut.surface_id, body.line_id)
            yield from (other.pass_id for other in state.bodies(CUTS_OF, key))
    else:
        yield from passes_of_lines(state, entry)


def passes_done_along(state: JobState, entry: AnyEntry) -> Iterable[str]:
    """The passes beside one in the order of the work, and those in the same lines."""
    yield from pass_and_neighbours(state, entry)
    yield from passes_of_lines(state, entry)


def passes_under_turf(state: JobState, entry: AnyEntry) -> Iterable[str]:
    """The passes under a turf strip; all of its surface where it says how thick the sod is."""
    yield from passes_of_lines(state, entry)
    if isinstance(entry.body, TurfStrip) and entry.body.sod_nm is not None:
        yield from passes_of_surface(state, entry)


def passes_of_machine(state: JobState, entry: AnyEntry) -> Iterable[str]:
    """Every pass that a machine cut."""
    if isinstance(entry.body, Machine):
        machine_id = entry.body.machine_id
        yield from (cut.pass_id for cut in state.bodies(PASSES) if cut.machine_id == machine_id)


def passes_of_day(state: JobState, entry: AnyEntry) -> Iterable[str]:
    """Every pass that was cut, or had sand put in, on the day that an entry ends."""
    for one in state.current(WORK_ON, day_ended_by(entry)):
        if one.kind in {"pass", "sand_placed"}:
            yield from pass_of_entry(state, one)


def passes_with_sand(state: JobState, entry: AnyEntry) -> Iterable[str]:
    """Every pass that has sand of the material that an entry names."""
    for sand in state.bodies(SAND_OF, id_fields.material_id_of(entry.body)):
        if sand.pass_id:
            yield sand.pass_id


def passes_of_sand(state: JobState, entry: AnyEntry) -> Iterable[str]:
    """The pass that sand went into and those filled before and after; all, if none is named."""
    if not id_fields.pass_id_of(entry.body):
        yield from passes_of_surface(state, entry)
    yield from pass_of_entry(state, entry)
    surface_id = id_fields.surface_id_of(entry.body)
    for other in neighbours(state, state.current(SAND_ON, surface_id), entry):
        yield from pass_of_entry(state, other)


def lines_of_entry(state: JobState, entry: AnyEntry) -> Iterable[LineKey]:
    """The lines that a pass or a turf strip names, as surface/line."""
    surface_id = id_fields.surface_id_of(entry.body)
    return (line_key(surface_id, line_id) for line_id in id_fields.line_ids_of(entry.body))


def line_of_pipe(state: JobState, entry: AnyEntry) -> Iterable[LineKey]:
    """The line that a pipe was laid in, as surface/line."""
    body = entry.body
    if not isinstance(body, PipeLaid) or not body.line_id:
        return ()
    return (line_key(body.surface_id, body.line_id),)


def lines_of_plan(state: JobState, entry: AnyEntry) -> Iterable[LineKey]:
    """Every line of a surface: planned by this entry or by the one that stands, or worked on."""
    surface_id = id_fields.surface_id_of(entry.body)
    plans = (entry.body, state.latest(SURFACE, surface_id))
    planned = (line for plan in plans if isinstance(plan, Surface) for line in plan.lines)
    yield from dict.fromkeys(line_key(surface_id, line.line_id) for line in planned)
    yield from lines_piped(state, surface_id)
    for cut in state.bodies(PASSES_ON, surface_id):
        yield from _lines_cut(cut)


def lines_piped_there(state: JobState, entry: AnyEntry) -> Iterable[LineKey]:
    """Every line with pipe in it, of the surface that an entry is about."""
    return lines_piped(state, id_fields.surface_id_of(entry.body))


def lines_piped(state: JobState, surface_id: str) -> Iterable[LineKey]:
    """Every line of a surface that pipe was laid in, whatever its plan says now."""
    for pipe in state.bodies(PIPE_ON, surface_id):
        if pipe.line_id:
            yield line_key(pipe.surface_id, pipe.line_id)


def lines_of_pass_named(state: JobState, entry: AnyEntry) -> Iterable[LineKey]:
    """The lines of the pass that an entry names, as surface/line."""
    pass_id = id_fields.pass_id_of(entry.body)
    for cut in state.bodies(PASS, pass_id) if pass_id else ():
        yield from _lines_cut(cut)


def lines_beside(state: JobState, entry: AnyEntry) -> Iterable[LineKey]:
    """The lines that an entry names, and those cut by the same passes."""
    yield from lines_of_entry(state, entry)
    for key in lines_of_entry(state, entry):
        for cut in state.bodies(CUTS_OF, key):
            yield from _lines_cut(cut)


def lines_of_day(state: JobState, entry: AnyEntry) -> Iterable[LineKey]:
    """Every line that had pipe laid or turf moved on the day that an entry ends."""
    for one in state.current(WORK_ON, day_ended_by(entry)):
        if one.kind == "pipe_laid":
            yield from line_of_pipe(state, one)
        elif one.kind == "turf_strip":
            yield from lines_of_entry(state, one)


def lines_drained(state: JobState, entry: AnyEntry) -> Iterable[LineKey]:
    """The line a pipe was laid in, or every piped slit that drains to the collector it is of."""
    yield from line_of_pipe(state, entry)
    yield from _lines_to(state, id_fields.collector_id_of(entry.body))


def lines_drained_of_day(state: JobState, entry: AnyEntry) -> Iterable[LineKey]:
    """Every line with pipe, or that drains to a collector with pipe, laid on a day that ends."""
    collectors = set()
    for one in state.current(WORK_ON, day_ended_by(entry)):
        if isinstance(one.body, PipeLaid):
            yield from line_of_pipe(state, one)
            collectors.add(one.body.collector_id)
    for collector_id in sorted(collectors):
        yield from _lines_to(state, collector_id)


def _lines_to(state: JobState, collector_id: str) -> Iterable[LineKey]:
    for surface in state.bodies(DRAINS_TO, collector_id) if collector_id else ():
        yield from lines_piped(state, surface.surface_id)


def every_key(index: Index[Body, str]) -> Subjects:
    """Keys of an index as subjects, every one, whatever the entry."""
    return lambda state, entry: state.every_name(index)


def day_ended_by(entry: AnyEntry) -> str:
    """The day that a signature, a closing or tomorrow's needs bring to its end."""
    return id_fields.act_day_of(entry.body) or entry.day


def _lines_cut(cut: PassCut) -> Iterator[LineKey]:
    return (line_key(cut.surface_id, line_id) for line_id in cut.line_ids)


DAY_ENDS = ("signature", "day_closed", "tomorrow")
"""Kinds that bring a day to its end."""

PROBED: dict[str, Subjects] = {
    "pass": passes_along,
    "probe": passes_along,
    "surface": passes_of_surface,
}
"""What touches the probes of a pass."""

PROBED_WHEN_DONE: dict[str, Subjects] = {
    **PROBED,
    "pass": passes_done_along,
    "sand_placed": pass_of_entry,
    "watered_in": pass_of_entry,
    "turf_strip": passes_of_lines,
    **dict.fromkeys(DAY_ENDS, passes_of_day),
}
"""What touches the probes of a pass and whether the crew has gone on from it."""
