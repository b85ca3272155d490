"""The frame's pages keep to the rules of hand and eye on every tablet, held either way."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from crewapp.kit.look.palette import Status
from crewapp.tablet.settings import Settings, Tablet
from crewapp.words.translate import say
from tests.crewapp.pages.frame_hand import AppHand, put_book
from tests.crewapp.pages.look_round import HOLDS
from tests.kivy_env import profile_named
from tests.tree_walk import faults

if TYPE_CHECKING:
    from tests.uidriver import UI


def today(hand: AppHand) -> None:
    """Today, with the book open."""


def jobs(hand: AppHand) -> None:
    """The shelf."""
    hand.tap_on(hand.page.keys["jobs"])
    hand.page.turn_to(next(iter(hand.page.parts)))
    hand.settle()


def new_job(hand: AppHand) -> None:
    """The form of a new job."""
    jobs(hand)
    hand.page.turn_to("new")
    hand.settle()


def ground(hand: AppHand) -> None:
    """The first surface of a new job."""
    jobs(hand)
    hand.page.turn_to("ground")
    hand.settle()


def plans(hand: AppHand) -> None:
    """Plan files, none there."""
    jobs(hand)
    hand.page.turn_to("plans")
    hand.settle()


def settings(hand: AppHand) -> None:
    """The settings."""
    jobs(hand)
    hand.tap(say("Settings"))


def gauge(hand: AppHand) -> None:
    """The bank card's outline."""
    settings(hand)
    hand.tap_on(hand.page.size_key)


def undo(hand: AppHand) -> None:
    """Today with the undo strip and a flag."""
    hand.shell.strip.text = "Inked 14:05: depth 8-1/2 in at 12.5 ft on line S13"
    hand.shell._set_shown(hand.shell.strip, True)
    text = "Depth 8 in on line S13 at 12 ft; at least 8-1/2 in is wanted."
    hand.shell.show_finding("The slit is too shallow", text, Status.OUT)
    hand.settle()


def read_only(hand: AppHand) -> None:
    """Today while another window has the book."""
    hand.shell._set_shown(hand.shell.strip, False)
    hand.shell._drop_banner()
    hand.shell._set_shown(hand.shell.notice, True)
    hand.settle()


def rain(hand: AppHand) -> None:
    """The rain lock."""
    hand.tap_on(hand.page.keys["rain"])


PLACES = [today, jobs, new_job, ground, plans, settings, gauge, undo, read_only, rain]
"""In this order in one app; the lock comes last, since nothing is reached behind it."""


@pytest.fixture(params=HOLDS, ids=lambda hold: "-".join(str(part) for part in hold))
def hand(
    ui: UI, tmp_path: Path, request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch
) -> Iterator[AppHand]:
    """The app on a tablet held one way, in one language."""
    from crewapp.words.translate import set_language

    monkeypatch.setenv("HOME", str(tmp_path))
    name, is_turned, language = request.param
    ui.hold(profile_named(name, is_turned))
    home = tmp_path / "home"
    Tablet(home).keep_settings(Settings(author="Wren", language=language))
    opened = AppHand(ui, home, put_book(home / "books")).start()
    yield opened
    opened.close()
    set_language("en")


def test_pages_fit_the_hand(hand: AppHand) -> None:
    """Nothing is too small, too near, cut off or off the glass, on any of these pages."""
    found = list[str]()
    for go in PLACES:
        hand.shell.go("today")
        hand.settle()
        go(hand)
        found += [f"{go.__name__}: {fault}" for fault in faults(hand.shell.rain or hand.shell)]

    assert found == []
