"""Reads what the Pass screen shows."""

from __future__ import annotations

from crewapp.job.dispatch import answers
from crewapp.job.open_job import OpenJob
from crewapp.kit.input.body_questions import Question, question_of
from crewapp.pages.go_ahead.presenter import cutting_view
from crewapp.pages.passes.pass_presenter import pass_card, pass_status
from crewapp.pages.passes.view import Choice, PassView, PlanLeft, ShowPass
from crewapp.pages.plan.drawing_presenter import read_plan_picture
from crewapp.words.translate import say, translate_later
from models.entries.bodies.job import Machine
from models.entries.bodies.passes import PassCut
from models.entries.bodies.surfaces import Surface
from models.entries.keys import line_key
from models.entries.kind_names import BLADE_SET, BY_NAME, MACHINE, PROBE, SURFACE
from models.entries.shows import MarkedField, marked_fields
from models.plan.line import LineUse
from models.queries.layout.drive_pieces import plan_pass
from models.queries.layout.next_pass import is_cut, next_lines
from models.state.indexes import PASSES, PASSES_ON, TURF_OF

USE_WORDS: dict[LineUse, str] = {
    "sand_slit": translate_later("Sand slits"),
    "piped_slit": translate_later("Piped slits"),
}
BLADE_WORDS: dict[str, str] = {
    "changed": translate_later("Changed"),
    "sharpened": translate_later("Sharpened"),
    "depth_set": translate_later("Depth set"),
    "wheel_set": translate_later("Wheel set"),
}


@answers(ShowPass)
def pass_view(job: OpenJob, query: ShowPass) -> PassView:
    """Read the view of a surface; what is not chosen is proposed."""
    surfaces = _surfaces(job)
    surface = surfaces.get(query.surface_id) or _first_with_work(job, surfaces)
    if surface is None:
        return PassView(job.figures, job_name=job.name)
    machine = _machine(job, surface, query.machine_id)
    uses = [one for one in USE_WORDS if surface.pattern_of(one) or surface.courses[one]]
    chosen = next((one for one in uses if one == query.use), None) or _use_left(job, surface, uses)
    known = set(surface.courses[chosen])
    lines = tuple(name for name in query.picked if name in known)
    if not lines:
        lines = tuple(line.line_id for line in next_lines(job.state, surface, chosen, machine))
    card = pass_card(job, surface, query.pass_id) if query.pass_id else None
    shown = tuple(line.line_id for line in card.lines) if card else lines
    return PassView(
        figures=job.figures,
        surface_id=surface.surface_id,
        surface_name=surface.name,
        ground=surface.use,
        picture=read_plan_picture(job, surface, job.clock.now().day, shown),
        surfaces=tuple(_surface_choice(job, one) for one in surfaces.values()),
        machines=_machine_choices(job),
        machine_id=machine.machine_id if machine else "",
        use=chosen,
        uses=tuple(_use_choice(job, surface, one) for one in uses),
        lines=_lines(job, surface, chosen),
        picked=lines,
        lifted=_lifted(job, surface, lines),
        passes=_passes(job, surface),
        blades=_blades(machine),
        blade_text=_blade_text(job, machine),
        sod_text=_sod_text(job, surface),
        card=card,
        ahead=cutting_view(job, surface.surface_id, surface.name) if lines else None,
        job_name=job.name,
        questions=_questions(job),
        drive=plan_pass(job.state, surface, lines, machine),
    )


def _questions(job: OpenJob) -> tuple[Question, ...]:
    """What may be said of a pass by the fields of its body that are asked for."""
    asked = [field for field in marked_fields(PassCut) if field.shows.asks]
    return tuple(question_of(field, job.figures, _names(job, field)) for field in asked)


def _names(job: OpenJob, field: MarkedField) -> list[str]:
    """Names that the job has for what a field names."""
    kind = BY_NAME.get(field.shows.choices)
    return job.state.every_name(kind) if kind is not None else []


def _surfaces(job: OpenJob) -> dict[str, Surface]:
    found = {name: job.state.latest(SURFACE, name) for name in job.state.every_name(SURFACE)}
    return {name: one for name, one in found.items() if isinstance(one, Surface) and one.lines}


def _first_with_work(job: OpenJob, surfaces: dict[str, Surface]) -> Surface | None:
    """Surface worked on last, or else the first that has lines left."""
    passes = job.state.current(PASSES)
    last = passes[-1].body if passes else None
    if last is not None and last.surface_id in surfaces:
        return surfaces[last.surface_id]
    for surface in surfaces.values():
        if any(not is_cut(job.state, surface.surface_id, x.line_id) for x in surface.lines):
            return surface
    return next(iter(surfaces.values()), None)


def _machine(job: OpenJob, surface: Surface, machine_id: str) -> Machine | None:
    """Cutter chosen; or the one used last here; or one with a single leg on a green."""
    cutters = _cutters(job)
    passes = job.state.current(PASSES_ON, surface.surface_id)
    last = passes[-1].body if passes else None
    for name in (machine_id, last.machine_id if last is not None else ""):
        if name in cutters:
            return cutters[name]
    if surface.use == "green":
        return min(cutters.values(), key=lambda one: one.legs, default=None)
    return next(iter(cutters.values()), None)


def _cutters(job: OpenJob) -> dict[str, Machine]:
    found = {name: job.state.latest(MACHINE, name) for name in job.state.every_name(MACHINE)}
    return {name: one for name, one in found.items() if isinstance(one, Machine) and one.legs}


def _machine_choices(job: OpenJob) -> tuple[Choice, ...]:
    return tuple(
        Choice(name, name, say("{legs:leg|legs}", legs=one.legs))
        for name, one in _cutters(job).items()
    )


def _blades(machine: Machine | None) -> tuple[Choice, ...]:
    """What may be done to all blades of a machine, then to each of several."""
    if machine is None:
        return ()
    legs = range(machine.legs + 1) if machine.legs > 1 else (0,)
    return tuple(
        Choice(
            f"blade:{leg}:{what}",
            say(words),
            say("leg {leg}", leg=leg) if leg else say("all blades"),
        )
        for leg in legs
        for what, words in BLADE_WORDS.items()
    )


def _blade_text(job: OpenJob, machine: Machine | None) -> str:
    done = job.state.latest(BLADE_SET, machine.machine_id) if machine is not None else None
    return say(BLADE_WORDS[done.what]) if done is not None else ""


def _sod_text(job: OpenJob, surface: Surface) -> str:
    """Thickness of the sod as it was given last on a surface today, or ""."""
    today = job.clock.now().day
    newest: tuple[int, int] | None = None
    for line in surface.lines:
        for entry in job.state.current(TURF_OF, line_key(surface.surface_id, line.line_id)):
            sod_nm = entry.body.sod_nm
            if entry.day == today and sod_nm is not None:
                newest = max(newest or (0, 0), (entry.lc, sod_nm))
    return job.figures.depth(newest[1]) if newest is not None else ""


def _surface_choice(job: OpenJob, surface: Surface) -> Choice:
    left = sum(not is_cut(job.state, surface.surface_id, x.line_id) for x in surface.lines)
    return Choice(surface.surface_id, surface.name, say("{count:line|lines} left", count=left))


def _use_left(job: OpenJob, surface: Surface, uses: list[LineUse]) -> LineUse:
    """First use that has lines left to cut."""
    for use in uses:
        names = surface.courses[use]
        if any(not is_cut(job.state, surface.surface_id, name) for name in names):
            return use
    return uses[0] if uses else "sand_slit"


def _use_choice(job: OpenJob, surface: Surface, use: LineUse) -> Choice:
    names = surface.courses[use]
    left = sum(not is_cut(job.state, surface.surface_id, name) for name in names)
    return Choice(use, say(USE_WORDS[use]), say("{count:line|lines} left", count=left))


def _lines(job: OpenJob, surface: Surface, use: LineUse) -> tuple[PlanLeft, ...]:
    return tuple(
        PlanLeft(
            line.line_id,
            line.use,
            line.length_nm,
            job.figures.length(line.length_nm),
            is_cut(job.state, surface.surface_id, line.line_id),
        )
        for line in surface.lines
        if line.use == use
    )


def _lifted(job: OpenJob, surface: Surface, lines: tuple[str, ...]) -> tuple[str, ...]:
    """Lines over which the turf strip is off now."""
    found = []
    for line_id in lines:
        turf = job.state.latest(TURF_OF, line_key(surface.surface_id, line_id))
        if turf is not None and turf.step == "lifted":
            found.append(line_id)
    return tuple(found)


def _passes(job: OpenJob, surface: Surface) -> tuple[Choice, ...]:
    """Passes on the surface, newest first."""
    return tuple(
        _pass_choice(job, entry.body)
        for entry in reversed(job.state.current(PASSES_ON, surface.surface_id))
    )


def _pass_choice(job: OpenJob, cut: PassCut) -> Choice:
    probes = len(job.state.current(PROBE, cut.pass_id))
    detail = say(
        "{lines}, {length}, {count:probe|probes}",
        lines=", ".join(cut.line_ids),
        length=job.figures.length(cut.length_nm),
        count=probes,
    )
    return Choice(cut.pass_id, cut.pass_id, detail, pass_status(job, cut.pass_id))
