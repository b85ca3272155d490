"""What the After the rain screen reads off a job."""

from __future__ import annotations

from crewapp.commands.after_rain import LogInfiltration, LogRain, LogSurfaceCondition, RingLevel
from crewapp.commands.materials import LogBoxWeighing, LogBulking
from crewapp.commands.ties import AddPermanentPoint, LogOutlet, TieEnd
from crewapp.handlers.plan.plan_entries import set_up
from crewapp.job.dispatch import do
from crewapp.job.open_job import OpenJob
from crewapp.kit.look.palette import Status
from crewapp.pages.after_rain.presenter import after_rain_view
from crewapp.pages.after_rain.tie_forms import outlet_form
from crewapp.pages.after_rain.view import ShowAfterRain
from crewapp.pages.day.presenter import is_all_cut
from models.entries.kind_names import COLLECTOR

FT, IN, MIN_MS = 304_800_000, 25_400_000, 60_000


def test_a_rain_is_told_with_its_plots(job: OpenJob) -> None:
    """Stopped at eight, clear half an hour later; nobody saw it begin, so no estimate."""
    now_ms = job.clock.now().at_ms
    do(job, LogRain(depth_nm=IN, stopped_ms=now_ms, gauge="shed"))
    do(
        job,
        LogSurfaceCondition(
            surface_id="G7", condition="clear", plot="corner", seen_ms=now_ms + 30 * MIN_MS
        ),
    )
    caution, rain, plot = after_rain_view(job, ShowAfterRain(part="rains")).rains

    assert "no proof" in caution.title
    assert (rain.figure, rain.detail) == ("1.00 in", "stopped 8:00 am, shed")
    assert (plot.title, plot.figure) == ("G7: corner", "clear 30 min")
    assert "no estimate: nobody wrote when the rain began" in plot.detail
    assert after_rain_view(job, ShowAfterRain()).rains == ()


def test_a_ring_shows_its_arithmetic(job: OpenJob) -> None:
    """By hand: an inch in 600 s is 6 in/h; one interval is not steady."""
    readings = [RingLevel(after_s=s, level_nm=inches * IN) for s, inches in ((0, 4), (600, 3))]
    do(
        job, LogInfiltration( surface_id="G7", when="after", method="single_ring", inner_nm=12 * IN,
        driven_nm=4 * IN, readings=readings,
    ))  # fmt: skip
    test = after_rain_view(job, ShowAfterRain(part="rains")).rains[-1]

    assert test.figure == "6.00 in/h"
    assert "1 in in the last 10:00 = 6.00 in/h (not steady yet: read on)" in test.detail
    assert "Darcy" in test.detail


def test_ends_tell_what_they_are_tied_to(job: OpenJob) -> None:
    """Nothing yet, one point, two points: each has its state."""
    for where in ("shed", "hydrant"):
        do(job, AddPermanentPoint(where=where))
    told = [after_rain_view(job, ShowAfterRain()).ends[0]]
    for point in ("PP1", "PP2"):
        do(
            job,
            TieEnd(tied="collector_outlet", collector_id="C1", point_id=point, distance_nm=40 * FT),
        )
        told.append(after_rain_view(job, ShowAfterRain()).ends[0])

    assert [end.status for end in told] == [Status.NOT_MEASURED, Status.CHECK, Status.OK]
    assert told[-1].detail == "40.00 ft from PP1, 40.00 ft from PP2"


def test_figures_of_sand_say_where_they_are_from(job: OpenJob) -> None:
    """By hand: 100 lb fill a cubic foot; 6-1/8 over 6 in is 2.1 % of bulking."""
    planned = after_rain_view(job, ShowAfterRain(part="sand")).sand_facts[0]
    do(
        job,
        LogBoxWeighing(material_id="sand", volume_pl=28_316_846_592_000, mass_ug=45_359_237_000),
    )
    do(job, LogBulking(material_id="sand", moist_nm=155_575_000, flooded_nm=152_400_000))
    weighed = after_rain_view(job, ShowAfterRain(part="sand")).sand_facts[0]

    assert planned.detail == "as planned"
    assert weighed.figure == "100.0 lb a ft\u00b3"
    day = "Mon May 11, 2026"
    assert weighed.detail == f"weighed dry on {day}; bulks by 2.1 %, jar of {day}"


def test_a_plan_is_not_all_cut_before_its_first_pass(job: OpenJob) -> None:
    """Nothing is cut yet."""
    assert not is_all_cut(job)


def test_outlets_tell_when_they_were_seen_and_whose_leave_is_missing(job: OpenJob) -> None:
    """A planned outlet stands before collectors without one; its water is told as measured."""
    set_up(job, "outlet", outlet_id="O1", name="Basin", what="basin", permission="asked")
    other = job.state.latest(COLLECTOR, "C1")
    assert other is not None
    set_up(job, "collector", collector_id="C2", name="Spur", design=other.design.model_dump())
    unseen = after_rain_view(job, ShowAfterRain())
    do(job, LogOutlet(outlet_id="O1", flows="free", water_nm=97 * FT, water_typed="97.00"))
    seen = after_rain_view(job, ShowAfterRain())

    assert [row.key for row in unseen.outlets] == ["outlet/O1", "outlet/C2"]
    assert unseen.outlets[0].detail == "not seen yet; no leave yet"
    assert seen.outlets[0].detail == ("runs free, Mon May 11, 2026, water at 97.00; no leave yet")
    assert seen.outlets[0].status == Status.CHECK


def test_nobody_is_sent_into_a_chamber(job: OpenJob) -> None:
    """The questions about a basin begin with the danger of bad air; those of a ditch do not."""
    for name, what in (("O1", "basin"), ("O2", "ditch")):
        set_up(job, "outlet", outlet_id=name, name=name, what=what)
    form = outlet_form(after_rain_view(job, ShowAfterRain()), {})

    assert form.caution({"outlet": "O1"}).startswith("DANGER: bad air gathers in a chamber")
    assert form.caution({"outlet": "O2"}) == ""
    command = form.command({"outlet": "O1", "flows": "dry"})
    assert isinstance(command, LogOutlet)
    assert (command.outlet_id, command.water_nm) == ("O1", None)
