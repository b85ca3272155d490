"""The setup's view: known points, what was set before, the run from benchmark to benchmark."""

from __future__ import annotations

from crewapp.handlers.naming import own_mark
from crewapp.job.open_job import OpenJob
from crewapp.kit.look.palette import Status
from crewapp.pages.grade.laser.presenter import laser_cards
from crewapp.pages.grade.presenter import grade_ppm, newest_setup
from crewapp.pages.grade.setup.view import KnownPoint, RunRow, SetupsView
from crewapp.words.translate import say
from models.entries.bodies.job import Benchmark
from models.entries.bodies.levels import LaserSetup, TurningPoint
from models.entries.bodies.surfaces import Collector
from models.entries.kind_names import BENCHMARK, COLLECTOR
from models.queries.levelling.elevations import plane_of, point_elevation
from models.queries.levelling.peg_tests import find_instrument, only_instrument
from models.queries.levelling.setup_chain import chain_of
from models.queries.levelling.setup_proof import REPEAT, RUN, proofs_of
from models.science.levelling.closure import allowed_nm
from models.state.indexes import SETUPS, TURNING_NAMED
from models.state.job_state import JobState


def setups_view(job: OpenJob, collector_id: str = "") -> SetupsView:
    """Read what a setup may be chosen from, and the one that stands."""
    state, day = job.state, job.clock.now().day
    collector = state.latest(COLLECTOR, collector_id)
    before = _before(state)
    setup = newest_setup(state, collector_id, day)
    plane = plane_of(state, setup.setup_id) if setup else None
    chain = chain_of(state, setup.setup_id) if setup else None
    rule = RUN if chain and len(chain.setups) > 1 else REPEAT
    closes, closes_status = _closing(job, setup)
    ppm, start_nm, end_nm = 0, 0, 0
    if isinstance(collector, Collector):
        ppm, start_nm = grade_ppm(collector), collector.design.start_nm
        end_nm = start_nm + collector.design.length_nm
    return SetupsView(
        collector_id=collector_id,
        figures=job.figures,
        points=known_points(job),
        instruments=_instruments(state),
        calibrated=_calibrations(state),
        instrument=before.instrument if before else "",
        calibrated_on=(before.calibrated_on or "") if before else "",
        today=day,
        design_ppm=ppm,
        start_nm=start_nm,
        end_nm=end_nm,
        setup_id=setup.setup_id if setup else "",
        on_point=setup.on_point if setup else "",
        height_nm=plane.elevation_nm if plane else None,
        is_graded=bool(setup and setup.plane == "graded"),
        allowed_nm=allowed_nm(rule, setups=len(chain.setups) if chain else 1),
        next_turning=_next_turning(job),
        lasers=laser_cards(job),
        laser_id=_laser_to_take(state, day),
        run=run_rows(job, setup),
        closes=closes,
        closes_status=closes_status,
    )


def known_points(job: OpenJob) -> tuple[KnownPoint, ...]:
    """Benchmarks, then turning points, with their levels."""
    found = []
    for name in job.state.every_name(BENCHMARK):
        mark = job.state.latest(BENCHMARK, name)
        if isinstance(mark, Benchmark):
            level = job.figures.level(mark.elevation_nm)
            found.append(KnownPoint(name, mark.elevation_nm, level, True))
    for name in job.state.every_name(TURNING_NAMED):
        level_nm = point_elevation(job.state, name)
        if level_nm is not None:
            found.append(KnownPoint(name, level_nm, job.figures.level(round(level_nm)), False))
    return tuple(found)


def run_rows(job: OpenJob, setup: LaserSetup | None) -> tuple[RunRow, ...]:
    """The sights from the benchmark to this setup, as a level book has them."""
    if setup is None:
        return ()
    level, rows = job.figures.level, []
    chain = chain_of(job.state, setup.setup_id)
    turnings = {entry.body.setup_id: entry.body for entry in chain.turnings}
    for entry in reversed(chain.setups):
        body = entry.body
        plane = plane_of(job.state, body.setup_id)
        reading = "" if body.backsight_nm is None else level(body.backsight_nm)
        rows.append(
            RunRow(
                say("Backsight on {point}", point=body.on_point),
                say(
                    "{setup}: height of instrument {height}",
                    setup=body.setup_id,
                    height=level(round(plane.elevation_nm)) if plane else "?",
                ),
                reading,
            )
        )
        turning = turnings.get(body.setup_id)
        if turning is not None:
            rows.append(_turning_row(job, turning))
    return (*rows, *_check_rows(job, setup))


def _turning_row(job: OpenJob, turning: TurningPoint) -> RunRow:
    level_nm = point_elevation(job.state, turning.point_id)
    return RunRow(
        say("Foresight on {point}", point=turning.point_id),
        say("level {level}", level=job.figures.level(round(level_nm)) if level_nm else "?"),
        job.figures.level(turning.foresight_nm),
    )


def _check_rows(job: OpenJob, setup: LaserSetup) -> list[RunRow]:
    rise = job.figures.rise
    return [
        RunRow(
            say("Check on {point}", point=proof.on_point),
            say("misses by {rise}", rise=rise(round(proof.missed_nm))),
            job.figures.level(proof.entry.body.reading_nm),
            Status.OK if proof.is_good else Status.OUT,
        )
        for proof in proofs_of(job.state, setup.setup_id)
    ]


def _closing(job: OpenJob, setup: LaserSetup | None) -> tuple[str, str]:
    """How the run closes on a benchmark, once it does."""
    runs = (
        [proof for proof in proofs_of(job.state, setup.setup_id) if proof.is_run] if setup else []
    )
    if not runs:
        return "", Status.NOT_MEASURED
    last = runs[-1]
    text = say(
        "Run closes on {point}: misses by {rise} in {count:setup|setups}, {allowed} allowed",
        point=last.on_point,
        rise=job.figures.rise(round(last.missed_nm)),
        count=last.setups,
        allowed=job.figures.rise(allowed_nm(last.allowance, setups=last.setups)),
    )
    return text, Status.OK if last.is_good else Status.OUT


def _before(state: JobState) -> LaserSetup | None:
    """The job's last setup, for what carries over: the instrument and its calibration."""
    setups = state.current(SETUPS)
    body = setups[-1].body if setups else None
    return body if isinstance(body, LaserSetup) else None


def _laser_to_take(state: JobState, day: str) -> str:
    """The job's only laser, else that of the day's last setup; "" where one is to be chosen."""
    setups = state.current(SETUPS)
    last = setups[-1] if setups and setups[-1].day == day else None
    name = last.body.instrument_id if last and isinstance(last.body, LaserSetup) else ""
    is_there = find_instrument(state, name) is not None
    return name if is_there else only_instrument(state)


def _instruments(state: JobState) -> tuple[str, ...]:
    used = dict.fromkeys(body.instrument for body in state.bodies(SETUPS) if body.instrument)
    return tuple(reversed(used))[:6]


def _calibrations(state: JobState) -> tuple[str, ...]:
    days = {str(body.calibrated_on) for body in state.bodies(SETUPS) if body.calibrated_on}
    return tuple(sorted(days, reverse=True))[:3]


def _next_turning(job: OpenJob) -> str:
    state = job.state
    bodies = [entry.body for entry in state.entries.values()]
    used = {body.point_id for body in bodies if isinstance(body, TurningPoint)}  # struck or not
    used |= set(state.every_name(BENCHMARK))
    mark, number = own_mark(job), 1
    while f"TP{number}{mark}" in used:
        number += 1
    return f"TP{number}{mark}"
