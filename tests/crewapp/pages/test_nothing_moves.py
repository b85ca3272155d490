"""Nothing that a finger aims at moves when the undo strip or a banner comes."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest

from crewapp.kit.look.palette import Status
from crewapp.tablet.settings import Settings, Tablet
from tests.crewapp.pages.slit_hand import SlitHand, put_slit_book
from tests.kivy_env import profile_named

if TYPE_CHECKING:
    from tests.uidriver import UI

LONG = "Pass G7-01, line S01 at 1.0 ft: 7-7/8 in deep, at least 8-1/2 in is wanted."


@pytest.fixture(params=[False, True], ids=["wide", "high"])
def hand(ui: UI, tmp_path: Path, request: pytest.FixtureRequest) -> Iterator[SlitHand]:
    """The smallest tablet, held both ways."""
    ui.hold(profile_named("8in", request.param))
    home = tmp_path / "home"
    Tablet(home).keep_settings(Settings(author="Ana"))
    opened = SlitHand(ui, home, put_slit_book(home / "books"))
    yield opened
    opened.close()


def targets(hand: SlitHand) -> dict[int, tuple[Any, ...]]:
    """Where each thing to touch on the page and among the tabs stands."""
    from crewapp.kit.keys.touchable import Touchable

    walked = [*hand.page.walk(restrict=True), *hand.shell.tabs.walk(restrict=True)]
    found = [w for w in walked if isinstance(w, Touchable)]
    return {id(w): (w.text, *map(round, (*w.to_window(*w.pos), *w.size))) for w in found}


def show_both(hand: SlitHand) -> None:
    """Let the strip and a banner come, as after a probe that is out."""
    hand.shell.strip.text = "Inked 14:05: a probe"
    hand.shell._set_shown(hand.shell.strip, True)
    hand.shell.show_finding(LONG, "Cut the line again to its design depth.", Status.OUT)
    hand.settle()


@pytest.mark.parametrize("part", ["cut", "probe", "sand"])
def test_no_target_moves_for_strip_or_banner(hand: SlitHand, part: str) -> None:
    """Chips, keys and tabs stay where they were, all of them, and those of length are there."""
    hand.page.turn_to("cut")
    hand.settle()
    assert hand.bearers("40.0")
    if part != "cut":
        hand.cut()
        hand.open_part(part)
    hand.shell._set_shown(hand.shell.strip, False)
    hand.shell._drop_banner()
    hand.settle()
    before = targets(hand)

    show_both(hand)

    assert targets(hand) == before
    hand.tap("Seen")
    assert targets(hand) == before


def test_touch_on_a_banner_reaches_nothing_under_it(hand: SlitHand) -> None:
    """A finger on its way to what a banner now covers writes nothing and goes nowhere."""
    hand.cut()
    hand.open_part("probe")
    show_both(hand)
    where, front = hand.page.part.where, hand.page.part

    hand.tap_on(where)

    assert hand.page.part is front
    assert hand.banner.startswith(LONG)
