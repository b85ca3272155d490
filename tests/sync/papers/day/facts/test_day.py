"""What a day sheet says, before it is set in any format."""

from __future__ import annotations

from dataclasses import replace

import pytest

from models.checks.flag_board import FlagBoard
from models.queries.schedule.forecast import Finish
from models.science.schedule.production import FinishRange
from models.units.job_units import figures_of
from sync.papers.day.facts.day import SheetDayError, gather_day
from sync.papers.day.facts.progress import DayStatus, big_numbers, ends_between
from sync.papers.day.facts.quantities import quantities_of, sand_today
from sync.papers.wording.measures import Measure, percent, plain_day
from tests.models.planned_ground import lines, state_of, surface, written
from tests.sync.papers.conftest import ordinary_book
from tests.sync.papers.day_writer import FT, IN, TON, YD3, DayWriter
from tests.sync.papers.sample_day import (
    EMPTY_DAY,
    METRIC_DAY,
    US_DAY,
    answer_all,
    metric_book,
    us_book,
)


@pytest.mark.parametrize(("made", "last"), [(us_book, US_DAY), (metric_book, METRIC_DAY)])
def test_to_date_is_the_sum_of_the_days(made: type[DayWriter], last: str) -> None:
    """For every item, what stands as done to date is what the sheets of the days add up to."""
    state = made().state
    summed: dict[str, int] = {}
    for day in sorted(state.days):
        for one in quantities_of(state, day):
            summed[one.item] = summed.get(one.item, 0) + one.today

    assert {one.item: one.to_date for one in quantities_of(state, last)} == summed
    assert any(summed.values())


def test_quantities_by_hand() -> None:
    """Tuesday: four passes of two legs of 70 ft, one piped slit of 50 ft; Monday the same four."""
    rows = {one.item: one for one in quantities_of(us_book().state, US_DAY)}

    assert rows["Sand slits"].today == 4 * 2 * 70 * FT
    assert rows["Sand slits"].to_date == 2 * 4 * 2 * 70 * FT
    assert rows["Sand slits"].left == (24 - 16) * 70 * FT
    assert rows["Piped slits"].today == 50 * FT
    assert rows["Collector pipe"].plan == 80 * FT
    assert rows["Sand A"].today == YD3 * (4 * 33 + 11) // 100
    assert rows["Spoil, loose"].to_date == 7 * YD3


def test_sand_measured_both_ways_is_one_quantity() -> None:
    """Hoppers in yards and a load in tons: one row, so that what is left counts both.

    By hand: one ton, 907.185 kg at 1550 kg/m3, is 0.58528 m3, 0.7655 yd3; with 2.75 yd3 3.5155.
    """
    book = us_book()
    sand = {"surface_id": "G7", "pass_id": "G7-05", "material_id": "Sand A"}
    before = {one.item: one for one in quantities_of(book.state, US_DAY)}["Sand A"]
    book.write("sand_placed", **sand, mass_ug=TON)
    rows = [one for one in quantities_of(book.state, US_DAY) if one.item == "Sand A"]

    assert [one.measure for one in rows] == [Measure.VOLUME]
    assert round(rows[0].to_date / YD3, 4) == 3.5155
    assert rows[0].today - before.today == rows[0].to_date - before.to_date
    assert rows[0].left == (before.left or 0) - (rows[0].to_date - before.to_date)


def test_slit_pipe_planned_leads_on_to_the_collector() -> None:
    """What the layout says leads on from a slit to its collector is pipe to lay as well."""
    book = us_book()
    plan = {one.item: one.plan for one in quantities_of(book.state, US_DAY)}["Pipe in slits"]
    end = {"number": 1, "line_id": "P01", "station_nm": 0, "at": {"x_nm": 0, "y_nm": 0}}
    book.write("layout", surface_id="G7", ends=[{**end, "gap_nm": 3 * FT}])
    rows = {one.item: one for one in quantities_of(book.state, US_DAY)}

    assert plan is not None
    assert rows["Pipe in slits"].plan == plan + 3 * FT
    assert rows["Piped slits"].plan == plan


def test_sheets_are_numbered_by_days_worked() -> None:
    """The nth day worked has sheet n; a day without work has none."""
    book = us_book()
    numbers = [
        gather_day(book.state, book.board(), day).head.number
        for day in ("2026-06-05", "2026-06-08", US_DAY, EMPTY_DAY)
    ]

    assert numbers == [0, 1, 2, 0]


def test_revision_grows_when_a_closed_day_is_reopened() -> None:
    """Closed once: first revision; reopened: second."""
    book = ordinary_book()
    before = gather_day(book.state, book.board(), US_DAY).head
    book.write("day_reopened", of_day=US_DAY, why="A load was left out")
    after = gather_day(book.state, book.board(), US_DAY).head

    assert (before.revision, before.is_closed) == (1, True)
    assert (after.revision, after.is_closed) == (2, False)


def test_standing_follows_the_flags() -> None:
    """A stop that is open is OUT; all answered is OK."""
    book = us_book()
    open_ = gather_day(book.state, book.board(), US_DAY)
    answer_all(book)
    answered = gather_day(book.state, book.board(), US_DAY)

    assert open_.bar.standing is DayStatus.OUT
    assert any(need.kind == "Work stopped" for need in open_.needs)
    assert answered.bar.standing is DayStatus.OK
    assert not any(need.kind == "Work stopped" for need in answered.needs)


def test_struck_reading_keeps_its_reason_and_what_replaced_it() -> None:
    """The struck probe is told with why, by whom, and the reading that stands instead."""
    book = us_book()
    (struck,) = gather_day(book.state, book.board(), US_DAY).struck

    assert "19 in" in struck.said
    assert struck.reason == "keyed 19 for 9"
    assert "9 in" in struck.instead
    assert struck.by == "R. Okafor"


def test_struck_reading_counts_nowhere() -> None:
    """Of 28 current probes 27 are in tolerance; the struck one of 19 in is not among them."""
    book = us_book()
    day = gather_day(book.state, book.board(), US_DAY)
    (big,) = [one for one in day.numbers if "probes" in one.label]

    assert big.value == "27/28"
    assert max(one.lot.most_nm for one in day.quality) < 19 * IN


def test_probe_taken_again_counts_once() -> None:
    """Of two standing probes at one place the newer is the one that counts."""
    book = us_book()
    place = {"pass_id": "G7-08", "line_id": "S15", "along_nm": 35 * FT}
    book.write("probe", depth_nm=9 * IN, **place)
    day = gather_day(book.state, book.board(), US_DAY)

    assert {one.value for one in day.numbers if "probes" in one.label} == {"28/28"}
    assert sum(not p.is_newest for c in day.passes for p in c.probes) == 1


def test_locate_ticket_is_asked_for_before_it_runs_out() -> None:
    """Two days before its end a ticket needs the owner; with a newer one it does not."""
    book = us_book()
    early = gather_day(book.state, book.board(), "2026-06-08")
    late = gather_day(book.state, book.board(), US_DAY)
    book.write("locate_ticket", ticket="L-2", valid_from=US_DAY, expires_on="2026-07-01")
    renewed = gather_day(book.state, book.board(), US_DAY)

    told = [any(need.kind == "Locate ticket" for need in d.needs) for d in (early, late, renewed)]
    assert told == [False, True, False]


def test_sand_is_compared_through_its_density() -> None:
    """Sand delivered by weight and placed by volume has one balance, in tons."""
    book = us_book()
    (sand,) = [
        one
        for one in gather_day(book.state, book.board(), US_DAY).balances
        if one.material_id == "Sand A"
    ]
    # by hand: 275 hundredths of a cubic yard are 2.1025 m3, at 1550 kg/m3 3259 kg, 3.59 ton
    assert sand.delivered == 12 * TON
    assert round(sand.used / TON, 2) == 3.59


def test_forecast_by_hand() -> None:
    """1250 ft in two days leaves 910 of 2160 ft: two more days, Thursday."""
    book = us_book()
    bar = gather_day(book.state, book.board(), US_DAY).bar

    assert bar.done_words == "57 % of the planned length done"
    assert bar.finish == "finish Thu Jun 11, 2026; planned Wed Jun 17, 2026"
    assert bar.basis.startswith("625.0 ft a day over 2 days worked, as these days went")
    assert bar.basis.endswith("few days yet")


def test_forecast_is_a_range_where_days_differ() -> None:
    """One end where all trials agree, else first and last, the year said once where it can be."""
    early, late = FinishRange(1, 2, 6, False), "2026-06-17"
    finish = Finish(early, "2026-06-10", "2026-06-11", late)

    assert ends_between(finish, True) == "Wed Jun 10 to Wed Jun 17, 2026"
    assert ends_between(finish, False) == "Wed 10 Jun to Wed 17 Jun 2026"
    assert (
        ends_between(replace(finish, late="2027-01-04"), True)
        == "Wed Jun 10, 2026 to Mon Jan 4, 2027"
    )


@pytest.mark.parametrize("text", ["", "tomorrow", "2026-13-01", "../x", "2026-06-09; DROP"])
def test_no_day_is_refused_in_a_sentence(text: str) -> None:
    """A text that is no date makes no sheet."""
    book = us_book()
    with pytest.raises(SheetDayError, match="YYYY-MM-DD"):
        gather_day(book.state, book.board(), text)


def test_percent_is_never_rounded_up_to_all() -> None:
    """999 of 1000 is 99 %, and only all, no more, is 100 %."""
    assert [percent(n, 1000) for n in (0, 5, 999, 1000, 1004)] == [
        "0 %",
        "0 %",
        "99 %",
        "100 %",
        "101 %",
    ]


def test_days_are_written_for_their_readers() -> None:
    """American and other orders of a date."""
    assert plain_day("2026-06-09", True) == "Tue Jun 9, 2026"
    assert plain_day("2026-06-09", False) == "Tue 9 Jun 2026"


def test_pass_that_nobody_probed_is_told() -> None:
    """A pass without a probe is on the sheet; one cut before and probed today is there too."""
    book = us_book()
    book.write("pass", pass_id="G7-30", surface_id="G7", line_ids=("S24",), length_nm=70 * FT)
    book.write("probe", pass_id="G7-01", line_id="S01", along_nm=20 * FT, depth_nm=9 * IN)
    passes = {cut.body.pass_id: cut for cut in gather_day(book.state, book.board(), US_DAY).passes}

    assert passes["G7-30"].probes == ()
    assert not passes["G7-01"].is_cut_today
    assert passes["G7-01"].cut_nm == 0
    assert [probe.body.depth_nm for probe in passes["G7-01"].probes] == [9 * IN]


def test_load_typed_up_later_shows_the_day_of_the_typing() -> None:
    """The hour at which a note was typed up is not the hour of the load."""
    book = us_book()
    book.on("2026-06-20", 13 * 60).write(
        "delivery", for_day=US_DAY, material_id="sand", ticket="late", mass_ug=TON
    )

    loads = {one.ticket: one.at for one in gather_day(book.state, book.board(), US_DAY).loads}

    assert loads.pop("late") == "2026-06-20"
    assert all(at.endswith("m") for at in loads.values())


def test_a_job_cut_to_within_a_foot_is_finished() -> None:
    """Three lines of 20 m taped at 19.9 m: all is done, the tape's 0.3 m are named, no forecast."""
    day = "2026-06-08"
    cut = {"surface_id": "F1", "line_ids": ["S1", "S2", "S3"], "length_nm": 19_900_000_000}
    field = surface(lines=lines([20] * 3, []))
    state = state_of(field, written("pass", day, pass_id="F1-01", **cut))

    bar = gather_day(state, FlagBoard(state), day).bar

    assert bar.finish == "finished; no finish planned"
    assert bar.done_words == "all of the planned length done"
    assert bar.basis.endswith("tapes read 0.30 m less than the plan in all")


def test_moist_sand_is_said_to_be_reckoned_as_dry() -> None:
    """A damp yard is less as dry sand, and the number beside the yard as measured says so."""
    book = us_book()
    sand = {"surface_id": "G7", "material_id": "Sand A", "volume_pl": YD3}
    dry = sand_today(book.state, US_DAY)
    book.write("bulking_test", material_id="Sand A", moist_nm=6 * IN, flooded_nm=5 * IN)
    book.write("sand_placed", **sand, moisture="damp")
    found = sand_today(book.state, US_DAY)
    number = big_numbers(figures_of("us", "us_100ft"), (), found, ())[2]

    assert (dry.is_as_dry, found.is_as_dry) == (False, True)
    assert found.placed_pl - dry.placed_pl < YD3
    assert "placed as dry" in number.remark
