"""Which tests of pages draw what they lay out."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.crewapp.pages.look_round import HOLDS
from tests.in_full import EVERY_FRAME

if TYPE_CHECKING:
    from tests.uidriver import UI


def frames_drawn(ui: UI) -> int:
    """Return how many frames of a changing page are drawn."""
    from kivy.graphics import Callback
    from kivy.uix.widget import Widget

    page, drawn = Widget(), list[int]()
    with page.canvas:
        Callback(lambda _: drawn.append(1))
    ui.show(page)
    return len(drawn)


def test_a_test_that_goes_round_draws(ui: UI) -> None:
    """A file that takes all ways of holding a tablet, as walks do, has its frames drawn."""
    assert frames_drawn(ui) > 0
    assert {is_turned for _, is_turned, _ in HOLDS} == {False, True}


def test_other_tests_lay_out_alone(ui: UI) -> None:
    """With drawing off nothing is drawn, and with it on again it is."""
    ui.draw(False)
    assert frames_drawn(ui) == 0
    ui.draw(True)
    assert frames_drawn(ui) > 0


@pytest.mark.skipif(EVERY_FRAME, reason="here every test draws")
def test_which_tests_draw(request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch) -> None:
    """A file that does not go round gets a glass that is laid out alone."""
    monkeypatch.delattr(request.module, "HOLDS")

    assert frames_drawn(request.getfixturevalue("ui")) == 0
