"""Surfaces, lines and probes of an as-built, read off the job state."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from fractions import Fraction

from models.entries.bodies.passes import PassCut, PipeLaid, Probe
from models.entries.bodies.planning import SurfaceLayout
from models.entries.bodies.surfaces import LinePlace, Surface
from models.entries.envelope import Entry
from models.entries.keys import line_key
from models.entries.kind_names import LAYOUT, PASS, PROBE, SAND_PLACED, SURFACE
from models.ledger.current_readings import overtaken_probes
from models.ledger.ledger import ledger_of
from models.science.quality.verdict import Verdict, judge
from models.state.indexes import CUTS_OF, PIPE_IN_LINE
from models.state.job_state import JobState
from sync.papers.asbuilt.features.answers import Answers
from sync.papers.asbuilt.features.course import Place, course_of, place_along
from sync.papers.asbuilt.features.feature_types import (
    KeepOut,
    LineAsCut,
    LineStatus,
    ProbeAt,
    SurfaceArea,
)
from sync.papers.day.facts.slits import current_of, depth_limits, pattern_of, use_of, width_limits


def surfaces_of(state: JobState, lines: tuple[LineAsCut, ...]) -> tuple[SurfaceArea, ...]:
    """Every surface of the plan, in the order of the book."""
    cut_nm: dict[str, int] = defaultdict(int)
    for line in lines:
        cut_nm[line.surface_id] += line.cut_nm if line.planned_nm is not None else 0
    found = (state.latest(SURFACE, name) for name in state.every_name(SURFACE))
    return tuple(
        _area(one, state.latest(LAYOUT, one.surface_id), cut_nm[one.surface_id])
        for one in found
        if isinstance(one, Surface)
    )


def _area(surface: Surface, layout: object, cut_nm: int) -> SurfaceArea:
    planned = layout if isinstance(layout, SurfaceLayout) else None
    return SurfaceArea(
        surface_id=surface.surface_id,
        name=surface.name,
        use=surface.use,
        outline=course_of(surface.outline),
        keep_outs=tuple(
            KeepOut(
                one.name, course_of(one.edge), tuple(map(course_of, one.islands)), one.clearance_nm
            )
            for one in (planned.keep_outs if planned else ())
        ),
        setback_nm=planned.setback_nm if planned else 0,
        n_lines=len(surface.lines),
        planned_nm=sum(line.length_nm for line in surface.lines),
        cut_nm=cut_nm,
        note=surface.note,
    )


def line_place(state: JobState, surface_id: str, line_id: str) -> LinePlace | None:
    """Where the plan has a line, or None."""
    surface = state.latest(SURFACE, surface_id)
    return surface.places.get(line_id) if isinstance(surface, Surface) else None


def line_ends(state: JobState, surface_id: str, line_id: str) -> tuple[Place, Place] | None:
    """Start and end of a line as planned, or None."""
    place = line_place(state, surface_id, line_id)
    if place is None:
        return None
    line = place.line
    return Place(line.x1_nm, line.y1_nm), Place(line.x2_nm, line.y2_nm)


def probe_place(state: JobState, surface_id: str, probe: Probe) -> Place | None:
    """Where a probe was taken: its distance along the line's planned course."""
    ends = line_ends(state, surface_id, probe.line_id)
    return place_along(ends, probe.along_nm) if ends else None


def probes_of_job(state: JobState, answers: Answers) -> tuple[ProbeAt, ...]:
    """Probes of every pass that count, in the order of the book."""
    found = []
    for pass_id in state.every_name(PASS):
        cut = state.latest(PASS, pass_id)
        if cut is None:
            continue
        gone = {
            one.id
            for line_id in dict.fromkeys(cut.line_ids)
            for one, _ in overtaken_probes(state, cut.surface_id, line_id)
        }
        for taken in state.current(PROBE, pass_id):
            if taken.id not in gone:
                found.append(_probe_at(state, cut.surface_id, taken, answers))
    return tuple(found)


def _probe_at(state: JobState, surface_id: str, entry: Entry[Probe], answers: Answers) -> ProbeAt:
    probe = entry.body
    use = use_of(state, surface_id, probe.line_id)
    pattern = pattern_of(state, surface_id, use)
    low, high = depth_limits(pattern)
    depth = judge(probe.depth_nm, low, high) if pattern else Verdict.NOT_MEASURED
    width = judge(probe.width_nm, *width_limits(pattern)) if pattern else Verdict.NOT_MEASURED
    return ProbeAt(
        surface_id=surface_id,
        line_id=probe.line_id,
        pass_id=probe.pass_id,
        use=use,
        along_nm=probe.along_nm,
        at=probe_place(state, surface_id, probe),
        depth_nm=probe.depth_nm,
        depth_typed=probe.depth_typed,
        low_nm=low,
        high_nm=high,
        width_nm=probe.width_nm,
        verdict=Verdict.OUT if Verdict.OUT in (depth, width) else depth,
        answered=answers.of(entry.id),
        day=entry.day,
        author=entry.author,
    )


def lines_of_job(state: JobState, probes: tuple[ProbeAt, ...]) -> tuple[LineAsCut, ...]:
    """Every planned line, then lines that were cut though no plan has them."""
    probes_on: dict[tuple[str, str], list[ProbeAt]] = defaultdict(list)
    for probe in probes:
        probes_on[(probe.surface_id, probe.line_id)].append(probe)
    return tuple(_line(state, *key, probes_on[key]) for key in _keys(state))


def _keys(state: JobState) -> Iterator[tuple[str, str]]:
    plans = ((name, state.latest(SURFACE, name)) for name in state.every_name(SURFACE))
    planned = {
        (name, line.line_id): None
        for name, surface in plans
        if surface is not None
        for line in surface.lines
    }
    yield from planned
    cut = {
        (entry.body.surface_id, line_id): None
        for entry in current_of(state, PASS)
        for line_id in entry.body.line_ids
    }
    yield from (key for key in cut if key not in planned)


def _line(state: JobState, surface_id: str, line_id: str, probes: list[ProbeAt]) -> LineAsCut:
    filed = state.current(CUTS_OF, line_key(surface_id, line_id))
    entries = list({entry.id: entry for entry in filed}.values())
    cuts = [one.body for one in entries]
    pipes = _pipes_in(state, surface_id, line_id)
    ends = line_ends(state, surface_id, line_id)
    place = line_place(state, surface_id, line_id)
    use = use_of(state, surface_id, line_id)
    pattern = pattern_of(state, surface_id, use)
    low, high = depth_limits(pattern)
    depths = [probe.depth_nm for probe in probes]
    tally = ledger_of(state).line(surface_id, line_id)
    sand = [_share(state, one, line_id) for one in entries]
    return LineAsCut(
        surface_id=surface_id,
        line_id=line_id,
        use=use,
        status=_status(cuts, pipes, probes),
        start=ends[0] if ends else None,
        end=ends[1] if ends else None,
        planned_nm=place.line.length_nm if place else None,
        pass_ids=tuple(dict.fromkeys(cut.pass_id for cut in cuts)),
        days=tuple(dict.fromkeys(entry.day for entry in entries)),
        cut_nm=tally.done + tally.off_plan,
        again_nm=tally.again,
        beyond_nm=tally.beyond,
        cut=tuple((one.from_nm, one.to_nm) for one in tally.cut),
        n_probes=len(probes),
        n_out=sum(probe.verdict is Verdict.OUT for probe in probes),
        least_nm=min(depths, default=None),
        mean_nm=Fraction(sum(depths), len(depths)) if depths else None,
        most_nm=max(depths, default=None),
        low_nm=low,
        high_nm=high,
        pipe_nm=sum(pipe.length_nm for pipe in pipes),
        pipe_materials=tuple(dict.fromkeys(pipe.material_id for pipe in pipes)),
        is_connected=any(pipe.connected for pipe in pipes),
        is_end_capped=any(pipe.end_capped for pipe in pipes),
        sand_pl=sum((share[0] for share in sand), Fraction(0)),
        sand_ug=sum((share[1] for share in sand), Fraction(0)),
        spacing_nm=pattern.spacing_nm if pattern else 0,
    )


def _pipes_in(state: JobState, surface_id: str, line_id: str) -> list[PipeLaid]:
    laid = state.bodies(PIPE_IN_LINE, line_key(surface_id, line_id))
    return list(laid)


def _share(state: JobState, entry: Entry[PassCut], line_id: str) -> tuple[Fraction, Fraction]:
    """Sand of a pass that falls to one of its lines, by the lengths cut: by volume and by mass."""
    pieces = ledger_of(state).pieces_in(entry)
    own_nm = sum(one.length_nm for one in pieces if one.line_id == line_id)
    all_nm = sum(one.length_nm for one in pieces)
    sand = list(state.bodies(SAND_PLACED, entry.body.pass_id))
    if not all_nm:
        return Fraction(0), Fraction(0)
    share = Fraction(own_nm, all_nm)
    return (
        share * sum(one.volume_pl or 0 for one in sand),
        share * sum(one.mass_ug or 0 for one in sand),
    )


def _status(cuts: list[PassCut], pipes: list[PipeLaid], probes: list[ProbeAt]) -> LineStatus:
    out = [probe for probe in probes if probe.verdict is Verdict.OUT]
    if out:
        is_accepted = all(probe.answered.is_accepted for probe in out)
        return LineStatus.ACCEPTED if is_accepted else LineStatus.OUT
    if pipes:
        return LineStatus.PIPED
    return LineStatus.CUT if cuts else LineStatus.PLANNED
