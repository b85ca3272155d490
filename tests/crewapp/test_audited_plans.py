"""The law of the audit: what passes it can be laid, logged, checked and printed."""

from __future__ import annotations

import json
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from hypothesis import HealthCheck, event, given, settings
from hypothesis import strategies as st

from crewapp.commands.grade import SetUpLaser, ShootGrade
from crewapp.commands.passes import LogPass, LogProbe
from crewapp.handlers.plan.plan_entries import set_up_all
from crewapp.imports.plan.plan_file import Plan, read_plan
from crewapp.imports.problems import PaperError, Problem
from crewapp.job.dispatch import do
from crewapp.job.open_job import OpenJob
from crewapp.tablet.clock import SetClock
from models.audit.plan_audit import audit, faults_of_level
from models.audit.plan_view import PlanView
from models.audit.rule import Level
from models.book.store import Book
from models.checks.finding_text import sentence
from models.checks.flag_board import FlagBoard
from models.entries.bodies.planning import SurfaceLayout
from models.entries.bodies.surfaces import Collector, Surface
from models.entries.kind_names import COLLECTOR, LAYOUT, SURFACE
from sync.papers.day.facts.day import gather_day
from sync.papers.day.pdf_file import build_pdf

DAY = "2026-05-11"
SOUND, ODD = 9, 1  # so many of ten figures are sound


def mostly(sound: list[str], odd: list[str]) -> st.SearchStrategy[str]:
    """A figure that is sound nine times of ten."""
    return st.sampled_from([*(sound * SOUND * len(odd)), *(odd * ODD * len(sound))])


widths = mostly(["1 mm", "25 mm", "2 in"], ["0 mm", "1 m"])
depths = mostly(["9 in", "230 mm"], ["0 mm", "61 cm", "20 mm", "4 ft"])
limits = mostly(["1/2 in", "25 mm"], ["0 mm", "1 m"])
spacings = mostly(["400 mm", "16 in", "4 ft"], ["16 mm", "16 ft", "0 mm"])
lengths = mostly(["3 m", "30 ft", "25 m", "60 m"], ["0 m", "10 mm", "9.99 m"])
near = mostly(["2 m", "5 m", "12 m"], ["-20 m", "-1 m", "0 m", "300 m"])
sizes = mostly(["10 mm", "1 m", "0.5 ft"], ["0 m", "60 m"])
grades = mostly(["1%", "1:200", "1/8 in/ft", "12 %"], ["0 %", "-0.5 %"])
leasts = mostly(["0.1 %", "0 %"], ["2 %"])
bearings = st.sampled_from(["0", "30 deg", "90 deg", "N 45 E", "179.5"])


@st.composite
def patterns(draw: st.DrawFn) -> dict[str, str]:
    """A slit pattern, sound or not."""
    told = {"width": draw(widths), "depth": draw(depths), "spacing": draw(spacings)}
    told |= {name: draw(limits) for name in ("width_tolerance", "under", "over", "probe_end")}
    told["probe_every"] = draw(lengths)
    if draw(st.booleans()):
        told["pipe_outside"] = draw(mostly(["1 mm"], ["1 in", "3 in"]))
    return told


@st.composite
def keep_outs(draw: st.DrawFn) -> dict[str, Any]:
    """A place to keep out of, nearly always on the surface."""
    at = {"east": draw(near), "north": draw(near)}
    shapes: list[dict[str, Any]] = [
        {"circle": {"radius": draw(sizes), **at}},
        {"rectangle": {"along": draw(sizes), "across": draw(sizes), **at}},
    ]
    clearance = draw(mostly(["0 mm", "150 mm", "1 m"], ["30 m"]))
    return {"clearance": clearance, **draw(st.sampled_from(shapes))}


@st.composite
def surfaces(draw: st.DrawFn) -> dict[str, Any]:
    """A surface with lines to be laid over it."""
    at = {"east": draw(mostly(["0 m"], ["300 m"])), "north": "0 m"}
    shape = draw(st.sampled_from(["rectangle", "circle"]))
    sides = {"along": draw(lengths), "across": draw(lengths), **at}
    drawn = sides if shape == "rectangle" else {"radius": draw(lengths), **at}
    layout: dict[str, Any] = {"keep_outs": draw(st.lists(keep_outs(), max_size=2))}
    layout["setback"] = draw(mostly(["0 m", "0.1 m"], ["30 m"]))
    told: dict[str, Any] = {"surface_id": "F1", "name": "F", "use": "field", "collector_id": "C1"}
    for use in draw(st.sampled_from([["sand_slits"], ["sand_slits", "piped_slits"]])):
        told[use] = draw(patterns())
        layout[use] = {"bearing": draw(bearings), "machine": "m", "legs": 1}
    return {**told, shape: drawn, "layout": layout}


@st.composite
def plans(draw: st.DrawFn) -> dict[str, Any]:
    """A plan of one surface, its collector and its machine; many are wrong somewhere."""
    metres = draw(st.sampled_from([1, 20, 60]))
    design = {"stationed_from": "outlet", "start": "0+00", "length": f"{metres} m"}
    design |= {"start_invert": "20 m", "grade": draw(grades), "least_grade": draw(leasts)}
    names = ("high", "low", "bore", "outside", "trench_width", "bedding", "bedding_least")
    design |= {name: draw(widths) for name in (*names, "cover_least")}
    design |= {"protection_depth": "1.2 m", "shot_every": draw(lengths)}
    north = draw(mostly(["-1 m", "0 m", "5 m"], ["-2000 m", "300 m"]))
    ends = [{"x": "0 m", "y": north}, {"x": f"{metres} m", "y": north}]
    units = draw(st.sampled_from(["us", "metric"]))
    return {
        "job": {"job_id": "j", "name": "J", "unit_system": units},
        "benchmark": [{"benchmark_id": "BM1", "elevation": "21 m"}],
        "machine": [{"machine_id": "m", "legs": 1, "deepest": draw(mostly(["1 m"], ["8 in"]))}],
        "surface": [draw(surfaces())],
        "collector": [{"collector_id": "C1", "name": "C", "design": {**design, "path": ends}}],
    }


@contextmanager
def book_of(plan: Plan) -> Iterator[OpenJob]:
    """A job with the plan in it."""
    with tempfile.TemporaryDirectory() as folder:
        clock = SetClock("UTC", 0)
        clock.set_to(DAY, 480)
        book = Book.create(Path(folder) / "a.book", stream="t", reserve_bytes=4096)
        job = OpenJob(book, clock, "foreman")
        try:
            set_up_all(job, plan)
            yield job
        finally:
            job.close()


def work(job: OpenJob) -> None:
    """Cut and probe the first drives, and shoot both ends of the collector."""
    layout, surface = job.state.latest(LAYOUT, "F1"), job.state.latest(SURFACE, "F1")
    collector = job.state.latest(COLLECTOR, "C1")
    assert isinstance(layout, SurfaceLayout)
    assert isinstance(surface, Surface)
    assert isinstance(collector, Collector)
    for drive in layout.drives[:3]:
        length_nm = max(surface.places[name].line.length_nm for name in drive.line_ids)
        cut: Any = do(
            job,
            LogPass(surface_id="F1", line_ids=drive.line_ids, length_nm=length_nm, length_typed=""),
        )
        pattern = surface.places[drive.line_ids[0]].pattern
        assert pattern is not None
        do(
            job,
            LogProbe(
                pass_id=cut.entries[0].body.pass_id,
                line_id=drive.line_ids[0],
                along_nm=surface.places[drive.line_ids[0]].line.length_nm,
                depth_nm=pattern.depth_nm,
                depth_typed="",
            ),
        )
    do(job, SetUpLaser(on_point="BM1", backsight_nm=10**9, setup_id="L1"))
    for station_nm in (collector.design.start_nm, collector.design.length_nm):
        shot = {"setup_id": "L1", "collector_id": "C1", "on": "invert", "reading_nm": 10**9}
        do(job, ShootGrade(station_nm=station_nm, **shot))  # type: ignore[arg-type]


@settings(max_examples=60, deadline=None, suppress_health_check=list(HealthCheck))
@given(told=plans())
def test_a_plan_that_passes_the_audit_can_be_worked_to_its_sheet(told: dict[str, Any]) -> None:
    """What is wrong is told in sentences; over what is taken no check or sheet stumbles."""
    problems: list[Problem] = []
    try:
        plan = read_plan(Path("plan.json"), json.dumps(told))
    except PaperError as fault:
        problems = fault.problems
    event("refused" if problems else "worked")
    if problems:
        assert all(one.why and one.forms for one in problems)
        return
    with book_of(plan) as job:
        refused = faults_of_level(list(audit(PlanView.of_state(job.state))), Level.REFUSE)
        assert refused == []
        work(job)
        board = FlagBoard(job.state)
        said = {sentence(finding, job.figures) for finding in board.findings()}
        assert all(said)
        assert build_pdf(gather_day(job.state, board, DAY)).startswith(b"%PDF")
