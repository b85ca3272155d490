"""Reads the Grade screen's view: the setup, where the rod goes next, the last shot."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

from crewapp.job.open_job import OpenJob
from crewapp.kit.look.palette import CAP_LEAST_MM, Status
from crewapp.pages.go_ahead.presenter import digging_view, trench_view
from crewapp.pages.grade.pipe_presenter import pipe_advice, story_of
from crewapp.pages.grade.view import (
    ON_WORDS,
    SHOT_ON,
    Aim,
    Choice,
    GradeView,
    SetupView,
    Verdict,
    judge_reading,
    next_station,
)
from crewapp.words.translate import say
from models.entries.bodies.levels import GradeShot, LaserSetup
from models.entries.bodies.surfaces import Collector
from models.entries.envelope import AnyEntry
from models.entries.kind_names import COLLECTOR, GRADE_SHOT
from models.queries.levelling.elevations import design_line, design_of, plane_of
from models.queries.levelling.level_errors import confidence_of, setup_errors
from models.queries.levelling.peg_tests import unproven_laser
from models.queries.levelling.setup_proof import proofs_of
from models.science.levelling.laser_plane import GradeLine, rod_on_grade_nm
from models.science.levelling.uncertainty import variance
from models.state.indexes import SETUPS
from models.state.job_state import JobState
from sync.papers.day.facts.profile_views import profile_view
from sync.papers.drawing.primitives import Drawing
from sync.papers.drawing.profile import draw_profile

_CHART_LEAST_MM = (45.0, 26.0)
_LIMITED = frozenset({"invert", "obvert"})


def grade_view(job: OpenJob, collector_id: str = "", on: str = "") -> GradeView:
    """Read the view of a collector, or of the job's first one."""
    state = job.state
    names = state.every_name(COLLECTOR)
    collector_id = collector_id if collector_id in names else next(iter(names), "")
    collector = state.latest(COLLECTOR, collector_id)
    if not isinstance(collector, Collector):
        return GradeView(figures=job.figures)
    day = job.clock.now().day
    shots = state.current(GRADE_SHOT, collector_id)
    on = on or (shots[-1].body.on if shots else "invert")
    design = collector.design
    end_nm = design.start_nm + design.length_nm
    last = shots[-1] if shots and shots[-1].day == day else None
    title, told = _last(job, last, collector)
    return GradeView(
        collector_id=collector_id,
        name=collector.name,
        collectors=tuple(Choice(name, _named(state, name)) for name in names),
        figures=job.figures,
        setup=setup_view(job, collector_id, day),
        aims=tuple(aim_of(collector, one) for one in SHOT_ON),
        on=on,
        next_nm=next_station(
            [shot.body.station_nm for shot in shots if shot.body.on == on],
            design.start_nm,
            end_nm,
            design.shot_every_nm,
        ),
        last_stations=tuple({shot.body.on: shot.body.station_nm for shot in shots}.items()),
        start_nm=design.start_nm,
        end_nm=end_nm,
        step_nm=design.shot_every_nm,
        shot_count=len(shots),
        dig=digging_view(job, collector_id),
        trench=trench_view(job, collector_id),
        last_title=title,
        last=told,
        story=story_of(job, collector, last) if last else (),
        told=pipe_advice(job, collector_id),
        chart=chart_of(state, collector_id, day),
        design_grade=job.figures.grade(grade_ppm(collector)),
    )


def grade_ppm(collector: Collector) -> int:
    """Design grade in parts per million."""
    return round(Fraction(collector.design.fall_nm, collector.design.run_nm) * 1_000_000)


def aim_of(collector: Collector, on: str) -> Aim:
    """Return the aim of one thing to shoot, from the plan."""
    design = collector.design
    level_nm = None if on == "ground" else design_of(collector, on, design.start_nm)
    if level_nm is None:
        return Aim(on, None)
    line = design_line(collector)
    return Aim(
        on,
        GradeLine(level_nm, design.start_nm, line.grade, line.stationing),
        design.high_nm,
        design.low_nm,
        on in _LIMITED,
    )


def newest_setup(state: JobState, collector_id: str, day: str) -> LaserSetup | None:
    """The day's newest setup that serves a collector, or any."""
    for entry in reversed(state.current(SETUPS)):
        body = entry.body
        if entry.day != day:
            continue
        if body.collector_id in {"", collector_id}:
            return body
    return None


def setup_view(job: OpenJob, collector_id: str, day: str) -> SetupView | None:
    """The laser as it stands today, or None before it is set up."""
    setup = newest_setup(job.state, collector_id, day)
    if setup is None:
        return None
    plane = plane_of(job.state, setup.setup_id)
    status, proof = _proof(job, setup.setup_id)
    plane_text = say("level plane")
    if setup.plane == "graded":
        fall_ppm = round(Fraction(setup.fall_nm, setup.run_nm) * 1_000_000)
        plane_text = say("{grade} dialled", grade=job.figures.grade(fall_ppm))
    return SetupView(
        setup_id=setup.setup_id,
        on_point=setup.on_point,
        plane=plane,
        height=job.figures.level(round(plane.elevation_nm)) if plane else "",
        plane_text=plane_text,
        status=status if plane else Status.CHECK,
        proof=proof if plane else say("its height is not known"),
        doubt=_doubt(job, setup.setup_id),
        spread_nm2=_spread(job, setup.setup_id),
        z=confidence_of(job.state),
    )


def _spread(job: OpenJob, setup_id: str) -> Callable[[int], Fraction] | None:
    """Variance of what a shot tells, by its station; None where a setup has no level."""
    errors = setup_errors(job.state, setup_id)
    if errors is None:
        return None
    return lambda station_nm: variance(errors.terms_at(station_nm, "the next shot"))


def _doubt(job: OpenJob, setup_id: str) -> str:
    """Why no peg test proves the laser of a setup, in words."""
    proof = unproven_laser(job.state, setup_id)
    if proof is None or proof.doubt is None:
        return ""
    return say("{laser}: {doubt}", laser=proof.name, doubt=say(proof.doubt.value))


def _proof(job: OpenJob, setup_id: str) -> tuple[str, str]:
    proofs = proofs_of(job.state, setup_id)
    if not proofs:
        return Status.CHECK, say("shoot a second known point")
    last = proofs[-1]
    rise = job.figures.rise(round(last.missed_nm))
    if last.is_good:
        text = say("{point} checked, off {rise}", point=last.on_point, rise=rise)
        return Status.OK, text
    text = say("misses {point} by {rise}: set up again", point=last.on_point, rise=rise)
    return Status.OUT, text


def _last(job: OpenJob, entry: AnyEntry | None, collector: Collector) -> tuple[str, Verdict]:
    """Title and verdict of the day's last shot."""
    if entry is None or not isinstance(entry.body, GradeShot):
        return "", Verdict()
    shot = entry.body
    title = say(
        "{station} {what}",
        station=job.figures.station(shot.station_nm),
        what=say(ON_WORDS[shot.on]),
    )
    return title, verdict_of(job, collector, shot)


def verdict_of(job: OpenJob, collector: Collector, shot: GradeShot) -> Verdict:
    """How a shot lies under the setup it was taken from."""
    aim, plane = aim_of(collector, shot.on), plane_of(job.state, shot.setup_id)
    rod_nm = None
    if plane is not None and aim.design is not None:
        rod_nm = rod_on_grade_nm(plane, aim.design, shot.station_nm)
    errors = setup_errors(job.state, shot.setup_id)
    spread = variance(errors.terms_at(shot.station_nm, "the shot")) if errors else Fraction(0)
    proof = (spread, confidence_of(job.state))
    return judge_reading(aim, rod_nm, shot.reading_nm, job.figures, proof)


def chart_of(
    state: JobState, collector_id: str, day: str
) -> Callable[[float, float], Drawing] | None:
    """Lay out the two strips for whatever room there is."""
    view = profile_view(state, collector_id, day)
    if view is None:
        return None

    def lay_out(wide_mm: float, high_mm: float) -> Drawing:
        if wide_mm < _CHART_LEAST_MM[0] or high_mm < _CHART_LEAST_MM[1]:
            return Drawing(wide_mm, high_mm)  # no room for two strips and their labels
        return draw_profile(view, wide_mm, high_mm, CAP_LEAST_MM)

    return lay_out


def _named(state: JobState, name: str) -> str:
    collector = state.latest(COLLECTOR, name)
    return f"{name}  {collector.name if collector is not None else ''}".strip()
