"""Rates, what is left, the finish as a range, sand to call in, tomorrow: by hand on a small job."""

from __future__ import annotations

from typing import Any

import pytest

from models.queries.schedule.daily_work import part_records
from models.queries.schedule.forecast import Progress, progress
from tests.models.checks.written_job import Written
from tests.models.planned_ground import (
    M3,
    M,
    collector,
    lines,
    sand,
    state_of,
    surface,
    terms,
    written,
)

MON, TUE, WED, THU, FRI = (f"2026-06-{day:02}" for day in range(8, 13))
NO_TIME = ("No pass has its machine time noted: there is no rate for a machine-hour.",)
FIELD = surface(lines=lines([20] * 12, [20] * 3))


def cut(number: int, day: str, *names: str, length_m: int = 20, **changed: Any) -> Written:
    """A pass."""
    fields = {"pass_id": f"F1-{number:02}", "surface_id": "F1", "line_ids": list(names)}
    return written("pass", day, **{"length_nm": length_m * M, **fields, **changed})


def placed(day: str, m3: float) -> Written:
    """Sand for the surface."""
    fields = {"surface_id": "F1", "material_id": "sand", "volume_pl": round(m3 * M3)}
    return written("sand_placed", day, **fields)


def piped(day: str, length_m: int) -> Written:
    """Pipe in the collector."""
    return written("pipe_laid", day, collector_id="C1", material_id="p", length_nm=length_m * M)


def at(day: str, *entries: Written) -> Progress:
    """How a job stands at the end of a day."""
    return progress(state_of(FIELD, *entries), day)


def test_done_and_left_by_hand() -> None:
    """Lines count up to their length, once; a day's work counts on its day."""
    again = cut(3, TUE, "S1", "S3", length_m=30)
    state = state_of(FIELD, collector(), cut(1, MON, "S1", "S2"), again, piped(TUE, 15))
    parts = {part.use: part for part in part_records(state, TUE)}

    assert (parts["sand_slit"].done_nm, parts["sand_slit"].left_nm) == (60 * M, 180 * M)
    assert dict(parts["sand_slit"].daily_nm) == {MON: 40 * M, TUE: 20 * M}
    assert (parts["piped_slit"].done_nm, parts["collector"].left_nm) == (0, 25 * M)


def test_a_tape_read_down_leaves_nothing_to_cut() -> None:
    """A line cut to within a foot is done; one cut a foot short and more has its rest to come."""
    foot_nm = 304_800_000
    nearly = cut(1, MON, "S1", length_nm=20 * M - foot_nm + 1)
    short = cut(2, MON, "S2", length_nm=20 * M - foot_nm)
    part = part_records(state_of(FIELD, nearly, short), MON)[0]

    assert part.done_nm == 40 * M - 2 * foot_nm + 1
    assert part.left_nm == 200 * M + foot_nm


def test_rate_is_length_over_machine_time() -> None:
    """Two legs of 20 m in 30 minutes and one in 10: 60 m in 40 minutes are 90 m an hour."""
    found = at(TUE, cut(1, MON, "S1", "S2", run_min=30), cut(2, TUE, "S3", run_min=10))

    assert found.uses[0].nm_per_h == 90 * M
    assert (found.uses[0].timed, found.uses[1].nm_per_h) == (2, None)


def test_no_machine_time_is_said() -> None:
    """Passes without their time give no rate, and it is said."""
    found = at(MON, cut(1, MON, "S1"))

    assert found.uses[0].nm_per_h is None
    assert any("No pass has its machine time noted" in sentence for sentence in found.remarks)


def test_even_days_finish_on_a_certain_date() -> None:
    """40 m a day leave 300 - 200 = 100 m: three days, whatever chance says, over a weekend."""
    days = [MON, TUE, WED, THU, FRI]
    passes = [cut(n, day, f"S{2 * n + 1}", f"S{2 * n + 2}") for n, day in enumerate(days)]
    found = at(FRI, *passes)

    assert found.finish is not None
    assert (found.finish.range.early_days, found.finish.range.late_days) == (3, 3)
    assert (found.finish.middle, found.finish.range.is_thin) == ("2026-06-17", False)
    assert (found.worked_days, found.lost_days) == (5, 0)


def test_lost_days_widen_the_range() -> None:
    """With two of four days lost it may take longer, and the same record says the same."""
    passes = [cut(1, MON, "S1", "S2"), cut(2, THU, "S3", "S4")]
    found, again = at(THU, *passes), at(THU, *passes)

    assert found.lost_days == 2
    assert found.finish is not None
    assert found.finish.range.early_days < found.finish.range.late_days
    assert found == again
    assert any("The record is thin (2 days worked)" in sentence for sentence in found.remarks)


def test_work_on_a_saturday_makes_saturdays_count() -> None:
    """A crew that works on Saturdays finishes on one."""
    found = at("2026-06-13", *(cut(n, "2026-06-13", f"S{n}") for n in range(1, 12)))

    assert found.finish is not None
    assert found.finish.middle == "2026-06-15"


def test_uses_are_weighed_by_their_planned_days() -> None:
    """100 m of sand slit or 50 m of piped slit are a planned day: 2.4 - 0.4 + 1.2 are left."""
    with_terms = at(MON, terms(), cut(1, MON, "S1", "S2"))
    alike = at(MON, cut(1, MON, "S1", "S2"))

    assert with_terms.finish is not None
    assert with_terms.finish.range.middle_days == 8  # (2.0 + 1.2) / 0.4
    assert alike.finish is not None
    assert alike.finish.range.middle_days == 7  # 260 m at 40 m a day
    assert any("counts alike" in sentence for sentence in alike.remarks)
    assert not any("counts alike" in sentence for sentence in with_terms.remarks)


@pytest.mark.parametrize(
    ("entries", "words"),
    [
        ((), "Nothing of the plan is done yet"),
        ((cut(1, MON, "X9"),), "Nothing of the plan is done"),
    ],
)
def test_nothing_done_gives_no_forecast(entries: tuple[Written, ...], words: str) -> None:
    """Without a length done there is nothing to draw from."""
    found = at(MON, *entries)

    assert found.finish is None
    assert any(words in sentence for sentence in found.remarks)


def test_a_job_without_a_plan_says_so() -> None:
    """Nothing planned, nothing left, nothing to forecast."""
    found = progress(state_of(), MON)

    assert (found.uses, found.finish, found.tomorrow, found.is_done) == ((), None, None, False)
    assert found.remarks[-1].startswith("Nothing is planned yet")


def test_all_done() -> None:
    """With every line cut nothing is left: no forecast, no tomorrow."""
    found = at(MON, *(cut(n, MON, f"S{n}") for n in range(1, 13)), cut(20, MON, "P1", "P2", "P3"))

    assert found.is_done
    assert (found.finish, found.tomorrow) == (None, None)


@pytest.mark.parametrize("sands", [("sand",), ("sand", "other")])
def test_a_finished_job_forecasts_nothing(sands: tuple[str, ...]) -> None:
    """Neither a finish, nor a next day, nor sand to call in, though more was placed than came."""
    done = (*(cut(n, MON, f"S{n}") for n in range(1, 13)), cut(20, MON, "P1", "P2", "P3"))
    stock = tuple(sand(name) for name in sands)
    used = tuple(
        written("sand_placed", MON, surface_id="F1", material_id=name, volume_pl=M3)
        for name in sands
    )
    under_way = at(MON, *stock, *used, *done[:-1])
    found = at(MON, *stock, *used, *done)

    assert under_way.calls
    assert (found.finish, found.tomorrow, found.calls, found.remarks) == (None, None, (), NO_TIME)


def test_late_is_against_the_planned_finish() -> None:
    """Half of the trials end after the planned day: late."""
    due = written("job", job_id="j", name="Job", unit_system="metric", planned_finish="2026-06-10")

    assert at(MON, due, cut(1, MON, "S1", "S2")).is_late
    assert not at(MON, due, *(cut(n, MON, f"S{n}") for n in range(1, 13))).is_late


def test_sand_is_called_in_by_the_heaviest_day() -> None:
    """0.9 m3 at 0.2 m3 on the heaviest day last 4 days; with a day of lead the call is in 3."""
    came = written("delivery", MON, material_id="sand", volume_pl=round(1.2 * M3))
    entries = (sand(), terms(), came, placed(MON, 0.2), placed(TUE, 0.1), cut(1, TUE, "S1"))
    (call,) = at(TUE, *entries).calls

    assert (call.on_hand_pl, call.daily_pl) == (round(0.9 * M3), round(0.2 * M3))
    assert call.needed_pl == pytest.approx(1.1 * (220 * 0.005 + 60 * 0.00450913) * M3, rel=1e-6)
    assert call.call is not None
    assert (call.call.good_for_days, call.call.call_in_days) == (4, 3)
    assert (call.call_on, call.is_enough) == (FRI, False)


def test_sand_over_a_laid_pipe_is_still_needed() -> None:
    """Pipe that lies without sand over it takes sand yet; where sand lies over it none, once."""
    laid = (sand(), terms(), collector(), piped(MON, 40))

    def needed(*stretches: tuple[int, int], day: str = MON) -> int | None:
        checks = [
            written("layer_check", day, collector_id="C1", from_nm=a * M, to_nm=b * M, layer="sand")
            for a, b in stretches
        ]
        return at(MON, *laid, *checks).calls[0].needed_pl

    slits = 1.1 * (240 * 0.005 + 60 * 0.00450913) * M3
    over = 1.1 * 40 * 0.2 * ((0.63 + 0.23) / 2 - 0.025 - 0.11 - 0.025) * M3

    assert needed() == pytest.approx(slits + over, rel=1e-6)
    assert needed((0, 20), (30, 10)) == pytest.approx(slits + over / 4, rel=1e-6)
    assert needed((0, 40), day=TUE) == needed()


def test_the_balance_is_that_of_the_day() -> None:
    """Looked at from Tuesday, what came on Wednesday is not there yet."""
    loads = [written("delivery", day, material_id="sand", volume_pl=M3) for day in (MON, WED)]
    entries = (sand(), *loads, placed(TUE, 0.25), placed(WED, 0.5))

    assert at(TUE, *entries).calls[0].on_hand_pl == round(0.75 * M3)
    assert at(WED, *entries).calls[0].on_hand_pl == round(1.25 * M3)


def test_enough_sand_needs_no_call() -> None:
    """With more on hand than the rest of the plan takes nobody is called."""
    came = written("delivery", MON, material_id="sand", volume_pl=9 * M3)
    (call,) = at(MON, sand(), came, placed(MON, 0.2), cut(1, MON, "S1")).calls

    assert (call.is_enough, call.call, call.call_on) == (True, None, "")


def test_two_sands_are_called_in_each_by_itself() -> None:
    """With two sands nobody says which the rest takes: each stands by its own days."""
    calls = at(MON, sand(), sand("other")).calls

    assert [(call.material_id, call.needed_pl) for call in calls] == [
        ("sand", None),
        ("other", None),
    ]


def test_tomorrow_goes_on_with_what_was_last_done() -> None:
    """Piped slits were cut last at 40 m a day: the one that is left takes half the day."""
    found = at(TUE, cut(1, MON, "S1", "S2"), cut(2, TUE, "P1", "P2")).tomorrow

    assert found is not None
    assert found.day == WED
    assert found.lengths_nm == (("piped_slit", 20 * M), ("sand_slit", 20 * M))
    assert [drive.line_ids for drive in found.drives] == [("P3",), ("S3",)]
    assert found.pipe_nm == 20 * M
    assert found.sand_pl == pytest.approx(0.1901825 * M3, rel=1e-6)


def test_tomorrow_follows_the_drives_of_the_layout() -> None:
    """Drives come in driving order, without the lines that are cut."""
    at_zero = {"x_nm": 0, "y_nm": 0}
    drive = {"use": "sand_slit", "start": at_zero, "end": at_zero, "driven_nm": M, "across_nm": 0}
    drives = [{**drive, "number": n, "legs": [[f"S{n}"], [f"S{n + 3}"]]} for n in range(1, 4)]
    layout = written("layout", surface_id="F1", drives=drives)
    found = at(MON, layout, cut(1, MON, "S4", "S2", "S5")).tomorrow

    assert found is not None
    assert [drive.line_ids for drive in found.drives] == [("S1",), ("S3", "S6")]


def test_tomorrow_takes_what_its_length_takes() -> None:
    """Half a piped slit of 20 m is cut next: sand for 10 m, pipe for it and on to the collector."""
    at_zero = {"x_nm": 0, "y_nm": 0}
    end = {"number": 1, "line_id": "P2", "station_nm": 0, "at": at_zero, "gap_nm": M}
    layout = written("layout", surface_id="F1", ends=[end])
    by_halves = [cut(1, MON, "P1", length_m=10), cut(2, TUE, "P1", length_m=10)]
    half = at(TUE, layout, *by_halves).tomorrow
    whole = at(MON, layout, cut(1, MON, "P1", length_m=20)).tomorrow

    assert half is not None
    assert whole is not None
    assert half.lengths_nm == (("piped_slit", 10 * M),)
    assert [drive.line_ids for drive in half.drives] == [("P2",)]
    assert (half.pipe_nm, whole.pipe_nm) == (11 * M, 21 * M)
    assert half.sand_pl * 2 == pytest.approx(whole.sand_pl, abs=2)


def test_tomorrow_goes_by_planned_rates_at_first() -> None:
    """Before any work the terms give a day's length; without them nothing is said."""
    found = at(MON, terms()).tomorrow

    assert found is not None
    assert found.lengths_nm == (("sand_slit", 100 * M),)
    assert at(MON).tomorrow is None


def test_the_collector_is_part_of_tomorrow() -> None:
    """What was laid last goes on: 25 m are left of 40, a day does 15, all of it sand above."""
    found = progress(state_of(collector(), terms(), piped(MON, 15)), MON).tomorrow

    assert found is not None
    assert found.lengths_nm == (("collector", 15 * M),)
    assert found.pipe_nm == 15 * M
    assert found.sand_pl == pytest.approx(2.16 * 15 / 40 * M3, rel=1e-6)
