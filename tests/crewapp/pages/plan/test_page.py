"""The Plan page under real touches: lines laid, a line's life, the take-off, the gates."""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from crewapp.commands.passes import LogPass, LogProbe
from models.entries.kind_names import (
    BENCHMARK,
    DRAINAGE_TERMS,
    LAYOUT,
    MACHINE,
    SURFACE,
    UNIT_PRICE,
)
from tests.crewapp.pages.frame_driver import put_book
from tests.crewapp.pages.plan_driver import PlanDriver

if TYPE_CHECKING:
    from tests.uidriver import UI

FT_NM, IN_NM = 304_800_000, 25_400_000


@pytest.fixture
def driver(ui: UI, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[PlanDriver]:
    """The Plan page of the small job, nothing cut."""
    monkeypatch.setenv("HOME", str(tmp_path))
    home = tmp_path / "home"
    opened = PlanDriver(ui, home, put_book(home / "books"))
    yield opened
    opened.close()


def cut_s01(driver: PlanDriver) -> None:
    """Cut line S01 and probe it twice, one reading out."""
    driver.do(
        LogPass(
            surface_id="G7",
            line_ids=("S01",),
            pass_id="G7-01",
            length_nm=30 * FT_NM,
            length_typed="30",
        )
    )
    for along_ft, depth in ((3, "9"), (15, "7")):
        driver.do(
            LogProbe(
                pass_id="G7-01",
                line_id="S01",
                along_nm=along_ft * FT_NM,
                depth_nm=int(depth) * IN_NM,
                depth_typed=depth,
            )
        )
    driver.shell._drop_banner()
    driver.settle()


def test_tapped_line_tells_its_life(driver: PlanDriver) -> None:
    """Planned, cut, probed, flagged; the same line again tells of the surface."""
    cut_s01(driver)
    line = next(one for one in driver.page.view.picture.lines if one.key == "S01")
    middle = ((line.points[0][0] + line.points[1][0]) / 2, line.points[0][1])
    driver.tap_plan(middle)
    facts = {row.title: row for row in driver.page.view.life}

    assert facts["Planned"].figure == "30.0 ft"
    assert (facts["Probes"].detail, facts["Probes"].figure) == (
        "least 7 in, mean 8 in, most 9 in; 1 out",
        "2",
    )
    assert any("7 in" in title and row.status == "out" for title, row in facts.items())
    assert "Line S01" in driver.text()
    assert driver.page.part.plan.selected == "S01"
    driver.tap_plan(middle)
    assert "Line S01" not in driver.text()


def test_bearing_is_typed_seen_and_laid(driver: PlanDriver) -> None:
    """The preview changes at once; the book changes by a key that is held."""
    before = driver.latest(SURFACE, "G7").lines
    driver.tap("Lay out")
    seen = driver.page.part.plan.picture
    driver.type("Bearing", "30")
    preview = driver.page.view.preview

    assert driver.page.part.plan.picture != seen
    assert driver.latest(SURFACE, "G7").lines == before
    driver.hold("Hold: lay so")
    lines = [line for line in driver.latest(SURFACE, "G7").lines if line.use == "sand_slit"]
    layout = driver.latest(LAYOUT, "G7")
    assert [line.line_id for line in lines] == [
        one.key for one in preview.picture.lines if one.key.startswith("S")
    ]
    assert layout.terms[0].bearing_udeg == 30_000_000
    assert driver.page.part_name() == "plan"


def test_passes_stand_in_driving_order(driver: PlanDriver) -> None:
    """After laying, each pass with its lines and its turn; before, a sentence."""
    driver.tap("Passes")
    assert "No driving order is kept" in driver.text()
    driver.taps("Back", "Lay out")
    driver.type("Spacing", "24")
    driver.hold("Hold: lay so")
    driver.tap("Passes")
    drives = driver.latest(LAYOUT, "G7").drives

    assert len(driver.page.view.drives) == len(drives) > 1
    assert driver.page.view.drives[0].title == "Pass 1: S01"
    assert "then turn" in driver.page.view.drives[0].detail


def test_bearing_is_taken_from_the_table(driver: PlanDriver) -> None:
    """A tap on a row of the comparison puts it into the terms."""
    driver.taps("Lay out", "Compare", "15 deg")

    assert driver.page.part_name() == "terms"
    assert "15 deg" in driver.text()


def test_lines_with_work_on_them_can_not_be_laid_elsewhere(driver: PlanDriver) -> None:
    """It says which, and the key to hold is dead."""
    cut_s01(driver)
    driver.tap("Lay out")
    driver.type("Bearing", "45")

    assert "Work is written on S01" in driver.text()
    assert driver.bearers("Hold: lay so")[0].disabled


def test_new_rectangle_is_laid_with_its_lines(driver: PlanDriver) -> None:
    """Sides, bearing, spacing, slit: all typed; surface and layout are written together."""
    driver.taps("Ground", "New field")
    driver.type("Length", "300")
    driver.type("Width", "120")
    driver.tap("Next: its lines")
    assert "No lines yet: type their spacing" in driver.text()
    driver.type("Spacing", "16")
    driver.type("Slit width", "1")
    driver.type("Slit depth", "9")
    assert driver.latest(SURFACE, "F1") is None
    assert any("along the longest way" in row.detail for row in driver.page.view.preview.rows)
    assert driver.page.view.preview.bearings == {"sand_slit": "0 deg"}
    driver.hold("Hold: lay so")
    surface, layout = driver.latest(SURFACE, "F1"), driver.latest(LAYOUT, "F1")

    assert (surface.name, surface.use, len(surface.lines)) == ("Field F1", "field", 90)
    assert {line.length_nm for line in surface.lines} == {300 * FT_NM}
    assert (surface.sand_slits.depth_nm, layout.source) == (
        9 * IN_NM,
        "rectangle of 120.0 ft x 300.0 ft",
    )
    assert driver.page.view.surface_id == "F1"


def test_baseline_goes_from_pad_to_pad(driver: PlanDriver) -> None:
    """Station, left, right, one after the other; two stations draw an outline."""
    driver.taps("Ground", "New green", "Shape", "baseline", "Stations")
    for station, left, right in (("0", "10", "12"), ("40", "20", "22")):
        driver.tap("Add a station")
        for digits in (station, left, right):
            driver.key(digits)
    assert [row["left"] for row in driver.page.new["rows"]] == ["10", "20"]
    driver.tap("Back")

    assert len(driver.page.view.preview.picture.outline) == 4
    assert not driver.page.part.next.disabled


def test_outline_is_brought_from_a_file(driver: PlanDriver) -> None:
    """A file in the inbox is looked at as it is drawn, then laid."""
    inbox = Path(driver.app.tablet.folder) / "inbox"
    inbox.mkdir(exist_ok=True)
    rows = ["point,x,y", *(f"{n},{x},{y}" for n, (x, y) in enumerate(SQUARE))]
    (inbox / "lawn.csv").write_text("\n".join(rows), encoding="utf-8")
    driver.taps("Ground", "New green", "Shape", "file", "File", "lawn.csv")

    assert driver.page.view.preview.why_not == ""
    assert driver.page.view.preview.picture.outline[2] == pytest.approx((30.48, 15.24))


SQUARE = ((0, 0), (100, 0), (100, 50), (0, 50), (0, 0))


def test_half_typed_layout_survives_a_kill(driver: PlanDriver, ui: UI, tmp_path: Path) -> None:
    """What was typed, and the digits on the pad, are there at the next start."""
    driver.tap("Lay out")
    driver.type("Bearing", "30")
    driver.tap("Spacing")
    driver.ui.tap(driver.page.sheet.pad.touches["2"])
    driver.close()
    again = PlanDriver(ui, tmp_path / "home", driver.app.book)

    assert again.page.sheet.pad.keypad.typed == "2"
    assert again.page.typed_of("G7") == {"sand_slit": {"bearing": "30"}}
    again.close()


def test_price_is_typed_and_the_estimate_comes(driver: PlanDriver) -> None:
    """No price, no money; one price makes an estimate with its arithmetic."""
    driver.taps("Take-off", "Sand slits")
    assert "= 180.0 ft" in driver.text()
    driver.type("Type a price", "50")
    price = driver.latest(UNIT_PRICE, "sand slits")
    driver.tap("Back")

    assert (price.price_cents, price.per) == (5000, "100 ft")
    assert driver.page.view.takeoff.estimate == "90.00"


def test_gates_say_which_governs_once_the_rain_is_typed(driver: PlanDriver) -> None:
    """Nothing is taken for granted: four figures are typed, then inked by one tap."""
    driver.taps("Gates", "Sand, rain, pipe")
    assert driver.page.part.ink.disabled
    for tile, digits in (("Sand lets through", "20"), ("Rain", "1"), ("It lasts", "60")):
        driver.type(tile, digits)
    driver.type("Manning's n", "0.011")
    driver.tap("Ink it")
    terms = driver.latest(DRAINAGE_TERMS, "G7")

    assert (terms.sand_um_per_h, terms.rain_min, terms.roughness_millionths) == (508000, 60, 11000)
    assert driver.page.part_name() == "gates"
    assert "An estimate, not a design" in driver.text()
    assert any("governs" in row.detail for row in driver.page.view.gates.rows)
    notes = " ".join(driver.page.view.gates.notes)
    assert "the conductivity of its soil and the depth to the impermeable layer" in notes
    driver.tap("Sand, rain, pipe")
    driver.type("Soil lets through", "0.25")
    driver.type("Impermeable layer", "9")
    driver.tap("Ink it")
    terms = driver.latest(DRAINAGE_TERMS, "G7")
    assert (terms.soil_um_per_h, terms.impermeable_depth_nm) == (6350, 228_600_000)
    assert terms.sand_um_per_h == 508000
    assert driver.page.view.gates.terms["soil"] == "0.25 in/h"
    assert any("Hooghoudt: 0.25 in/h of the soil" in r.detail for r in driver.page.view.gates.rows)
    assert any("governs nothing" in row.detail for row in driver.page.view.gates.rows)


def test_without_the_library_the_kept_plan_is_shown(
    driver: PlanDriver, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Laying says in a sentence what it needs; lines, passes and take-off are there."""
    import sys

    for name in [one for one in sys.modules if one.startswith(("crewapp.handlers.plan.layout",))]:
        monkeypatch.delitem(sys.modules, name)
    monkeypatch.delitem(sys.modules, "models.science.shapes.geometry_library", raising=False)
    for name in [one for one in sys.modules if one.startswith("models.queries.layout.lay_lines")]:
        monkeypatch.delitem(sys.modules, name)
    for name in (
        "layout.layout",
        "layout.cuttable_ground",
        "shapes.outline",
        "shapes.rotated_frame",
        "layout.crossings",
        "layout.collector_ends",
        "layout.bearings",
    ):
        monkeypatch.delitem(sys.modules, f"models.science.{name}", raising=False)
    monkeypatch.setitem(sys.modules, "shapely", None)
    driver.tap("Lay out")

    assert "shapely" in driver.page.view.preview.why_not
    driver.tap("Back")
    assert len(driver.page.part.plan.picture.lines) == 13


def test_plan_file_is_added_to_the_open_job(driver: PlanDriver) -> None:
    """From the Jobs page: what it names is planned anew, in the same book."""
    inbox = Path(driver.app.tablet.folder) / "inbox"
    inbox.mkdir(exist_ok=True)
    bench = [{"benchmark_id": "BM9", "elevation": "50.00 ft", "where": "kerb"}]
    (inbox / "more.json").write_text(json.dumps({"benchmark": bench}), encoding="utf-8")
    driver.shell.go("jobs")
    driver.settle()
    driver.taps("Plan file", "more.json", "Add it to Hollow green")

    assert driver.latest(BENCHMARK, "BM9").where == "kerb"
    assert len(list(driver.app.tablet.books.glob("*.book"))) == 1
    assert driver.shell.front == "plan"


def test_how_deep_a_machine_cuts_is_typed_and_holds(driver: PlanDriver) -> None:
    """Asked where the machine is chosen; a slit deeper than that can't be laid, and why is said."""
    driver.taps("Lay out", "Machine", "How deep twin cuts")
    driver.key("10")

    machine = driver.latest(MACHINE, "twin")
    assert (machine.deepest_nm, machine.legs, machine.leg_spacing_nm) == (10 * IN_NM, 2, 4 * FT_NM)
    driver.tap("twin")
    driver.type("Slit depth", "12")
    why_not = "The sand slits of G7 are planned 12 in deep, and twin cuts 10 in at most."
    assert driver.page.part.words.text.startswith(why_not)
    assert driver.page.part.lay.disabled
    driver.type("Slit depth", "9")
    assert not driver.page.view.preview.why_not


def test_a_spacing_that_may_be_meant_is_asked_about_on_the_page(driver: PlanDriver) -> None:
    """16 ft typed for 16 in: told at once, and the lines may be laid all the same."""
    driver.tap("Lay out")
    driver.type("Spacing", "192")

    asked = "The sand slits of G7 are planned 192 in (16.0 ft) apart; 4 in to 120 in is usual."
    assert driver.page.part.words.text.startswith(asked)
    assert not driver.page.part.lay.disabled
