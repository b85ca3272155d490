"""The life of one line: planned, cut, probed, filled, flagged, and what was struck of it."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from crewapp.job.open_job import OpenJob
from crewapp.kit.look.palette import Status
from crewapp.pages.flags.view import ANSWER_WORDS
from crewapp.pages.lines.finding_line import finding_line
from crewapp.pages.plan.view import Row
from crewapp.words.dates import full_day
from crewapp.words.translate import say, translate_later
from models.checks.finding import Severity
from models.checks.flag_board import Flag
from models.checks.materials.pass_sand import sand_work
from models.checks.slits.pass_work import Reading, is_depth_out, is_width_out, pass_work
from models.entries.bodies.passes import PassCut, PipeLaid, Probe
from models.entries.bodies.planning import SurfaceLayout
from models.entries.bodies.surfaces import Surface
from models.entries.envelope import AnyEntry, Entry
from models.entries.id_fields import pass_id_of, surface_id_of
from models.entries.keys import line_key
from models.entries.kind_names import LAYOUT, PASS, SAND_PLACED, WATERED_IN
from models.plan.line import PlannedLine
from models.state.indexes import CUTS_OF, PIPE_IN_LINE, TURF_OF
from models.units import round_half_even

USE_WORDS = {"sand_slit": translate_later("sand slit"), "piped_slit": translate_later("piped slit")}
_TURF_WORDS = {
    "lifted": translate_later("turf strip lifted"),
    "put_back": translate_later("turf strip put back"),
    "rolled": translate_later("turf strip rolled"),
}


def line_life(job: OpenJob, surface: Surface, line_id: str) -> tuple[Row, ...]:
    """Read all that was planned for a line and written of it, oldest first."""
    place = surface.places.get(line_id)
    rows: list[Row] = []
    if place is not None:
        rows.append(_planned(job, surface, place.line))
    cuts = job.state.current(CUTS_OF, line_key(surface.surface_id, line_id))
    for entry in cuts:
        rows += _cut(job, entry, line_id)
    if not cuts:
        rows.append(Row(say("Not cut yet"), status=Status.NOT_MEASURED))
    rows += _pipe(job, surface.surface_id, line_id)
    turf = job.state.latest(TURF_OF, line_key(surface.surface_id, line_id))
    if turf is not None:
        rows.append(Row(say("Turf"), say(_TURF_WORDS[turf.step])))
    passes = {entry.body.pass_id for entry in cuts}
    rows += _flags(job, surface.surface_id, line_id, passes)
    rows += _struck(job, surface.surface_id, line_id)
    return tuple(rows)


def _planned(job: OpenJob, surface: Surface, line: PlannedLine) -> Row:
    layout: SurfaceLayout | None = job.state.latest(LAYOUT, surface.surface_id)
    told_more = [say(USE_WORDS[line.use])]
    for drive in layout.drives if layout else ():
        if line.line_id in drive.line_ids:
            told_more.append(say("drive {number}", number=drive.number))
    for end in layout.ends if layout else ():
        if end.line_id == line.line_id:
            station = job.figures.station(end.station_nm)
            told_more.append(
                say("joins {name} at {station}", name=_named(surface), station=station)
            )
    return Row(say("Planned"), ", ".join(told_more), job.figures.length(line.length_nm))


def _named(surface: Surface) -> str:
    return surface.collector_id or say("the collector")


def _cut(job: OpenJob, entry: Entry[PassCut], line_id: str) -> Iterator[Row]:
    """Give what stands of one pass over the line: its length, probes, sand."""
    cut = entry.body
    who = [say("pass {name}", name=cut.pass_id), cut.machine_id, entry.author]
    yield Row(
        say("Cut {day}", day=full_day(entry.day, job.figures.is_us)),
        ", ".join(part for part in who if part),
        job.figures.length(cut.length_nm),
    )
    work = pass_work(job.state, cut.pass_id)
    yield _probes(job, work.readings_on.get(line_id, []) if work else [])
    sand = sand_work(job.state, cut.pass_id)
    if sand is not None and sand.due_pl:
        ratio = Fraction(sand.placed_pl) / sand.due_pl
        is_off = sand.is_short or sand.is_over
        yield Row(
            say("Sand of the pass"),
            say(
                "{placed} in, the cut holds {due}",
                placed=_volume(job, sand.placed_pl),
                due=_volume(job, sand.due_pl),
            ),
            f"{float(ratio):.2f}",
            Status.CHECK if is_off else Status.OK,
        )
    elif job.state.current(SAND_PLACED, cut.pass_id):
        yield Row(say("Sand of the pass"), say("placed, no verdict yet"), status=Status.CHECK)
    if job.state.current(WATERED_IN, cut.pass_id):
        yield Row(say("Watered in"))


def _volume(job: OpenJob, pl: int | Fraction) -> str:
    return job.figures.volume(round(pl))


def _probes(job: OpenJob, readings: list[Reading]) -> Row:
    title = say("Probes")
    if not readings:
        return Row(title, say("none on this line"), status=Status.NOT_MEASURED)
    depths = [reading.probe.depth_nm for reading in readings]
    mean = round_half_even(Fraction(sum(depths), len(depths)), 1)
    out = sum(is_depth_out(one) or is_width_out(one) for one in readings)
    show = job.figures.depth
    detail = say(
        "least {least}, mean {mean}, most {most}",
        least=show(min(depths)),
        mean=show(mean),
        most=show(max(depths)),
    )
    if out:
        detail = say("{detail}; {count} out", detail=detail, count=out)
    return Row(title, detail, str(len(depths)), Status.OUT if out else Status.OK)


def _pipe(job: OpenJob, surface_id: str, line_id: str) -> Iterator[Row]:
    for entry in job.state.current(PIPE_IN_LINE, line_key(surface_id, line_id)):
        pipe = entry.body
        more = [pipe.material_id, say("coil {name}", name=pipe.coil_id) if pipe.coil_id else ""]
        more.append(say("joined") if pipe.connected else say("not joined yet"))
        if pipe.end_capped:
            more.append(say("end capped"))
        yield Row(
            say("Pipe {day}", day=full_day(entry.day, job.figures.is_us)),
            ", ".join(part for part in more if part),
            job.figures.length(pipe.length_nm),
        )


def _flags(job: OpenJob, surface_id: str, line_id: str, passes: set[str]) -> Iterator[Row]:
    for flag in job.board.flags():
        if not _is_about(job, flag, surface_id, line_id, passes):
            continue
        text = finding_line(flag.finding, job.figures)
        if flag.answer is not None:
            answer = flag.answer.body
            detail = say(
                "{answer} by {who}: {why}",
                answer=say(ANSWER_WORDS.get(answer.answer, answer.answer)),
                who=flag.answer.author,
                why=answer.why,
            )
            yield Row(text, detail, status=Status.OK)
        else:
            status = Status.OUT if flag.severity is Severity.STOP else Status.CHECK
            yield Row(text, say("open"), status=status)


def _is_about(job: OpenJob, flag: Flag, surface_id: str, line_id: str, passes: set[str]) -> bool:
    """Whether a flag is about this line: by its facts, or by what it rests on."""
    finding = flag.finding
    if finding.subject == f"{surface_id}/{line_id}":
        return True
    if line_id not in {str(finding.facts.get("line_id", "")), finding.place.split("/")[0]}:
        return False
    entries = (job.state.entries[id].body for id in finding.entries if id in job.state.entries)
    places = {finding.subject} | {surface_id_of(body) for body in entries}
    return bool(places & (passes | {surface_id}))


def _struck(job: OpenJob, surface_id: str, line_id: str) -> Iterator[Row]:
    """Give what was crossed out: readings and passes of the line, with the reason."""
    for id in job.state.struck_by:
        entry = job.state.entries.get(id)
        if entry is None or not _is_of(job, entry, surface_id, line_id):
            continue
        body = entry.body
        strikers = [job.state.entries.get(by) for by in job.state.struck_by[id]]
        reason = "; ".join(one.reason for one in strikers if one is not None and one.reason)
        what = say("Struck: pass {name}", name=pass_id_of(body))
        figure = ""
        if isinstance(body, Probe):
            what = say("Struck: probe at {along}", along=job.figures.length(body.along_nm))
            figure = job.figures.depth(body.depth_nm)
        elif isinstance(body, PipeLaid):
            what, figure = say("Struck: pipe"), job.figures.length(body.length_nm)
        yield Row(what, reason, figure)


def _is_of(job: OpenJob, entry: AnyEntry, surface_id: str, line_id: str) -> bool:
    body = entry.body
    if isinstance(body, PassCut):
        return body.surface_id == surface_id and line_id in body.line_ids
    if isinstance(body, PipeLaid):
        return body.surface_id == surface_id and body.line_id == line_id
    if not isinstance(body, Probe) or body.line_id != line_id:
        return False
    filed = job.state.latest(PASS, body.pass_id)
    return filed is None or filed.surface_id == surface_id
