"""Setting the laser up by real touches: backsight, check shot, turning points."""

from __future__ import annotations

from models.entries.kind_names import CHECK_SHOT, SETUP, TURNING_POINT
from tests.crewapp.pages.grade_driver import FT_NM, HUNDREDTH_NM, Begin, set_up_level


def test_setup_is_inked_with_its_backsight(begin: Begin) -> None:
    """Point, then the reading: BM1 100.00 and 4.65 make 104.65, and a check is asked for."""
    driver = begin()
    for words in ("Set up the laser", "rod stands on", "BM1  100.00", "Read the backsight"):
        driver.tap(words)
    driver.key("465")

    (setup,) = driver.bodies(SETUP)
    assert (setup.on_point, setup.backsight_nm, setup.backsight_typed, setup.plane) == (
        "BM1",
        465 * HUNDREDTH_NM,
        "4.65",
        "level",
    )
    assert driver.page.view.grade.setup.height == "104.65"
    assert driver.page.view.grade.setup.status == "check"
    assert driver.page.part_name() == "choose"


def test_check_shot_proves_the_setup(begin: Begin) -> None:
    """101.00 less 97.62 is 3.38: on it is OK, and the verdict stands on the page."""
    driver = begin(lambda job: set_up_level(job, is_checked=False))
    driver.tap("Laser")
    driver.tap("Check shot")
    driver.tap("BM2 97.62")
    driver.key("338")

    (shot,) = driver.bodies(CHECK_SHOT)
    assert (shot.on_point, shot.reading_nm, shot.reading_typed) == (
        "BM2",
        338 * HUNDREDTH_NM,
        "3.38",
    )
    assert driver.page.view.grade.setup.status == "ok"


def test_dialled_grade_is_a_setting_and_the_backsight_a_reading(begin: Begin) -> None:
    """The design grade is offered by a key; the reading is typed."""
    driver = begin()
    driver.tap("Set up the laser")
    for words in ("plane", "dialled grade", "dialled", "design 1.00 %", "point is abreast of"):
        driver.tap(words)
    driver.key("1+20".replace("1+20", "0+20"))
    for words in ("rod stands on", "BM1  100.00", "Read the backsight"):
        driver.tap(words)
    assert driver.page.sheet.pad.keypad.typed == ""
    driver.key("100")

    (setup,) = driver.bodies(SETUP)
    assert setup.plane == "graded"
    assert setup.fall_nm * 100 == setup.run_nm
    assert setup.at_station_nm == 20 * FT_NM
    assert driver.page.view.grade.setup.plane_text == "1.00 % dialled"


def test_turning_point_carries_the_run_on(begin: Begin) -> None:
    """FS 2.40 from 101.00 gives TP1 98.60; BS 3.50 on it gives 102.10; BM2 reads 4.48."""
    driver = begin(set_up_level)
    driver.tap("Laser")
    driver.tap("Turning point")
    driver.key("240")
    driver.tap("Read the backsight")
    driver.key("350")
    driver.tap("BM2 97.62")
    driver.key("448")

    (turning,) = driver.bodies(TURNING_POINT)
    assert (turning.point_id, turning.foresight_nm) == ("TP1", 240 * HUNDREDTH_NM)
    assert driver.bodies(SETUP)[-1].on_point == "TP1"
    driver.tap("Laser")
    driver.tap("Level run")
    view = driver.page.view.setups
    assert [row.figure for row in view.run] == ["1.00", "2.40", "3.50", "4.48"]
    assert view.closes.startswith("Run closes on BM2: misses by 0.00 ft in 2 setups")
