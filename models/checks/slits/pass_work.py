"""Work of a pass: its entry, plan and probes, worked out once for all the checks that ask."""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple

from models.checks.memo import memoize
from models.entries.bodies.passes import PassCut, Probe
from models.entries.bodies.surfaces import LinePlace, Surface
from models.entries.envelope import AnyEntry, Entry
from models.entries.keys import line_key
from models.entries.kind_names import PASS, PROBE, SAND_PLACED, SURFACE, WATERED_IN
from models.ledger.current_readings import current_probes
from models.plan.pattern import SlitPattern
from models.state.indexes import DAY_ENDS, PASSES_ON, TURF_OF
from models.state.job_state import JobState


class Reading(NamedTuple):
    """A current probe with the pattern that it is judged by."""

    entry: AnyEntry
    probe: Probe
    pattern: SlitPattern


@dataclass(frozen=True, slots=True)
class PassWork:
    """A pass as it stands: its entry, its plan, and its probes line by line.

    ``readings`` hold the probes that count on lines that the plan knows, by line
    and by distance along it; ``depth_out`` and ``width_out`` are
    those of them that their pattern does not allow. ``readings_on`` has every
    line of the pass, also one without a probe.
    """

    entry: Entry[PassCut]
    cut: PassCut
    surface: Surface | None
    readings: tuple[Reading, ...]
    depth_out: tuple[Reading, ...]
    width_out: tuple[Reading, ...]
    readings_on: dict[str, list[Reading]]

    def place(self, line_id: str) -> LinePlace | None:
        """Where the plan has a line, or None where it has no such line."""
        return self.surface.places.get(line_id) if self.surface is not None else None

    def pattern(self, line_id: str) -> SlitPattern | None:
        """Pattern of a line, or None where the plan has none."""
        place = self.place(line_id)
        return place.pattern if place is not None else None


def surface_of(state: JobState, surface_id: str) -> Surface | None:
    """Plan of a surface, or None while there is none."""
    return state.latest(SURFACE, surface_id)


def pass_work(state: JobState, pass_id: str) -> PassWork | None:
    """Work of a pass as it stands, or None where no such pass is written."""
    return memoize(state, "pass_work", pass_id, lambda: _pass_work(state, pass_id))


def _pass_work(state: JobState, pass_id: str) -> PassWork | None:
    filed = state.current(PASS, pass_id)
    if not filed:
        return None
    cut = filed[-1].body
    surface = surface_of(state, cut.surface_id)
    readings = _readings(state, surface, filed[-1].body) if surface else ()
    on: dict[str, list[Reading]] = {line_id: [] for line_id in cut.line_ids}
    for reading in readings:
        if reading.probe.line_id in on:
            on[reading.probe.line_id].append(reading)
    return PassWork(
        filed[-1],
        cut,
        surface,
        readings,
        tuple(filter(is_depth_out, readings)),
        tuple(filter(is_width_out, readings)),
        on,
    )


def _readings(state: JobState, surface: Surface, cut: PassCut) -> tuple[Reading, ...]:
    """Probes of a pass that count: what was taken again after rework is overtaken, and stays.

    On a line that the pass did not cut the newest at each place counts.
    """
    last = {(one.body.line_id, one.body.along_nm): one for one in state.current(PROBE, cut.pass_id)}
    own = set(cut.line_ids)
    count = {
        probe.id
        for line_id in {line_id for line_id, _ in last} & own
        for probe in current_probes(state, cut.surface_id, line_id)
    }
    found = []
    for line_id, along_nm in sorted(last):
        entry, place = last[(line_id, along_nm)], surface.places.get(line_id)
        if place is None or place.pattern is None or (line_id in own and entry.id not in count):
            continue
        found.append(Reading(entry, entry.body, place.pattern))
    return tuple(found)


def has_day_ended(state: JobState, day: str) -> bool:
    """Whether somebody signed or closed a day, or wrote down what the next one needs."""
    return bool(state.current(DAY_ENDS, day))


def is_covered(state: JobState, surface_id: str, line_id: str) -> bool:
    """Whether the turf strip over a line lies again."""
    turf = state.latest(TURF_OF, line_key(surface_id, line_id))
    return turf is not None and turf.step != "lifted"


def is_pass_covered(state: JobState, cut: PassCut) -> bool:
    """Whether the turf strip over any line of a pass lies again."""
    return any(is_covered(state, cut.surface_id, line_id) for line_id in cut.line_ids)


def is_filled(state: JobState, cut: PassCut) -> bool:
    """Whether sand went into a pass, or it is watered in or covered."""
    return bool(
        state.current(SAND_PLACED, cut.pass_id)
        or state.current(WATERED_IN, cut.pass_id)
        or is_pass_covered(state, cut)
    )


def is_pass_done(state: JobState, work: PassWork) -> bool:
    """Whether the crew has gone on from a pass, so that its probes should be there.

    While the pass is under way, a probe that is still to be taken is no fault.
    """
    passes = state.current(PASSES_ON, work.cut.surface_id)
    return (
        passes[-1].id != work.entry.id
        or is_filled(state, work.cut)
        or has_day_ended(state, work.entry.day)
    )


def is_depth_out(reading: Reading) -> bool:
    """Whether a probe is shallower or deeper than its pattern allows."""
    depth_nm, pattern = reading.probe.depth_nm, reading.pattern
    return not pattern.least_depth_nm <= depth_nm <= pattern.most_depth_nm


def is_width_out(reading: Reading) -> bool:
    """Whether a width was read that its pattern does not allow."""
    width_nm, pattern = reading.probe.width_nm, reading.pattern
    return width_nm is not None and abs(width_nm - pattern.width_nm) > pattern.width_tolerance_nm
