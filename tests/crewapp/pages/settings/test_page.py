"""Settings: each is kept, and shows at once."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from crewapp.commands.day import LogNote
from tests.crewapp.pages.frame_hand import AppHand, put_book

if TYPE_CHECKING:
    from tests.uidriver import UI


@pytest.fixture
def hand(ui: UI, tmp_path: Path) -> Iterator[AppHand]:
    """The app with its settings in front."""
    from kivy.metrics import Metrics

    from crewapp.words.translate import set_language

    dpi = Metrics.dpi
    opened = AppHand(ui, tmp_path / "home", put_book(tmp_path)).start()
    opened.shell.go("settings")
    opened.settle()
    yield opened
    opened.close()
    Metrics.dpi = dpi
    set_language("en")


def test_language_rewords_everything(hand: AppHand) -> None:
    """Page, tabs, strip and banner speak the language tapped, and so does the next start."""
    hand.page.do(LogNote(text="wet"))
    hand.settle()
    hand.shell.say_wait("a moment")
    hand.settle()
    hand.tap("Español")
    words = hand.words()

    assert "Ajustes" in words
    assert "Hoy" in words
    assert "Deshacer" in words
    assert not {"Settings", "Today", "Undo", "Seen"} & set(words)
    assert hand.app.tablet.settings().language == "es"


def test_hand_moves_the_tabs_at_once(hand: AppHand) -> None:
    """One tap turns the page round, one turns it back."""
    hand.tap("left hand")
    assert hand.shell.tabs.center_x > hand.shell.center_x
    hand.tap("right hand")

    assert hand.shell.tabs.center_x < hand.shell.center_x
    assert not hand.app.tablet.settings().left_handed


def test_name_goes_into_the_next_entry(hand: AppHand) -> None:
    """The author typed is the author inked; spaces at its ends are not."""
    hand.ui.tap(hand.page.author)
    hand.ui.type("Wren ")
    hand.page.do(LogNote(text="wet"))
    hand.settle()

    entries = hand.desk.job().state.entries.values()
    assert [entry.author for entry in entries if entry.kind == "note"] == ["Wren"]
    assert hand.page.author.text == "Wren "


def test_units_are_those_of_a_new_job(hand: AppHand) -> None:
    """They change no job that is there."""
    hand.tap("metres")
    before = hand.desk.job().figures
    assert hand.app.tablet.settings().unit_system == "metric"
    hand.shell.go("jobs")
    hand.settle()

    assert hand.page.new_job().unit_system == "metric"
    assert hand.desk.job().figures == before


def test_bank_card_sets_the_millimetre(hand: AppHand, ui: UI, tmp_path: Path) -> None:
    """Matched at half a millimetre less, every part is drawn that much smaller, and at a start."""
    from kivy.metrics import Metrics

    claimed = Metrics.dpi
    hand.tap("True size of the keys")
    hand.tap("\u2212")
    hand.tap("It matches")
    factor = hand.app.tablet.settings().screen_factor_permille
    assert factor == round(1000 * 85.1 / 85.6)
    assert Metrics.dpi == pytest.approx(claimed * 85.1 / 85.6)
    assert hand.shell.front == "settings"
    assert hand.page.gauge is None
    hand.close()
    Metrics.dpi = claimed
    again = AppHand(ui, tmp_path / "home").start()

    assert Metrics.dpi == pytest.approx(claimed * factor / 1000)
    again.close()


def test_gauge_can_be_left(hand: AppHand) -> None:
    """Back leads to the settings; leaving the page in any way does too."""
    hand.tap("True size of the keys")
    hand.tap("Back")
    assert hand.page.fields.parent is hand.page
    hand.tap("True size of the keys")
    hand.tap("Today")
    hand.shell.go("settings")

    assert hand.page.fields.parent is hand.page
    assert hand.app.tablet.settings().screen_factor_permille == 1000


def test_setting_that_cannot_be_kept_is_told(
    hand: AppHand, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A full disk: the sentence says so, and the choice stays what it was."""

    def refuse(_: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("os.fsync", refuse)
    hand.tap("metres")

    assert "No space left" in hand.banner
    assert hand.page.units.chosen == "us"
