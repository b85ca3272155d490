"""Shooting a collector by real touches: every tap's work is looked for in the book."""

from __future__ import annotations

from typing import TYPE_CHECKING

from models.entries.bodies.day import DayClosed
from models.entries.kind_names import GRADE_SHOT
from tests.crewapp.pages.grade_driver import FT_NM, HUNDREDTH_NM, Begin, set_up_level, shoot

if TYPE_CHECKING:
    from tests.uidriver import UI


def test_shot_at_the_next_station_takes_four_taps(begin: Begin) -> None:
    """Three digits and Enter; the rod goes on to the next station by itself."""
    driver = begin(set_up_level)
    driver.tap("Shoot 0+00.0 invert")
    for digits in ("600", "590"):
        driver.key(digits)

    shots = driver.bodies(GRADE_SHOT)
    assert [(s.station_nm // FT_NM, s.on, s.reading_typed) for s in shots] == [
        (0, "invert", "6.00"),
        (10, "invert", "5.90"),
    ]
    assert driver.page.sheet.pad.place_text == "0+20.0 invert"


def test_shot_at_another_station_takes_five_taps(begin: Begin) -> None:
    """One tap moves the rod a spacing on, then three digits and Enter."""
    driver = begin(set_up_level)
    driver.tap("Shoot 0+00.0 invert")
    driver.ui.tap(driver.page.sheet.pad.touches["more"])
    driver.key("590")

    (shot,) = driver.bodies(GRADE_SHOT)
    assert shot.station_nm == 10 * FT_NM


def test_verdict_comes_in_the_frame_of_the_tap(begin: Begin) -> None:
    """Before the worker has answered, the pad says by how much and what to do."""
    driver = begin(set_up_level)
    driver.tap("Shoot 0+00.0 invert")
    driver.key("590", last="")
    driver.page.sheet.pad.hit("enter")

    pad = driver.page.sheet.pad
    assert (pad.status, pad.told) == ("out", "0+00.0 invert: 0.10 ft high: lower it 0.10")
    driver.settle()
    assert (pad.status, pad.told) == ("out", "0+00.0 invert: 0.10 ft high: lower it 0.10")
    over = [one for one in driver.shell.children if one is not driver.shell.caution]
    assert over[0] is driver.page.sheet


def test_fall_since_the_last_shot_is_told(begin: Begin) -> None:
    """6.00 then 5.90 over 10 ft is 1.00 %; 5.94 more would be backward."""
    driver = begin(set_up_level, lambda job: shoot(job, 0, "6.00"))
    driver.tap("Shoot 0+10.0 invert")
    driver.key("590")
    assert "Fall from 0+00.0: 0.10 ft in 10.0 ft, 1.00 %." in driver.page.view.grade.story
    driver.key("594")

    assert "the wrong way" in driver.page.view.grade.story[0]
    assert any("Least re-lay" in told.title for told in driver.page.view.grade.told)


def test_shot_is_taken_back_by_one_tap(begin: Begin) -> None:
    """Undo on the rod pad strikes the shot, and the rod goes back to its station."""
    driver = begin(set_up_level)
    driver.tap("Shoot 0+00.0 invert")
    driver.key("590")
    driver.tap("Undo")

    assert driver.bodies(GRADE_SHOT) == []
    assert driver.page.sheet.pad.place_text == "0+00.0 invert"


def test_what_the_rod_stands_on_is_chosen_by_key(begin: Begin) -> None:
    """Trench floor is one wall and one bedding under the invert: 1.25 in, 0.10 ft."""
    driver = begin(set_up_level)
    driver.tap("Shoot 0+00.0 invert")
    driver.tap("0+00.0 invert")
    driver.tap("trench floor")
    assert driver.page.sheet.pad.target == "on grade 6.10"
    driver.key("610")

    (shot,) = driver.bodies(GRADE_SHOT)
    assert shot.on == "trench_floor"


def test_station_is_typed(begin: Begin) -> None:
    """A station off the spacing is typed on its own pad, then the rod is read."""
    driver = begin(set_up_level)
    driver.tap("Shoot 0+00.0 invert")
    driver.tap("0+00.0 invert")
    driver.tap("type a station")
    driver.key("0+25")
    driver.key("575")

    (shot,) = driver.bodies(GRADE_SHOT)
    assert (shot.station_nm, shot.reading_typed) == (25 * FT_NM, "5.75")


def test_half_typed_reading_survives_a_kill(begin: Begin, ui: UI) -> None:
    """Two digits typed, the app gone: the same two stand on the pad when it comes back."""
    driver = begin(set_up_level)
    driver.tap("Shoot 0+00.0 invert")
    driver.ui.tap(driver.page.sheet.pad.touches["more"])
    driver.key("59", last="")
    driver.close()

    again = begin()
    assert again.page.sheet.pad.keypad.typed == "59"
    assert again.page.sheet.pad.place_text == "0+10.0 invert"
    again.key("0")
    (shot,) = again.bodies(GRADE_SHOT)
    assert (shot.station_nm, shot.reading_typed) == (10 * FT_NM, "5.90")


def test_refused_shot_leaves_its_digits(begin: Begin) -> None:
    """On a closed day nothing is inked; the reason is shown and the pad keeps its text."""
    from crewapp.handlers.entries import write

    driver = begin(set_up_level)
    driver.tap("Shoot 0+00.0 invert")
    write(driver.job, DayClosed(of_day=driver.clock.now().day, open_flags=0, check_code=""))
    driver.key("590")

    assert driver.bodies(GRADE_SHOT) == []
    assert driver.shell.banner.parent is not None
    assert driver.page.draft["typed"] == "590"


def test_reading_is_struck_with_a_reason(begin: Begin) -> None:
    """Two taps strike it; it stays in the list, crossed out."""
    driver = begin(set_up_level, lambda job: shoot(job, 0, "5.90"))
    for words in ("Shots", "0+00.0 invert", "misread", "Strike it"):
        driver.tap(words)

    assert driver.bodies(GRADE_SHOT) == []
    row = next(row for row in driver.page.view.shots.shots if row.kind == "grade_shot")
    assert row.is_struck
    assert "misread" in row.detail


def test_reading_is_corrected(begin: Begin) -> None:
    """The right reading stands in the place of the wrong one, at its station."""
    driver = begin(set_up_level, lambda job: shoot(job, 0, "5.90"))
    for words in ("Shots", "0+00.0 invert", "misread", "Correct it"):
        driver.tap(words)
    driver.key("600")

    (shot,) = driver.bodies(GRADE_SHOT)
    assert (shot.station_nm, shot.reading_nm, shot.reading_typed) == (0, 600 * HUNDREDTH_NM, "6.00")


def test_metric_rod_is_read_in_millimetres(begin: Begin) -> None:
    """1543 is 1.543 m where the job is metric."""
    driver = begin(
        lambda job: set_up_level(job, "0.300", is_checked=False),
        unit_system="metric",
        station_style="metric_100m",
    )
    driver.page.ask("shot")
    driver.settle()
    driver.key("1543")
    if not driver.bodies(GRADE_SHOT):
        driver.ui.tap(driver.page.sheet.pad.touches["?keep"])
        driver.settle()

    (shot,) = driver.bodies(GRADE_SHOT)
    assert (shot.reading_nm, shot.reading_typed) == (1_543_000_000, "1.543")
