"""Times as typed after the work, rates of a ring as they come, and the door on the Day screen."""

from __future__ import annotations

from fractions import Fraction

from crewapp.kit.input.moments import instant_of, last_instant_at, wall_time_of
from crewapp.pages.after_rain.forms import NOT_KNOWN, rain_times
from crewapp.pages.after_rain.ring_forms import TimedLevel, result_of, show_rate, show_run
from crewapp.pages.after_rain.view import AfterRainView
from crewapp.pages.day.forms.menu import menu_keys
from crewapp.pages.day.view import DayView
from models.units import StationStyle, UnitSystem
from models.units.job_units import Figures

ZONE = "America/Chicago"
H_MS, IN = 3_600_000, 25_400_000


def view(hour: int = 9) -> AfterRainView:
    """Return a view read at an hour of 11 May."""
    return AfterRainView(
        today="2026-05-11", zone=ZONE, now_ms=instant_of("2026-05-11", hour * 60, ZONE)
    )


def answer(minutes: int) -> dict[str, object]:
    """Return a time as the pad gives it."""
    return {"value": minutes, "text": ""}


def test_a_time_is_the_last_there_was() -> None:
    """At nine, 0540 is this morning's and 2230 was last night's."""
    now = view().now_ms

    assert wall_time_of(last_instant_at(340, ZONE, now), ZONE) == ("2026-05-11", 340)
    assert wall_time_of(last_instant_at(1350, ZONE, now), ZONE) == ("2026-05-10", 1350)
    assert last_instant_at(540, ZONE, now) == now


def test_clocks_put_forward_shorten_the_night() -> None:
    """8 March 2026 has no two o'clock there: from 0100 to 0300 is one hour, by the calendar."""
    one, three = (instant_of("2026-03-08", hour * 60, ZONE) for hour in (1, 3))

    assert three - one == H_MS


def test_a_rain_of_another_day() -> None:
    """Stopped at 0100 on the ninth, begun at 2300: the evening of the eighth."""
    ordinal = 739_745  # 2026-05-09, counted from 1 January of the year 1: day 1
    times = {"stopped": answer(60), "began": answer(1380), "day": answer(ordinal)}
    began, stopped = rain_times(times, view())

    assert stopped == instant_of("2026-05-09", 60, ZONE)
    assert began == instant_of("2026-05-08", 1380, ZONE)
    assert rain_times({**times, "began": answer(NOT_KNOWN)}, view())[0] is None
    assert rain_times({}, view()) == (None, None)


def test_rates_come_with_the_readings() -> None:
    """By hand: an inch in ten minutes is six inches an hour, 152 mm to the nearest."""
    readings = [
        TimedLevel(0, 4 * IN),
        TimedLevel(600, 3 * IN, up_nm=4 * IN),
        TimedLevel(1200, 3 * IN),
    ]
    result, why_not = result_of(readings)

    assert result is not None
    assert why_not == ""
    assert [one.rate_nm_per_h for one in result.intervals] == [6 * IN, 6 * IN]
    assert show_rate(Fraction(6 * IN), Figures()) == "6.00 in/h"
    metric = Figures(UnitSystem.METRIC, StationStyle.METRIC_1000M)
    assert show_rate(Fraction(6 * IN), metric) == "152 mm/h"


def test_water_that_rises_is_told() -> None:
    """A ring that was filled up without saying so gives no rate, and says why."""
    result, why_not = result_of([TimedLevel(0, 3 * IN), TimedLevel(600, 4 * IN)])

    assert result is None
    assert "filled up" in why_not


def test_a_reading_comes_back_from_a_draft() -> None:
    """What a draft keeps is the reading again."""
    reading = TimedLevel(300, 3 * IN, "3", 4 * IN)

    assert TimedLevel.from_plain(reading.to_plain()) == reading


def test_a_time_that_runs() -> None:
    """Minutes and seconds, with hours only where there are any."""
    assert [show_run(s) for s in (5, 305, 3605)] == ["0:05", "5:05", "1:00:05"]


def test_the_door_stands_where_the_tickets_stood() -> None:
    """While lines are left the key is the locate tickets'; once all is cut, the rain's."""
    digging, cut = DayView(), DayView(is_all_cut=True)
    leads = [[key.leads_to for key in menu_keys(one)] for one in (digging, cut)]

    assert "tickets" in leads[0]
    assert "after" not in leads[0]
    assert "after" in leads[1]
    assert len(leads[0]) == len(leads[1])
