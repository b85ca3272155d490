"""The ready figures: right, in step with the entries, and made anew from nothing."""

from __future__ import annotations

from typing import Any

import pytest
from sqlalchemy import text

from models.book.row import GENESIS, Draft, make_row
from models.entries.tablet_code import code_of
from sync.office.database import Office
from sync.office.figure_tables import drop_index, find_stale, refresh_index
from sync.office.figures.totals import day_totals
from sync.office.report import OfficeReport, read_report
from tests.sync.office.written import (
    FT,
    IN,
    KEY,
    M3,
    NOON_MS,
    OTHER_KEY,
    STREAM,
    draft,
    notes,
    stream_of,
    written,
)

SECOND = stream_of("second tablet")
NEXT_WEEK = "2026-06-01"


def line(name: str, use: str) -> dict[str, Any]:
    """One planned line of 100 ft."""
    ends = {"x1_nm": 0, "y1_nm": 0, "x2_nm": 0, "y2_nm": 100 * FT}
    return {"line_id": name, "use": use, "length_nm": 100 * FT, **ends}


def worked(first: int = 1, name: str = "Green 7") -> list[Draft]:
    """A small job: two passes, probes of which one is out, sand in and placed, pipe, hours."""
    sizes = {"width_nm": IN, "width_tolerance_nm": IN // 4, "under_nm": IN // 2, "over_nm": IN}
    probes = {"probe_every_nm": 10 * FT, "probe_end_nm": 5 * FT}
    slits = {**sizes, **probes, "spacing_nm": 16 * IN, "depth_nm": 9 * IN}
    lines = [line("S1", "sand_slit"), line("S2", "sand_slit"), line("P1", "piped_slit")]
    surface = {"surface_id": "G7", "name": "Seven", "use": "green", "sand_slits": slits}
    told: list[tuple[str, dict[str, Any]]] = [
        ("job", {"job_id": "green-7", "name": name}),
        ("material", {"material_id": "sand", "use": "sand"}),
        ("surface", {**surface, "piped_slits": slits, "lines": lines}),
        ("delivery", {"material_id": "sand", "ticket": "T1", "volume_pl": 20 * M3}),
        ("pass", {"pass_id": "A", "surface_id": "G7", "line_ids": ["S1", "S2"], "length_nm": FT}),
        ("probe", {"pass_id": "A", "line_id": "S1", "along_nm": FT, "depth_nm": 9 * IN}),
        ("probe", {"pass_id": "A", "line_id": "S1", "along_nm": 2 * FT, "depth_nm": 8 * IN}),
        ("sand_placed", {"surface_id": "G7", "material_id": "sand", "volume_pl": 2 * M3}),
        ("pass", {"pass_id": "B", "surface_id": "G7", "line_ids": ["P1"], "length_nm": 3 * FT}),
        ("pipe_laid", {"surface_id": "G7", "line_id": "P1", "material_id": "p", "length_nm": FT}),
        ("hours", {"of": "person", "who": "Wren", "run_min": 90}),
        ("hours", {"of": "machine", "who": "T1", "run_min": 45}),
    ]
    return [draft(n, kind, **body) for n, (kind, body) in enumerate(told, first)]


def fresh(office: Office, **asked: str) -> OfficeReport:
    """Bring the figures up to date and read them."""
    refresh_index(office, NOON_MS)
    return read_report(office, **asked)


def test_totals_of_a_job(office: Office) -> None:
    """Lengths leg by leg and by use, sand, probes with those out, pipe and hours: by hand."""
    office.source_of(KEY).import_rows(written(worked()))

    report = fresh(office)

    done = report.total
    assert (done.sand_slit_nm, done.piped_slit_nm, done.slit_pipe_nm) == (2 * FT, 3 * FT, FT)
    assert (done.probes, done.probes_out, done.passes, done.entries) == (2, 1, 2, 12)
    assert (done.placed_ul, done.delivered_ul) == (2 * 10**9, 20 * 10**9)
    assert (done.crew_min, done.machine_min, done.collector_pipe_nm) == (90, 45, 0)
    sand = report.jobs[0].sands[0]
    assert (sand.delivered_ul, sand.placed_ul) == (20 * 10**9, 2 * 10**9)
    assert report.jobs[0].planned_nm == 300 * FT
    assert any(flag.check == "depth_shallow" for flag in report.flags)


def test_a_correction_counts_for_whom_it_corrects(office: Office) -> None:
    """The office puts a pass right: the struck one no longer counts, the crew keeps its work."""
    rows = written(worked())
    cut: dict[str, Any] = {
        "pass_id": "A",
        "surface_id": "G7",
        "line_ids": ["S1"],
        "length_nm": 5 * FT,
    }
    again = draft(50, "pass", strikes=[rows[4].id], reason="one leg was up", **cut)
    office.source_of(KEY).import_rows([*rows, make_row(again, SECOND, 1, 90, GENESIS)])

    report = fresh(office)

    crews = {crew.about: crew.done for crew in report.crews}
    assert (report.total.sand_slit_nm, report.total.struck) == (5 * FT, 1)
    assert crews[code_of(STREAM)].sand_slit_nm == 5 * FT


def test_crews_and_weeks(office: Office) -> None:
    """What two tablets did lies apart, under their names, and so do the weeks."""
    name = draft(60, "tablet_added", code=code_of(SECOND), name="second crew")
    hours: dict[str, Any] = {"of": "person", "who": "Ash", "run_min": 30}
    late = written([draft(70, "hours", day=NEXT_WEEK, **hours)], SECOND)
    office.source_of(KEY).import_rows([*written([*worked(), name]), *late])

    report = fresh(office)

    assert {(one.name, one.about): one.done.crew_min for one in report.crews} == {
        ("Wren", code_of(STREAM)): 90,
        ("second crew", code_of(SECOND)): 30,
    }
    assert [(one.name, one.about, one.done.crew_min) for one in report.weeks] == [
        ("2026-W22", "2026-05-25 to 2026-05-31", 90),
        ("2026-W23", "2026-06-01 to 2026-06-07", 30),
    ]


def test_jobs_of_one_name_are_told_apart(office: Office) -> None:
    """The plan read on two tablets makes two jobs: each line and flag says which."""
    for key in (KEY, OTHER_KEY):
        office.source_of(key).import_rows(written(worked()))
    report = fresh(office)

    assert [job.name for job in report.jobs] == [f"Green 7 {KEY[-4:]}", f"Green 7 {OTHER_KEY[-4:]}"]
    assert {flag.job for flag in report.flags} <= {job.name for job in report.jobs}
    assert report.flags


def test_a_span_of_days(office: Office) -> None:
    """Both ends of the span count; flags and sand stand as they are now."""
    hours: dict[str, Any] = {"of": "person", "who": "Ash", "run_min": 30}
    late = written([draft(70, "hours", day=NEXT_WEEK, **hours)], SECOND)
    office.source_of(KEY).import_rows([*written(worked()), *late])

    assert fresh(office, since=NEXT_WEEK).total.crew_min == 30
    assert fresh(office, until="2026-05-28").total.crew_min == 90
    assert fresh(office, since="2026-05-28", until=NEXT_WEEK).total.crew_min == 120
    assert fresh(office, since="2027-01-01").total.entries == 0
    assert fresh(office, since="2027-01-01").flags


def test_only_jobs_with_news_are_looked_at_again(office: Office) -> None:
    """A job that got entries is stale, the others are left, and a second look finds none."""
    office.source_of(KEY).import_rows(written(worked()))
    office.source_of(OTHER_KEY).import_rows(notes(3))

    assert refresh_index(office, NOON_MS) == 2
    assert refresh_index(office, NOON_MS) == 0
    office.source_of(OTHER_KEY).import_rows(notes(4))
    assert [(job.key, job.entries) for job in find_stale(office)] == [(OTHER_KEY, 4)]
    assert refresh_index(office, NOON_MS) == 1
    assert read_report(office).total.entries == 16


def test_thrown_away_and_made_anew(office: Office) -> None:
    """The figures are made of the entries alone: dropped, they come back the same."""
    office.source_of(KEY).import_rows(written(worked()))
    office.source_of(OTHER_KEY).import_rows(written(worked(200, "Green 8")))
    before = fresh(office)

    drop_index(office)

    with office.reading() as connection:
        told = connection.execute(text("SELECT count(*) FROM entry")).scalar()
    assert told == 24
    assert fresh(office) == before


def test_written_by_a_newer_version(office: Office) -> None:
    """Kinds and versions not known here are kept, counted as such, and raise their flag."""
    rows = written([*worked(), draft(80, "laser_scan", points=[1, 2])])
    office.source_of(KEY).import_rows(rows)

    job = fresh(office).jobs[0]

    assert (job.newer, job.entries) == (1, 13)
    assert any(flag.check == "written_by_newer_version" for flag in read_report(office).flags)
    assert list(office.source_of(KEY).rows()) == rows


def test_a_fault_in_one_job_hides_no_other(office: Office, monkeypatch: pytest.MonkeyPatch) -> None:
    """If the figures of a job can't be worked out, the others stand and the fault is told."""
    office.source_of(KEY).import_rows(written(worked()))
    office.source_of(OTHER_KEY).import_rows(written(worked(200, "Bad")))

    def fails(state: Any) -> Any:
        if state.job.name == "Bad":
            raise ZeroDivisionError("a fault of ours")
        return day_totals(state)

    monkeypatch.setattr("sync.office.figures.job_figures.day_totals", fails)
    jobs = {job.name: job for job in fresh(office).jobs}

    assert jobs["Bad"].fault == "ZeroDivisionError: a fault of ours"
    assert jobs["Green 7"].done.probes == 2


def test_figures_past_any_field(office: Office) -> None:
    """Amounts as large as an entry may hold add up to the most that is kept, and break nothing."""
    most = 2**63 - 1  # a column of whole numbers holds no more
    longest = 10**14  # nm, 100 km: the longest leg, on as many lines as a pass may name
    lines = [f"X{number}" for number in range(50_000)]
    cut: dict[str, Any] = {"surface_id": "G7", "line_ids": lines, "length_nm": longest}
    told = [draft(90, "pass", pass_id="X", **cut), draft(91, "pass", pass_id="Y", **cut)]
    office.source_of(KEY).import_rows(written([*worked(), *told]))

    report = fresh(office)

    assert report.jobs[0].fault == ""
    assert report.total.beyond_nm == most
