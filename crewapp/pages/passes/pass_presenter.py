"""Reads one pass: its lines, all that is written for it, its sand, turf and coils."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction

from crewapp.job.open_job import OpenJob
from crewapp.kit.look.palette import Status
from crewapp.pages.lines.entry_line import entry_line
from crewapp.pages.lines.undo_presenter import local_time
from crewapp.pages.passes.coils_presenter import coils_of
from crewapp.pages.passes.probe_places import ProbeRule
from crewapp.pages.passes.view import (
    TURF_STEPS,
    Choice,
    DepthLimits,
    LineWork,
    PassCard,
    PassEntry,
    SandCard,
    judge_depth,
)
from crewapp.words.translate import say
from models.checks.materials.pass_sand import SandWork, sand_work
from models.checks.slits.pass_work import is_depth_out, is_width_out, pass_work
from models.entries.bodies.passes import PassCut, PipeLaid, Probe
from models.entries.bodies.surfaces import Surface
from models.entries.body import Body
from models.entries.envelope import AnyEntry, Entry
from models.entries.id_fields import pass_id_of
from models.entries.keys import line_key
from models.entries.kind_names import MATERIAL, PASS, SAND_PLACED, WATERED_IN
from models.ledger.current_readings import overtaken_probes
from models.ledger.ledger import ledger_of
from models.state.indexes import PIPE_IN_LINE, TURF_OF
from models.units.percent import percent_beside_limits

_OF_A_PASS = frozenset({"pass", "probe", "sand_placed", "watered_in", "turf_strip", "pipe_laid"})


def pass_card(job: OpenJob, surface: Surface, pass_id: str) -> PassCard | None:
    """Read the card of a pass on a surface, or None if it does not stand there."""
    filed = job.state.current(PASS, pass_id)
    cut = filed[-1].body if filed else None
    if cut is None or cut.surface_id != surface.surface_id:
        return None
    lines = tuple(
        _line(job, surface, line_id, _stretch(job, filed[-1], line_id))
        for line_id in dict.fromkeys(cut.line_ids)
    )
    return PassCard(
        pass_id=pass_id,
        entry_id=filed[-1].id,
        lines=lines,
        length_nm=cut.length_nm,
        written=tuple(_written(job, cut, lines)),
        sand=_sand(job, pass_id),
        coils=coils_of(job) if any(one.use == "piped_slit" for one in lines) else (),
        turf_done=_turf_done(job, surface.surface_id, cut.line_ids),
        is_watered=bool(job.state.current(WATERED_IN, pass_id)),
    )


def pass_status(job: OpenJob, pass_id: str) -> str:
    """How the readings of a pass stand together."""
    work = pass_work(job.state, pass_id)
    if work is None or not work.readings:
        return Status.NOT_MEASURED
    is_out = any(is_depth_out(one) or is_width_out(one) for one in work.readings)
    return Status.OUT if is_out else Status.OK


def _stretch(job: OpenJob, entry: Entry[PassCut], line_id: str) -> tuple[int, int]:
    """What a pass cut of a line, from its first blade in to its last blade out."""
    own = [one for one in ledger_of(job.state).pieces_in(entry) if one.line_id == line_id]
    return min((one.from_nm for one in own), default=0), max((one.to_nm for one in own), default=0)


def _line(job: OpenJob, surface: Surface, line_id: str, stretch: tuple[int, int]) -> LineWork:
    place = surface.places.get(line_id)
    if place is None:
        return LineWork(line_id, "sand_slit", from_nm=stretch[0], to_nm=stretch[1])
    pattern, limits, rule = place.pattern, None, ProbeRule(0, 0)
    if pattern is not None:
        limits = DepthLimits(
            pattern.depth_nm,
            pattern.least_depth_nm,
            pattern.most_depth_nm,
            pattern.width_nm,
        )
        rule = ProbeRule(pattern.probe_every_nm, pattern.probe_end_nm)
    pipes = list(job.state.bodies(PIPE_IN_LINE, line_key(surface.surface_id, line_id)))
    laid = sum(pipe.length_nm for pipe in pipes)
    return LineWork(
        line_id,
        place.line.use,
        limits,
        rule,
        job.figures.length(laid) if pipes else "",
        *stretch,
    )


def _written(job: OpenJob, cut: PassCut, lines: tuple[LineWork, ...]) -> Iterator[PassEntry]:
    """Give all that is written for a pass, struck or not, newest first."""
    by_line = {line.line_id: line for line in lines}
    gone = {
        one.id
        for line_id in by_line
        for one, _ in overtaken_probes(job.state, cut.surface_id, line_id)
    }
    for entry in sorted(job.state.entries.values(), key=_turn, reverse=True):
        if entry.kind in _OF_A_PASS and entry.body is not None and _is_of(entry.body, cut):
            yield replace(_row(job, entry, by_line), is_overtaken=entry.id in gone)


def _turn(entry: AnyEntry) -> tuple[int, str]:
    return entry.lc, entry.id


def _is_of(body: Body, cut: PassCut) -> bool:
    """Whether an entry belongs to a pass: by its name, or by its line for pipe."""
    if isinstance(body, PipeLaid):
        return body.surface_id == cut.surface_id and body.line_id in cut.line_ids
    return pass_id_of(body) == cut.pass_id


def _row(job: OpenJob, entry: AnyEntry, by_line: dict[str, LineWork]) -> PassEntry:
    body = entry.body
    is_struck = job.state.is_struck(entry.id)
    detail = local_time(entry)
    if is_struck:
        reasons = [
            job.state.entries[id].reason
            for id in job.state.struck_by[entry.id]
            if id in job.state.entries
        ]
        detail = say("{time}, struck: {why}", time=detail, why="; ".join(reasons))
    if not isinstance(body, Probe):
        return PassEntry(
            entry.id, entry.kind, entry_line(entry, job.figures), detail, "", is_struck
        )
    line = by_line.get(body.line_id)
    verdict = judge_depth(line.limits if line else None, body.depth_nm, job.figures)
    title = say(
        "{line} at {along}: {verdict}",
        line=body.line_id,
        along=job.figures.length(body.along_nm),
        verdict=verdict.text,
    )
    if body.width_nm is not None:
        detail = say("{width} wide, {rest}", width=job.figures.depth(body.width_nm), rest=detail)
    return PassEntry(
        entry.id,
        entry.kind,
        title,
        detail,
        verdict.status,
        is_struck,
        body.line_id,
        body.along_nm,
        body.depth_nm,
    )


def _sand(job: OpenJob, pass_id: str) -> SandCard:
    sands = tuple(
        Choice(name, name, job.figures.volume(one.hopper_pl) if one.hopper_pl else "")
        for name in job.state.every_name(MATERIAL)
        if (one := job.state.latest(MATERIAL, name)) is not None and one.use == "sand"
    )
    work = sand_work(job.state, pass_id)
    if work is None:
        has_sand = bool(job.state.current(SAND_PLACED, pass_id))
        text = say("no verdict yet") if has_sand else say("no sand yet")
        why = say("a probe is out, or no box was weighed") if has_sand else ""
        status = Status.CHECK if has_sand else Status.NOT_MEASURED
        return SandCard(text, why, status, sands)
    ratio = Fraction(work.placed_pl) / work.due_pl
    detail = say(
        "{placed} in, the cut holds {due}",
        placed=job.figures.volume(round(work.placed_pl)),
        due=job.figures.volume(work.due_pl),
    )
    status, word = Status.OK, say("{ratio} of the cut")
    if work.is_short or work.is_over:
        status = Status.CHECK
        word = (
            say("{ratio} of the cut: short") if work.is_short else say("{ratio} of the cut: over")
        )
    share = _share(ratio, work)
    return SandCard(word.format(ratio=share), detail, status, sands, share)


def _share(ratio: Fraction, work: SandWork) -> str:
    """Sand as a share of the cut, never on the limit that it misses: 0.89, not 0.90."""
    low, high = (Fraction(limit, work.due_pl) for limit in (work.least_pl, work.most_pl))
    return percent_beside_limits(ratio, low, high, 2)


def _turf_done(job: OpenJob, surface_id: str, line_ids: tuple[str, ...]) -> tuple[str, ...]:
    """Steps of the turf strip done over every line of a pass since it was lifted last."""
    done: list[set[str]] = []
    for line_id in line_ids:
        steps: list[str] = []
        for turf in job.state.bodies(TURF_OF, line_key(surface_id, line_id)):
            steps = [turf.step] if turf.step == "lifted" else [*steps, turf.step]
        done.append(set(steps))
    return tuple(step for step in TURF_STEPS if done and all(step in one for one in done))
