"""The covering's view: layers over a range, protection, and what is missing before release."""

from __future__ import annotations

from collections.abc import Sequence

from crewapp.job.open_job import OpenJob
from crewapp.kit.look.palette import Status
from crewapp.pages.go_ahead.presenter import trench_view
from crewapp.pages.grade.covering.view import (
    FLAGS,
    LASER,
    LAYER_WORDS,
    PROTECT,
    PROTECTION_WORDS,
    SHOOT,
    CoverView,
    LayerKey,
    LayerRow,
    Mend,
    Range,
    uncovered_parts,
)
from crewapp.pages.lines.finding_line import finding_line
from crewapp.words.translate import say
from models.checks.flag_board import Flag
from models.entries.bodies.collector_work import HoldPoint, LayerCheck, TrenchProtection
from models.entries.bodies.levels import GradeShot
from models.entries.bodies.surfaces import Collector
from models.entries.index import EntryKind
from models.entries.kind_names import COLLECTOR, HOLD_POINT, LAYER_CHECK, PERSON, TRENCH_PROTECTION
from models.plan.collector import CollectorDesign, Layer
from models.queries.grade.laid_pipe import inverts
from models.queries.grade.released_inverts import count_inverts
from models.queries.levelling.peg_tests import unproven_laser
from models.state.job_state import JobState
from models.units.station import StationRange

_UNDER_COVER: frozenset[Layer] = frozenset({"bedding", "pipe", "tracer_wire"})
"""Layers that nobody sees again once a length is covered."""
_MENDS: dict[str, Mend] = {
    "trench_without_protection": PROTECT,
    "bedding_thin": LayerKey("bedding"),
    "wire_not_continuous": LayerKey("tracer_wire"),
    **dict.fromkeys(
        (
            "grade_out",
            "adverse_fall",
            "belly",
            "reach_flat",
            "reach_too_short_to_tell",
            "shots_too_far_apart",
        ),
        SHOOT,
    ),
}
"""Key that puts right what a check found; for the others it is the list of flags."""
_STATION_FACTS = ("station_nm", "from_nm", "to_nm")


def cover_view(
    job: OpenJob, collector_id: str = "", from_nm: int | None = None, to_nm: int | None = None
) -> CoverView:
    """Read the layers of a range; without one, of what is shot and not yet released."""
    collector = job.state.latest(COLLECTOR, collector_id)
    if not isinstance(collector, Collector):
        return CoverView(collector_id, job.figures, 0, 0, 0, 0, 1)
    design = collector.design
    whole = (design.start_nm, design.start_nm + design.length_nm)
    first = _open_range(job.state, collector_id, design, whole)
    part = (first[0] if from_nm is None else from_nm, first[1] if to_nm is None else to_nm)
    part = (min(part), max(part))
    bare = uncovered_parts(part, _ranges(job.state, HOLD_POINT, collector_id))
    protection, protection_status = _protection(job, collector_id, part)
    missing = _missing(job, collector, part)
    return CoverView(
        collector_id=collector_id,
        figures=job.figures,
        from_nm=part[0],
        to_nm=part[1],
        start_nm=whole[0],
        end_nm=whole[1],
        step_nm=design.shot_every_nm,
        layers=tuple(_layer(job, collector_id, layer, part) for layer in design.layers),
        protection=protection,
        protection_status=protection_status,
        release=say("Released to cover") if not bare else say("Not released yet"),
        is_released=not bare,
        inverts=_proven_words(job.state, collector_id, part),
        missing=tuple(text for _, text in missing),
        mend=missing[0][0] if missing else None,
        people=tuple(job.state.every_name(PERSON)) or ((job.author,) if job.author else ()),
    )


def _proven_words(state: JobState, collector_id: str, part: Range) -> str:
    """Say how many inverts of a range are proven, how many hold as read, and how many are out."""
    found = count_inverts(state, collector_id, StationRange.between(*part))
    if not found.total:
        return say("no invert shot")
    if found.out:
        return say(
            "{proven} proven, {read} as read, {out} out",
            proven=found.proven,
            read=found.as_read,
            out=found.out,
        )
    return say("{proven} proven, {read} as read", proven=found.proven, read=found.as_read)


def _open_range(state: JobState, collector_id: str, design: CollectorDesign, whole: Range) -> Range:
    """From where the last release ends to the farthest invert shot.

    While nothing beyond it is shot, what was released last: its cover is still to come.
    """
    released = _ranges(state, HOLD_POINT, collector_id)
    bare = uncovered_parts(whole, released)
    low = bare[0][0] if bare else whole[0]
    shot = [one.station_nm for one in inverts(state, collector_id, design.bore_nm)]
    beyond = [one for one in shot if one > low]
    if released and (not beyond or not bare):
        return released[-1]
    return low, min(max(beyond, default=low + design.shot_every_nm), whole[1])


def _ranges(
    state: JobState,
    kind: EntryKind[HoldPoint | LayerCheck | TrenchProtection],
    collector_id: str,
) -> list[Range]:
    return [(body.from_nm, body.to_nm) for body in state.bodies(kind, collector_id)]


def _layer(job: OpenJob, collector_id: str, layer: Layer, part: Range) -> LayerRow:
    checks = [body for body in job.state.bodies(LAYER_CHECK, collector_id) if body.layer == layer]
    within = [body for body in checks if body.from_nm < part[1] and body.to_nm > part[0]]
    if not within:
        return LayerRow(layer, say("not checked"))
    if any(body.continuous is False for body in within[-1:]):
        return LayerRow(layer, say("broken"), Status.OUT)
    bare = uncovered_parts(part, [(body.from_nm, body.to_nm) for body in within])
    if bare:
        low, high = (job.figures.station(one) for one in bare[0])
        return LayerRow(layer, say("lacks {low} to {high}", low=low, high=high), Status.CHECK)
    thin = [body.thickness_nm for body in within if body.thickness_nm is not None]
    return LayerRow(layer, job.figures.depth(min(thin)) if thin else say("checked"), Status.OK)


def _protection(job: OpenJob, collector_id: str, part: Range) -> tuple[str, str]:
    """What is noted over the range; good only where the whole trench is protected today."""
    ahead = trench_view(job, collector_id)
    notes = [
        body
        for body in job.state.bodies(TRENCH_PROTECTION, collector_id)
        if body.from_nm < part[1] and body.to_nm > part[0]
    ]
    if ahead.is_no or not notes:
        return (ahead.title if ahead.is_no else say("nothing noted")), ahead.status
    last = notes[-1]
    words = say(PROTECTION_WORDS[last.protection])
    return say("{what}, judged by {name}", what=words, name=last.judged_by), ahead.status


Missing = tuple[Mend, str]
"""Where it is put right, and what is missing in words."""


def _missing(job: OpenJob, collector: Collector, part: Range) -> list[Missing]:
    """Say all that a careful eye would want before this range is covered."""
    name = collector.collector_id
    ahead = trench_view(job, name)
    found: list[Missing] = [(PROTECT, ahead.sentence)] if ahead.is_no else []
    for layer in (one for one in collector.design.layers if one in _UNDER_COVER):
        row = _layer(job, name, layer, part)
        if row.status != Status.OK:
            words = say("{layer}: {text}", layer=say(LAYER_WORDS[row.layer]), text=row.text)
            found.append((LayerKey(layer), words))
    found += [(LASER, text) for text in _unproven(job, collector, part)]
    found += [(SHOOT, text) for text in _unshot(job, collector, part)]
    flags = [flag for flag in job.board.open_flags() if _is_here(flag, name, part)]
    return found + [
        (_MENDS.get(flag.finding.check, FLAGS), finding_line(flag.finding, job.figures))
        for flag in flags
    ]


def _unproven(job: OpenJob, collector: Collector, part: Range) -> list[str]:
    """Say which laser of the shots here no peg test proves: a release of them would stop."""
    shots = inverts(job.state, collector.collector_id, collector.design.bore_nm)
    bodies = [one.entry.body for one in shots if part[0] <= one.station_nm <= part[1]]
    setups = dict.fromkeys(body.setup_id for body in bodies if isinstance(body, GradeShot))
    proofs = [proof for name in setups if (proof := unproven_laser(job.state, name)) is not None]
    lasers = dict.fromkeys(proof.name for proof in proofs)
    return [say("{laser} not proven: peg test wanted", laser=name) for name in lasers]


def _unshot(job: OpenJob, collector: Collector, part: Range) -> list[str]:
    """Say between which stations no invert was shot."""
    design = collector.design
    shot = [one.station_nm for one in inverts(job.state, collector.collector_id, design.bore_nm)]
    inside = [part[0], *(one for one in shot if part[0] < one < part[1]), part[1]]
    gaps = [
        (low, high)
        for low, high in zip(inside, inside[1:], strict=False)
        if high - low > design.shot_every_nm or not {low, high} & set(shot)
    ]
    station = job.figures.station
    return [
        say("no invert shot {low} to {high}", low=station(low), high=station(high))
        for low, high in gaps
    ]


def _is_here(flag: Flag, collector_id: str, part: Range) -> bool:
    """Whether an open flag is about this range, or about the collector as a whole."""
    if collector_id not in flag.finding.subject.split("/"):
        return False
    facts = flag.finding.facts
    stations = [value for key in _STATION_FACTS if isinstance(value := facts.get(key), int)]
    return not stations or _meets(stations, part)


def _meets(stations: Sequence[int], part: Range) -> bool:
    return min(stations) <= part[1] and max(stations) >= part[0]


def release_author(state: JobState, collector_id: str) -> str:
    """Return who gave leave to cover last."""
    last = state.latest(HOLD_POINT, collector_id)
    return last.released_by if isinstance(last, HoldPoint) else ""
