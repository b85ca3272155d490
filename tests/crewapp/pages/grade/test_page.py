"""Shooting a collector by real touches: every tap's work is looked for in the book."""

from __future__ import annotations

from typing import TYPE_CHECKING

from models.entries.bodies.day import DayClosed
from models.entries.kind_names import GRADE_SHOT
from tests.crewapp.pages.grade_hand import FT_NM, HUNDREDTH_NM, Begin, set_up_level, shoot

if TYPE_CHECKING:
    from tests.uidriver import UI


def test_shot_at_the_next_station_takes_four_taps(begin: Begin) -> None:
    """Three digits and Enter; the rod goes on to the next station by itself."""
    hand = begin(set_up_level)
    hand.tap("Shoot 0+00.0 invert")
    for digits in ("600", "590"):
        hand.key(digits)

    shots = hand.bodies(GRADE_SHOT)
    assert [(s.station_nm // FT_NM, s.on, s.reading_typed) for s in shots] == [
        (0, "invert", "6.00"),
        (10, "invert", "5.90"),
    ]
    assert hand.page.sheet.pad.place_text == "0+20.0 invert"


def test_shot_at_another_station_takes_five_taps(begin: Begin) -> None:
    """One tap moves the rod a spacing on, then three digits and Enter."""
    hand = begin(set_up_level)
    hand.tap("Shoot 0+00.0 invert")
    hand.ui.tap(hand.page.sheet.pad.touches["more"])
    hand.key("590")

    (shot,) = hand.bodies(GRADE_SHOT)
    assert shot.station_nm == 10 * FT_NM


def test_verdict_comes_in_the_frame_of_the_tap(begin: Begin) -> None:
    """Before the desk has answered, the pad says by how much and what to do."""
    hand = begin(set_up_level)
    hand.tap("Shoot 0+00.0 invert")
    hand.key("590", last="")
    hand.page.sheet.pad.hit("enter")

    pad = hand.page.sheet.pad
    assert (pad.status, pad.told) == ("out", "0+00.0 invert: 0.10 ft high: lower it 0.10")
    hand.settle()
    assert (pad.status, pad.told) == ("out", "0+00.0 invert: 0.10 ft high: lower it 0.10")
    over = [one for one in hand.shell.children if one is not hand.shell.caution]
    assert over[0] is hand.page.sheet


def test_fall_since_the_last_shot_is_told(begin: Begin) -> None:
    """6.00 then 5.90 over 10 ft is 1.00 %; 5.94 more would be backward."""
    hand = begin(set_up_level, lambda job: shoot(job, 0, "6.00"))
    hand.tap("Shoot 0+10.0 invert")
    hand.key("590")
    assert "Fall from 0+00.0: 0.10 ft in 10.0 ft, 1.00 %." in hand.page.told.grade.story
    hand.key("594")

    assert "the wrong way" in hand.page.told.grade.story[0]
    assert any("Least re-lay" in told.title for told in hand.page.told.grade.told)


def test_shot_is_taken_back_by_one_tap(begin: Begin) -> None:
    """Undo on the rod pad strikes the shot, and the rod goes back to its station."""
    hand = begin(set_up_level)
    hand.tap("Shoot 0+00.0 invert")
    hand.key("590")
    hand.tap("Undo")

    assert hand.bodies(GRADE_SHOT) == []
    assert hand.page.sheet.pad.place_text == "0+00.0 invert"


def test_what_the_rod_stands_on_is_chosen_by_key(begin: Begin) -> None:
    """Trench floor is one wall and one bedding under the invert: 1.25 in, 0.10 ft."""
    hand = begin(set_up_level)
    hand.tap("Shoot 0+00.0 invert")
    hand.tap("0+00.0 invert")
    hand.tap("trench floor")
    assert hand.page.sheet.pad.target == "on grade 6.10"
    hand.key("610")

    (shot,) = hand.bodies(GRADE_SHOT)
    assert shot.on == "trench_floor"


def test_station_is_typed(begin: Begin) -> None:
    """A station off the spacing is typed on its own pad, then the rod is read."""
    hand = begin(set_up_level)
    hand.tap("Shoot 0+00.0 invert")
    hand.tap("0+00.0 invert")
    hand.tap("type a station")
    hand.key("0+25")
    hand.key("575")

    (shot,) = hand.bodies(GRADE_SHOT)
    assert (shot.station_nm, shot.reading_typed) == (25 * FT_NM, "5.75")


def test_half_typed_reading_survives_a_kill(begin: Begin, ui: UI) -> None:
    """Two digits typed, the app gone: the same two stand on the pad when it comes back."""
    hand = begin(set_up_level)
    hand.tap("Shoot 0+00.0 invert")
    hand.ui.tap(hand.page.sheet.pad.touches["more"])
    hand.key("59", last="")
    hand.close()

    again = begin()
    assert again.page.sheet.pad.keypad.typed == "59"
    assert again.page.sheet.pad.place_text == "0+10.0 invert"
    again.key("0")
    (shot,) = again.bodies(GRADE_SHOT)
    assert (shot.station_nm, shot.reading_typed) == (10 * FT_NM, "5.90")


def test_refused_shot_leaves_its_digits(begin: Begin) -> None:
    """On a closed day nothing is inked; the reason is shown and the pad keeps its text."""
    from crewapp.handlers.entries import write

    hand = begin(set_up_level)
    hand.tap("Shoot 0+00.0 invert")
    write(hand.job, DayClosed(of_day=hand.clock.now().day, open_flags=0, check_code=""))
    hand.key("590")

    assert hand.bodies(GRADE_SHOT) == []
    assert hand.shell.banner.parent is not None
    assert hand.page.draft["typed"] == "590"


def test_reading_is_struck_with_a_reason(begin: Begin) -> None:
    """Two taps strike it; it stays in the list, crossed out."""
    hand = begin(set_up_level, lambda job: shoot(job, 0, "5.90"))
    for words in ("Shots", "0+00.0 invert", "misread", "Strike it"):
        hand.tap(words)

    assert hand.bodies(GRADE_SHOT) == []
    row = next(row for row in hand.page.told.shots.shots if row.kind == "grade_shot")
    assert row.is_struck
    assert "misread" in row.detail


def test_reading_is_corrected(begin: Begin) -> None:
    """The right reading stands in the place of the wrong one, at its station."""
    hand = begin(set_up_level, lambda job: shoot(job, 0, "5.90"))
    for words in ("Shots", "0+00.0 invert", "misread", "Correct it"):
        hand.tap(words)
    hand.key("600")

    (shot,) = hand.bodies(GRADE_SHOT)
    assert (shot.station_nm, shot.reading_nm, shot.reading_typed) == (0, 600 * HUNDREDTH_NM, "6.00")


def test_metric_rod_is_read_in_millimetres(begin: Begin) -> None:
    """1543 is 1.543 m where the job is metric."""
    hand = begin(
        lambda job: set_up_level(job, "0.300", is_checked=False),
        unit_system="metric",
        station_style="metric_100m",
    )
    hand.page.ask("shot")
    hand.settle()
    hand.key("1543")
    if not hand.bodies(GRADE_SHOT):
        hand.ui.tap(hand.page.sheet.pad.touches["?keep"])
        hand.settle()

    (shot,) = hand.bodies(GRADE_SHOT)
    assert (shot.reading_nm, shot.reading_typed) == (1_543_000_000, "1.543")
