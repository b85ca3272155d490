"""Loads in and out by real touches; the book is what counts."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from crewapp.commands.day import CloseDay
from models.units import PL_PER, UG_PER, MassUnit, VolumeUnit
from tests.crewapp.pages.slit_driver import FOOT_NM, SlitDriver, at_work

if TYPE_CHECKING:
    from tests.uidriver import UI

YARD_PL = PL_PER[VolumeUnit.YD3]


@pytest.fixture
def driver(ui: UI, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[SlitDriver]:
    """The Loads page of a job where nothing came in yet."""
    with at_work(ui, tmp_path, monkeypatch, "loads") as opened:
        yield opened


def test_sand_load_takes_twelve_taps(driver: SlitDriver) -> None:
    """Material, five figures of the ticket, Enter, 22.4 tons, and how it felt."""
    driver.touch("sand")
    driver.keys("4", "8", "2", "1", "3", "enter")
    driver.keys("2", "1", ".", "4", "=dry")

    (load,) = driver.written("delivery")
    assert (load.material_id, load.ticket, load.amount_typed) == ("sand", "48213", "21.4 ton")
    assert load.mass_ug == 214 * UG_PER[MassUnit.TON] // 10
    assert load.moisture == "dry"
    assert driver.taps == 12


def test_ticket_keeps_its_zeros(driver: SlitDriver) -> None:
    """A number on a ticket is not a figure."""
    driver.touch("sand")
    driver.keys("0", "0", "7", "enter")
    driver.keys("1", "2", "=wet")

    assert driver.written("delivery")[0].ticket == "007"


def test_ticket_has_letters_too(driver: SlitDriver) -> None:
    """Letters are a key away; the next ticket may begin with them, never with its number."""
    driver.touch("sand")
    driver.keys("abc", "T", "Q", "-", "abc", "4", "0", "enter")
    driver.keys("2", "1", ".", "4", "=dry")
    assert driver.written("delivery")[0].ticket == "TQ-40"

    driver.touch("sand")
    pad = driver.page.sheet.pad
    assert pad.keypad.text == ""
    driver.keys("TQ-")
    assert (pad.keypad.text, pad.touches["TQ-"].parent) == ("TQ-", None)


def test_load_without_a_ticket_is_taken_and_flagged(driver: SlitDriver) -> None:
    """The pad is closed, No ticket tapped; the load counts, and a flag says what lacks."""
    driver.touch("sand")
    driver.keys("clear")
    driver.touch("No ticket")
    driver.keys("1", "2", "=dry")

    assert [load.ticket for load in driver.written("delivery")] == [""]
    flags = {flag.finding.check for flag in driver.worker.job().board.open_flags()}
    assert "delivery_without_ticket" in flags


def test_load_may_be_measured_by_volume(driver: SlitDriver) -> None:
    """A ticket that states a volume is written as a volume."""
    driver.touch("sand")
    driver.keys("5", "enter")
    driver.keys("clear")
    driver.touch("By volume")
    driver.keys("1", "4", "=damp")

    (load,) = driver.written("delivery")
    assert (load.volume_pl, load.mass_ug, load.ticket) == (14 * YARD_PL, None, "5")


def test_weight_out_by_ten_is_asked_about(driver: SlitDriver) -> None:
    """No truck brings 2.2 hundred tons; a tenth of a ton is asked about and can be kept."""
    driver.touch("sand")
    driver.keys("5", "enter")
    driver.keys("0", ".", "2", "=dry")
    assert driver.written("delivery") == []
    driver.keys("?keep")

    assert [(x.amount_typed, x.moisture) for x in driver.written("delivery")] == [
        ("0.2 ton", "dry")
    ]


def test_pipe_comes_in_as_a_coil(driver: SlitDriver) -> None:
    """A coil gets a name, and its whole length is left on it."""
    driver.touch("pipe")
    driver.keys("7", "enter")
    driver.keys("5", "0", "0", "enter")

    (load,) = driver.written("delivery")
    assert (load.length_nm, load.coil_id) == (500 * FOOT_NM, "coil 1")
    assert [coil.text for coil in driver.page.view.coils] == ["500.0 ft left of 500.0 ft"]


def test_hopper_out_takes_one_tap_and_undo_another(driver: SlitDriver) -> None:
    """One tap out, one tap back."""
    driver.touch("Full, dry")
    assert [sand.volume_pl for sand in driver.written("sand_placed")] == [YARD_PL // 2]
    driver.seen()
    driver.touch("Undo")

    assert driver.taps == 2
    assert len(driver.written("struck")) == 1
    assert [row.is_struck for row in driver.page.view.today] == [True]


def test_spoil_is_hauled_away(driver: SlitDriver) -> None:
    """One key and its volume."""
    driver.touch("Spoil away")
    driver.keys("6", "enter")

    (spoil,) = driver.written("spoil")
    assert (spoil.volume_pl, spoil.volume_typed) == (6 * YARD_PL, "6 yd3")


def test_load_is_struck_with_a_reason(driver: SlitDriver) -> None:
    """From the day's list: the reason, then Strike."""
    driver.touch("Spoil away")
    driver.keys("6", "enter")
    driver.open_part("today")
    driver.touch(driver.page.view.today[0].title)
    driver.touch("wrong amount")
    driver.touch("Strike it")

    entries = {entry.kind: entry for entry in driver.read_book()}
    assert entries["struck"].strikes == (entries["spoil"].id,)
    assert entries["struck"].reason == "wrong amount"


def test_balance_tells_what_is_left(driver: SlitDriver) -> None:
    """8 tons at 1.6 t/m3 are 4.54 m3 or 5.93 yd3 by hand; half a yard went out."""
    driver.touch("sand")
    driver.keys("5", "enter")
    driver.keys("8", "=dry")
    driver.touch("Full, dry")

    row = driver.page.view.material("sand")
    assert (row.left, row.detail) == ("5.43 yd\u00b3 left", "in 8.00 ton, out 0.50 yd\u00b3")


def test_half_typed_ticket_survives_a_kill(ui: UI, tmp_path: Path, driver: SlitDriver) -> None:
    """A second start shows the pad with the figures typed, for the same material."""
    driver.touch("sand")
    driver.keys("4", "8")
    book = driver.worker.job().book.path
    driver.close()

    again = SlitDriver(ui, tmp_path / "home", book, "loads")
    again.keys("2", "enter")
    again.keys("9", "=dry")
    assert [(x.material_id, x.ticket) for x in again.written("delivery")] == [("sand", "482")]
    again.close()


def test_refused_load_loses_nothing(driver: SlitDriver) -> None:
    """On a closed day the load is refused; ticket and weight wait where they were."""
    driver.shell.do(CloseDay(day="2026-05-11"), lambda _: None)
    driver.settle()
    driver.seen()
    driver.touch("sand")
    driver.keys("4", "8", "enter")
    driver.keys("9", "=dry")
    assert (driver.written("delivery"), "is closed" in driver.banner) == ([], True)
    driver.seen()
    driver.touch("By weight")

    assert driver.page.sheet.pad.keypad.typed == "9"
    assert driver.page.choice_of("ticket") == "48"
