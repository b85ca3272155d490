"""Loads in and out by real touches; the book is what counts."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from crewapp.commands.day import CloseDay
from models.units import PL_PER, UG_PER, MassUnit, VolumeUnit
from tests.crewapp.pages.slit_hand import FOOT_NM, SlitHand, at_work

if TYPE_CHECKING:
    from tests.uidriver import UI

YARD_PL = PL_PER[VolumeUnit.YD3]


@pytest.fixture
def hand(ui: UI, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[SlitHand]:
    """The Loads page of a job where nothing came in yet."""
    with at_work(ui, tmp_path, monkeypatch, "loads") as opened:
        yield opened


def test_sand_load_takes_twelve_taps(hand: SlitHand) -> None:
    """Material, five figures of the ticket, Enter, 22.4 tons, and how it felt."""
    hand.touch("sand")
    hand.keys("4", "8", "2", "1", "3", "enter")
    hand.keys("2", "1", ".", "4", "=dry")

    (load,) = hand.written("delivery")
    assert (load.material_id, load.ticket, load.amount_typed) == ("sand", "48213", "21.4 ton")
    assert load.mass_ug == 214 * UG_PER[MassUnit.TON] // 10
    assert load.moisture == "dry"
    assert hand.taps == 12


def test_ticket_keeps_its_zeros(hand: SlitHand) -> None:
    """A number on a ticket is not a figure."""
    hand.touch("sand")
    hand.keys("0", "0", "7", "enter")
    hand.keys("1", "2", "=wet")

    assert hand.written("delivery")[0].ticket == "007"


def test_ticket_has_letters_too(hand: SlitHand) -> None:
    """Letters are a key away; the next ticket may begin with them, never with its number."""
    hand.touch("sand")
    hand.keys("abc", "T", "Q", "-", "abc", "4", "0", "enter")
    hand.keys("2", "1", ".", "4", "=dry")
    assert hand.written("delivery")[0].ticket == "TQ-40"

    hand.touch("sand")
    pad = hand.page.sheet.pad
    assert pad.keypad.text == ""
    hand.keys("TQ-")
    assert (pad.keypad.text, pad.touches["TQ-"].parent) == ("TQ-", None)


def test_load_without_a_ticket_is_taken_and_flagged(hand: SlitHand) -> None:
    """The pad is closed, No ticket tapped; the load counts, and a flag says what lacks."""
    hand.touch("sand")
    hand.keys("clear")
    hand.touch("No ticket")
    hand.keys("1", "2", "=dry")

    assert [load.ticket for load in hand.written("delivery")] == [""]
    flags = {flag.finding.check for flag in hand.desk.job().board.open_flags()}
    assert "delivery_without_ticket" in flags


def test_load_may_be_measured_by_volume(hand: SlitHand) -> None:
    """A ticket that states a volume is written as a volume."""
    hand.touch("sand")
    hand.keys("5", "enter")
    hand.keys("clear")
    hand.touch("By volume")
    hand.keys("1", "4", "=damp")

    (load,) = hand.written("delivery")
    assert (load.volume_pl, load.mass_ug, load.ticket) == (14 * YARD_PL, None, "5")


def test_weight_out_by_ten_is_asked_about(hand: SlitHand) -> None:
    """No truck brings 2.2 hundred tons; a tenth of a ton is asked about and can be kept."""
    hand.touch("sand")
    hand.keys("5", "enter")
    hand.keys("0", ".", "2", "=dry")
    assert hand.written("delivery") == []
    hand.keys("?keep")

    assert [(x.amount_typed, x.moisture) for x in hand.written("delivery")] == [("0.2 ton", "dry")]


def test_pipe_comes_in_as_a_coil(hand: SlitHand) -> None:
    """A coil gets a name, and its whole length is left on it."""
    hand.touch("pipe")
    hand.keys("7", "enter")
    hand.keys("5", "0", "0", "enter")

    (load,) = hand.written("delivery")
    assert (load.length_nm, load.coil_id) == (500 * FOOT_NM, "coil 1")
    assert [coil.text for coil in hand.page.told.coils] == ["500.0 ft left of 500.0 ft"]


def test_hopper_out_takes_one_tap_and_undo_another(hand: SlitHand) -> None:
    """One tap out, one tap back."""
    hand.touch("Full, dry")
    assert [sand.volume_pl for sand in hand.written("sand_placed")] == [YARD_PL // 2]
    hand.seen()
    hand.touch("Undo")

    assert hand.taps == 2
    assert len(hand.written("struck")) == 1
    assert [row.is_struck for row in hand.page.told.today] == [True]


def test_spoil_is_hauled_away(hand: SlitHand) -> None:
    """One key and its volume."""
    hand.touch("Spoil away")
    hand.keys("6", "enter")

    (spoil,) = hand.written("spoil")
    assert (spoil.volume_pl, spoil.volume_typed) == (6 * YARD_PL, "6 yd3")


def test_load_is_struck_with_a_reason(hand: SlitHand) -> None:
    """From the day's list: the reason, then Strike."""
    hand.touch("Spoil away")
    hand.keys("6", "enter")
    hand.open_part("today")
    hand.touch(hand.page.told.today[0].title)
    hand.touch("wrong amount")
    hand.touch("Strike it")

    entries = {entry.kind: entry for entry in hand.read_book()}
    assert entries["struck"].strikes == (entries["spoil"].id,)
    assert entries["struck"].reason == "wrong amount"


def test_balance_tells_what_is_left(hand: SlitHand) -> None:
    """8 tons at 1.6 t/m3 are 4.54 m3 or 5.93 yd3 by hand; half a yard went out."""
    hand.touch("sand")
    hand.keys("5", "enter")
    hand.keys("8", "=dry")
    hand.touch("Full, dry")

    row = hand.page.told.material("sand")
    assert (row.left, row.detail) == ("5.43 yd\u00b3 left", "in 8.00 ton, out 0.50 yd\u00b3")


def test_half_typed_ticket_survives_a_kill(ui: UI, tmp_path: Path, hand: SlitHand) -> None:
    """A second start shows the pad with the figures typed, for the same material."""
    hand.touch("sand")
    hand.keys("4", "8")
    book = hand.desk.job().book.path
    hand.close()

    again = SlitHand(ui, tmp_path / "home", book, "loads")
    again.keys("2", "enter")
    again.keys("9", "=dry")
    assert [(x.material_id, x.ticket) for x in again.written("delivery")] == [("sand", "482")]
    again.close()


def test_refused_load_loses_nothing(hand: SlitHand) -> None:
    """On a closed day the load is refused; ticket and weight wait where they were."""
    hand.shell.do(CloseDay(day="2026-05-11"), lambda _: None)
    hand.settle()
    hand.seen()
    hand.touch("sand")
    hand.keys("4", "8", "enter")
    hand.keys("9", "=dry")
    assert (hand.written("delivery"), "is closed" in hand.banner) == ([], True)
    hand.seen()
    hand.touch("By weight")

    assert hand.page.sheet.pad.keypad.typed == "9"
    assert hand.page.chosen("ticket") == "48"
