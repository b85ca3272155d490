"""Layers, trench safety and leave to cover, by real touches."""

from __future__ import annotations

from models.entries.kind_names import HOLD_POINT, LAYER_CHECK, TRENCH_PROTECTION
from tests.crewapp.pages.grade_driver import FT_NM, Begin, set_up_level, shoot


def test_layers_are_inked_over_the_range(begin: Begin) -> None:
    """Bedding by its thickness, pipe by a tap, wire by its signal."""
    driver = begin(set_up_level, lambda job: shoot(job, 20, "5.80"))
    driver.tap("Cover")
    driver.tap("bedding")
    driver.key("1")
    driver.tap("pipe")
    driver.tap("tracer wire")
    driver.tap("signal traced end to end")

    found = [(b.layer, b.thickness_nm, b.continuous, b.to_nm) for b in driver.bodies(LAYER_CHECK)]
    assert found == [
        ("bedding", 25_400_000, None, 20 * FT_NM),
        ("pipe", None, None, 20 * FT_NM),
        ("tracer_wire", None, True, 20 * FT_NM),
    ]


def test_trench_safety_names_its_judge(begin: Begin) -> None:
    """Protection, depth, and the competent person; the caution stands above."""
    driver = begin()
    driver.tap("Cover")
    driver.tap("trench safety")
    driver.tap("shored")
    driver.key("6")
    driver.tap("Ana")

    (note,) = driver.bodies(TRENCH_PROTECTION)
    assert (note.protection, note.depth_nm, note.judged_by) == ("shored", 6 * FT_NM, "Ana")


def test_release_says_what_is_missing_and_refuses_nothing(begin: Begin) -> None:
    """Two taps release it; what was missing was plainly said before."""
    driver = begin(set_up_level, lambda job: shoot(job, 10, "5.60"))
    driver.tap("Cover")
    assert "bedding: not checked" in driver.page.view.cover.missing
    assert driver.page.view.cover.inverts == "0 proven, 0 as read, 1 out"
    assert driver.page.part.rule.figure == driver.page.view.cover.inverts
    assert any("0.300 ft above" in text for text in driver.page.view.cover.missing)
    driver.tap("release to cover")
    driver.tap("Ana")

    (hold,) = driver.bodies(HOLD_POINT)
    assert (hold.released_by, hold.from_nm, hold.to_nm) == ("Ana", 0, 10 * FT_NM)


def test_what_was_released_stays_until_more_is_shot(begin: Begin) -> None:
    """Its surround, fabric, sand and sod are still to come; a shot farther on brings the next."""
    driver = begin(set_up_level, lambda job: shoot(job, 10, "5.60"))
    driver.tap("Cover")
    driver.tap("release to cover")
    driver.tap("Ana")
    cover = driver.page.view.cover
    assert (cover.from_nm, cover.to_nm, cover.is_released) == (0, 10 * FT_NM, True)

    shoot(driver.job, 20, "5.50")
    driver.page.refresh()
    driver.settle()
    cover = driver.page.view.cover
    assert (cover.from_nm, cover.to_nm, cover.is_released) == (10 * FT_NM, 20 * FT_NM, False)
