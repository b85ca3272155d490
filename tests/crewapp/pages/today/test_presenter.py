"""Today's view: the one next thing in each situation, and how things stand."""

from __future__ import annotations

from typing import Any

import pytest

from crewapp.commands.day import CloseDay, LogUtility
from crewapp.commands.entries import Correct
from crewapp.commands.grade import CheckSetup, SetUpLaser, ShootGrade
from crewapp.commands.loads import TakeDelivery
from crewapp.commands.passes import LogPass, LogProbe
from crewapp.handlers.plan.plan_entries import set_up as plan
from crewapp.job.dispatch import do
from crewapp.job.open_job import OpenJob
from crewapp.kit.look.palette import Status
from crewapp.pages.today.presenter import today_view
from crewapp.pages.today.readiness_presenter import TICKETS
from crewapp.pages.today.view import ReadinessRow, ShowToday, TodayView, view_from_plain
from crewapp.tablet.clock import SetClock
from models.book.store import Book
from models.entries.kind_names import LOCATE_TICKET, SURFACE
from tests.crewapp.conftest import DAY

FT_NM = 304_800_000
CUBIC_YARD_PL = 764_554_857_984_000


def cut_all(job: OpenJob) -> None:
    """Log a pass over every line of the plan."""
    surface: Any = job.state.latest(SURFACE, "G7")
    for line in surface.lines:
        do(
            job,
            LogPass(
                surface_id="G7",
                line_ids=(line.line_id,),
                length_nm=line.length_nm,
                length_typed="as planned",
            ),
        )


def set_up(job: OpenJob) -> None:
    """Set the laser up on the benchmark, HI 101.00 ft."""
    do(job, SetUpLaser(on_point="BM1", backsight_nm=FT_NM, backsight_typed="1.00"))


def shoot(job: OpenJob) -> None:
    """Shoot an invert."""
    do(
        job,
        ShootGrade(
            setup_id="L1",
            collector_id="C1",
            station_nm=0,
            station_typed="0+00",
            on="invert",
            reading_nm=6 * FT_NM,
            reading_typed="6.00",
        ),
    )


def tile(job: OpenJob, name: str) -> ReadinessRow:
    """Return one tile of the view."""
    return next(row for row in today_view(job, ShowToday()).standing if row.name == name)


def test_morning_begins_with_the_next_pass(job: OpenJob) -> None:
    """A ticket in date, nothing cut: the first lines, a leg's shift apart."""
    view = today_view(job, ShowToday())

    assert (view.next_title, view.next_tab) == ("Cut the next pass", "pass")
    assert view.next_detail.startswith("Green seven: lines S01, S04; ticket to ")
    assert (view.job, view.day, view.is_closed, view.open_flags) == ("Hollow green", DAY, False, 0)


def test_book_without_a_plan_leads_to_jobs(tmp_path: Any, clock: SetClock) -> None:
    """There is nothing to do before there is a job."""
    with Book.create(tmp_path / "bare.book", stream="a", reserve_bytes=4096) as book:
        view = today_view(OpenJob(book, clock, "foreman"), ShowToday())

    assert (view.next_title, view.next_tab) == ("Set up the job", "jobs")


def test_no_ticket_comes_before_any_cut(job: OpenJob, clock: SetClock) -> None:
    """The ticket ran out on June 30: nobody digs on July 1."""
    clock.set_to("2026-06-30", 480)
    assert today_view(job, ShowToday()).next_tab == "pass"
    clock.set_to("2026-07-01", 480)

    assert today_view(job, ShowToday()).next_title == "Add the ticket"
    assert tile(job, "Locate") == ReadinessRow("Locate", "none: do not dig", Status.OUT, TICKETS)


def test_flag_that_stops_comes_first(job: OpenJob) -> None:
    """A utility that was hit stops everything else."""
    do(job, LogUtility(event="hit", what="irrigation main", where="line S01 at 10 ft"))
    view = today_view(job, ShowToday())

    assert (view.next_title, view.next_tab) == ("Answer the flags", "flags")
    assert tile(job, "Flags").status == Status.OUT


def test_hit_utility_comes_before_a_missing_ticket(job: OpenJob, clock: SetClock) -> None:
    """People are kept away first, whatever else is missing."""
    do(job, LogUtility(event="hit", what="gas main", where="line S01 at 10 ft"))
    clock.set_to("2026-07-01", 480)

    assert today_view(job, ShowToday()).next_tab == "flags"


def test_missing_ticket_comes_before_other_flags(job: OpenJob, clock: SetClock) -> None:
    """A pass of an earlier day waits; nobody digs without a ticket today."""
    do(job, LogPass(surface_id="G7", line_ids=("S01",), length_nm=30 * FT_NM, length_typed="30 ft"))
    do(
        job,
        LogProbe(
            pass_id="G7-01", line_id="S01", along_nm=FT_NM, depth_nm=FT_NM // 4, depth_typed="3"
        ),
    )
    assert today_view(job, ShowToday()).next_tab == "flags"
    clock.set_to("2026-07-01", 480)

    assert today_view(job, ShowToday()).next_title == "Add the ticket"


def test_collector_without_a_ticket_is_not_dug(job: OpenJob) -> None:
    """The ticket names the green alone: the collector waits for one of its own."""
    cut_all(job)
    (ticket,) = job.state.current(LOCATE_TICKET, "T-1")
    do(
        job,
        Correct(entry_id=ticket.id, reason="covers the green alone", fields={"surfaces": ("G7",)}),
    )
    view = today_view(job, ShowToday())

    assert (view.next_title, view.next_tab) == ("Add the ticket", TICKETS)
    assert view.next_detail == "Do not dig yet: no locate ticket covers Low side."


def test_collector_follows_the_last_cut(job: OpenJob) -> None:
    """Every line is cut, no invert is shot: shoot."""
    cut_all(job)

    assert today_view(job, ShowToday()).next_title == "Shoot the collector"
    assert today_view(job, ShowToday()).next_detail == "Low side"


def test_nothing_left_leads_to_the_day(job: OpenJob) -> None:
    """All cut and shot: close the day; once closed, its sheet."""
    cut_all(job)
    set_up(job)
    do(job, CheckSetup(setup_id="L1", on_point="BM1", reading_nm=FT_NM, reading_typed="1.00"))
    shoot(job)
    assert today_view(job, ShowToday()).next_title == "Close the day"
    do(job, CloseDay(day=DAY))
    view = today_view(job, ShowToday())

    assert (view.next_title, view.next_tab, view.is_closed) == ("Day closed", "day", True)


def test_ground_tells_done_and_left(job: OpenJob) -> None:
    """Six sand slits of 30 ft and their piped ones; one of them cut."""
    do(job, LogPass(surface_id="G7", line_ids=("S01",), length_nm=30 * FT_NM, length_typed="30 ft"))
    green, low_side = today_view(job, ShowToday()).ground
    surface: Any = job.state.latest(SURFACE, "G7")
    planned = sum(line.length_nm for line in surface.lines)
    first = next(line for line in surface.lines if line.line_id == "S01")

    assert green.permille == first.length_nm * 1000 // planned
    assert (low_side.done, low_side.planned, low_side.permille) == ("0", "60 ft", 0)


@pytest.mark.parametrize(
    ("day", "text", "status"),
    [
        ("2026-06-27", "3 days left", Status.OK),
        ("2026-06-28", "2 days left", Status.CHECK),
        ("2026-06-30", "last day", Status.CHECK),
    ],
)
def test_ticket_about_to_run_out(
    job: OpenJob, clock: SetClock, day: str, text: str, status: Status
) -> None:
    """Two days ahead are the last that a new one can be called for: common practice, no source."""
    clock.set_to(day, 480)

    assert tile(job, "Locate") == ReadinessRow("Locate", text, status, TICKETS)


@pytest.mark.parametrize(
    ("ends", "text", "status"),
    [
        ("2026-05-10", "none for G7", Status.OUT),
        ("2026-05-12", "1 day left: G7", Status.CHECK),
        ("2026-05-20", "9 days left: G7", Status.OK),
        ("2026-06-30", "50 days left", Status.OK),
    ],
)
def test_ticket_that_is_good_elsewhere_hides_none_that_ends(
    job: OpenJob, ends: str, text: str, status: Status
) -> None:
    """The collector may be dug until June 30; what counts is the green, where lines are left."""
    good = {"valid_from": "2026-05-01", "expires_on": "2026-06-30"}
    plan(job, "locate_ticket", ticket="C", surfaces=("C1",), **good)
    plan(job, "locate_ticket", ticket="T-1", surfaces=("G7",), **{**good, "expires_on": ends})

    assert tile(job, "Locate") == ReadinessRow("Locate", text, status, TICKETS)


def test_ground_that_is_done_needs_no_ticket(job: OpenJob) -> None:
    """Every line of the green is cut: only the collector is still to be dug."""
    good = {"valid_from": "2026-05-01", "expires_on": "2026-06-30"}
    plan(job, "locate_ticket", ticket="T-1", surfaces=("C1",), **good)
    assert tile(job, "Locate").text == "none for G7"
    cut_all(job)

    assert tile(job, "Locate").text == "50 days left"


def test_laser_is_good_once_it_is_checked(job: OpenJob) -> None:
    """No setup, a setup, a check that holds, a check that fails."""
    told = [tile(job, "Laser")]
    set_up(job)
    told.append(tile(job, "Laser"))
    do(job, CheckSetup(setup_id="L1", on_point="BM1", reading_nm=FT_NM, reading_typed="1.00"))
    told.append(tile(job, "Laser"))
    do(job, CheckSetup(setup_id="L1", on_point="BM1", reading_nm=2 * FT_NM, reading_typed="2.00"))
    told.append(tile(job, "Laser"))

    assert [one.text for one in told] == [
        "no setup yet",
        "L1 not checked",
        "L1 checked",
        "L1 is out",
    ]
    assert [one.status for one in told] == [
        Status.NOT_MEASURED,
        Status.CHECK,
        Status.OK,
        Status.OUT,
    ]


def test_laser_of_yesterday_is_no_setup(job: OpenJob, clock: SetClock) -> None:
    """A tripod does not stand still over night."""
    set_up(job)
    clock.set_to("2026-05-12", 480)

    assert tile(job, "Laser").text == "no setup yet"


def test_sand_tells_of_the_least(job: OpenJob) -> None:
    """With two sands the tile stands for the one that runs out first."""
    do(job, TakeDelivery(material_id="sand", volume_pl=CUBIC_YARD_PL, ticket="1"))
    assert tile(job, "Sand").status == Status.CHECK
    do(job, TakeDelivery(material_id="loose sand", volume_pl=2 * CUBIC_YARD_PL, ticket="2"))

    assert tile(job, "Sand") == ReadinessRow("Sand", "least 1.00 yd³", Status.OK, "loads")


def test_clock_in_doubt_stands_open(job: OpenJob, clock: SetClock) -> None:
    """The tablet's clock went back an hour: a flag, not a lost entry."""
    set_up(job)
    clock.pass_seconds(-3600)
    do(job, TakeDelivery(material_id="sand", volume_pl=CUBIC_YARD_PL, ticket="1"))

    assert today_view(job, ShowToday()).open_flags == 1
    assert job.board.open_flags()[0].finding.check == "clock_moved_back"


def test_last_look_comes_back_as_not_live(job: OpenJob) -> None:
    """What is kept for the next start is the same view, marked as old."""
    view = today_view(job, ShowToday())
    again = view_from_plain(view.to_plain())

    assert again.is_live is False
    assert (again.next_title, again.ground, again.standing) == (
        view.next_title,
        view.ground,
        view.standing,
    )
    assert view_from_plain({"ground": 3}) == TodayView(is_live=False)
