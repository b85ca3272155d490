"""The rain lock: a drop does nothing, a hand does anything in two taps."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from crewapp.commands.day import LogNote
from crewapp.kit.input.rain_lock import ARMED_MS, OPPOSITE, RainLock
from tests.crewapp.pages.frame_hand import AppHand, put_book

if TYPE_CHECKING:
    from tests.uidriver import UI


@pytest.fixture
def hand(ui: UI, tmp_path: Path) -> Iterator[AppHand]:
    """The app locked, with a note just inked."""
    opened = AppHand(ui, tmp_path / "home", put_book(tmp_path)).start()
    opened.page.do(LogNote(text="wet corner"))
    opened.settle()
    opened.tap_on(opened.page.keys["rain"])
    yield opened
    opened.close()


def two(hand: AppHand, name: str) -> None:
    """Tap a key of the lock, then the one across from it."""
    for key in (name, OPPOSITE[name]):
        hand.tap_on(hand.shell.rain.keys[key])


def notes_standing(hand: AppHand) -> int:
    """Return how many notes stand."""
    state = hand.desk.job().state
    return sum(e.kind == "note" and not state.is_struck(e.id) for e in state.entries.values())


def test_single_taps_do_nothing(hand: AppHand) -> None:
    """Every key alone, again and again, leaves the lock on and the entry standing."""
    for name in OPPOSITE:
        for _ in range(3):
            hand.tap_on(hand.shell.rain.keys[name])
        hand.tap_on(hand.shell.rain.keys[name])

    assert hand.shell.rain is not None
    assert hand.shell.front == "today"
    assert notes_standing(hand) == 1


def test_two_opposite_taps_unlock(hand: AppHand) -> None:
    """No hold is needed: there are only three of them in the app."""
    two(hand, "unlock")

    assert hand.shell.rain is None


def test_undo_works_under_the_lock(hand: AppHand) -> None:
    """The entry is struck, the lock stays on, and there is nothing more to take back."""
    two(hand, "undo")

    assert notes_standing(hand) == 0
    assert hand.shell.rain is not None
    assert hand.shell.rain.keys["undo"].disabled


@pytest.mark.parametrize(("key", "page"), [("pass", "pass"), ("delay", "day")])
def test_work_is_two_taps_away(hand: AppHand, key: str, page: str) -> None:
    """To the pass in hand, or to a delay that just began."""
    two(hand, key)

    assert hand.shell.rain is None
    assert hand.shell.front == page


def test_nothing_under_the_lock_is_hit(hand: AppHand) -> None:
    """A touch between the keys reaches neither page nor tabs."""
    hand.ui.tap(hand.shell.rain.words)
    hand.settle()

    assert hand.shell.front == "today"


def test_lock_lies_over_a_banner(hand: AppHand) -> None:
    """What comes meanwhile waits under it."""
    hand.shell.say_failed("No room.")
    hand.settle()

    assert hand.shell.children[0] is hand.shell.rain


def test_first_tap_is_forgotten() -> None:
    """After four seconds the second tap begins anew."""
    lock, done = RainLock().tap("unlock", 0)
    assert (lock.armed, done) == ("unlock", "")
    assert lock.tap("pass", ARMED_MS) == (RainLock(), "unlock")

    assert lock.tap("pass", ARMED_MS + 1) == (RainLock("pass", ARMED_MS + 1), "")


def test_third_place_calls_it_off() -> None:
    """A tap anywhere else is no purpose of a hand."""
    lock, _ = RainLock().tap("unlock", 0)

    assert lock.tap("undo", 10) == (RainLock(), "")
    assert lock.tap("unlock", 10) == (RainLock(), "")
