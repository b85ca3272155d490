"""Reads what the As-built screen shows: strips of a collector, quantities against the plan."""

from __future__ import annotations

from crewapp.job.open_job import OpenJob
from crewapp.kit.look.palette import Status
from crewapp.pages.grade.presenter import chart_of, grade_ppm
from crewapp.pages.lines.finding_line import finding_line
from crewapp.pages.plan.view import AsBuiltView, Row
from crewapp.words.translate import say
from models.checks.finding import Severity
from models.entries.bodies.surfaces import Collector
from models.entries.kind_names import COLLECTOR, HOLD_POINT, PERMANENT_POINT
from models.queries.levelling.elevations import current_inverts
from models.state.indexes import PIPE_IN_COLLECTOR
from models.units.job_units import Figures
from sync.papers.day.facts.quantities import Quantity, quantities_of
from sync.papers.wording.measures import Measure

EVER = "9999-12-31"
"""A day after every other: what was done to date is then all that was done."""


def as_built_view(job: OpenJob, collector_id: str, part: str) -> AsBuiltView:
    """Read the part of the As-built screen that is in front."""
    names = job.state.every_name(COLLECTOR)
    collector_id = collector_id if collector_id in names else next(iter(names), "")
    return AsBuiltView(
        collectors=tuple(_collector(job, name) for name in names),
        collector_id=collector_id,
        design=_design(job, collector_id),
        chart=chart_of(job.state, collector_id, EVER) if part == "profile" else None,
        quantities=quantity_rows(job) if part == "quantities" else (),
        notes=_standing(job) if part in ("plan", "package") else (),
    )


def _design(job: OpenJob, name: str) -> str:
    collector = job.state.latest(COLLECTOR, name)
    if not isinstance(collector, Collector):
        return ""
    return say("design {grade}", grade=job.figures.grade(grade_ppm(collector)))


def _collector(job: OpenJob, name: str) -> Row:
    collector = job.state.latest(COLLECTOR, name)
    if not isinstance(collector, Collector):
        return Row(name, key=name)
    shots = len(current_inverts(job.state, name))
    detail = say(
        "{count:invert|inverts} shot, design {grade}",
        count=shots,
        grade=job.figures.grade(grade_ppm(collector)),
    )
    length = job.figures.distance(collector.design.length_nm)
    return Row(f"{name}  {collector.name}", detail, length, key=name)


def collector_life(job: OpenJob, name: str) -> tuple[Row, ...]:
    """Read what stands of a collector: its design, its shots, its pipe, its flags."""
    found = job.state.latest(COLLECTOR, name)
    if not isinstance(found, Collector):
        return ()
    length = job.figures.distance(found.design.length_nm)
    inverts = current_inverts(job.state, name)
    rows = [
        Row(found.name, figure=length),
        Row(say("Design"), figure=job.figures.grade(grade_ppm(found))),
        Row(say("Inverts shot"), figure=str(len(inverts))),
    ]
    laid_nm = sum(pipe.length_nm for pipe in job.state.bodies(PIPE_IN_COLLECTOR, name))
    rows.append(Row(say("Pipe laid"), figure=job.figures.distance(laid_nm)))
    for body in job.state.bodies(HOLD_POINT, name):
        low, high = job.figures.station(body.from_nm), job.figures.station(body.to_nm)
        title = say("Released {low} to {high}", low=low, high=high)
        rows.append(Row(title, body.released_by, status=Status.OK))
    for flag in job.board.open_flags():
        if name in flag.finding.subject.split("/"):
            is_stop = flag.severity is Severity.STOP
            status = Status.OUT if is_stop else Status.CHECK
            rows.append(Row(finding_line(flag.finding, job.figures), say("open"), status=status))
    return tuple(rows)


def quantity_rows(job: OpenJob) -> tuple[Row, ...]:
    """Read every quantity: planned, placed, and by how much they differ."""
    return tuple(_quantity(one, job.figures) for one in quantities_of(job.state, EVER))


def _quantity(one: Quantity, figures: Figures) -> Row:
    def show(amount: int) -> str:
        shown = {Measure.VOLUME: figures.volume, Measure.MASS: figures.mass}
        return shown.get(one.measure, figures.distance)(amount)

    placed = show(one.to_date)
    if one.plan is None:
        return Row(say(one.item), say("nothing planned"), placed)
    more = one.to_date - one.plan
    word = say("{amount} more than planned") if more > 0 else say("{amount} less than planned")
    detail = say("planned {amount}", amount=show(one.plan))
    if more:
        detail += ", " + word.format(amount=show(abs(more)))
    return Row(say(one.item), detail, placed)


def _standing(job: OpenJob) -> tuple[str, ...]:
    """Say what stands against handing the record over."""
    flags = job.board.open_flags()
    notes = []
    if flags:
        stops = sum(flag.severity is Severity.STOP for flag in flags)
        text = say(
            "{count:flag is|flags are} open; the package prints {count:!it|them}.", count=len(flags)
        )
        notes.append(
            f"{text} {say('{stops:of them stops|of them stop}.', stops=stops)}" if stops else text
        )
    if not job.state.every_name(PERMANENT_POINT):
        notes.append(say("No permanent points are written: ends can't be tied to them."))
    return tuple(notes)
