"""The walk sees each fault that it is there to see."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import pytest

if TYPE_CHECKING:
    from tests.uidriver import UI


def worker(*parts: Any) -> Any:
    """Return a page with parts at fixed places."""
    from kivy.uix.floatlayout import FloatLayout

    page = FloatLayout()
    for part in parts:
        part.size_hint = (None, None)
        page.add_widget(part)
    return page


def key(left_mm: float, wide_mm: float = 30.0, **kwargs: Any) -> Any:
    """Return a key 20 mm high, 50 mm above the edge."""
    from crewapp.kit.keys.touchable import TapKey
    from crewapp.kit.look.theme import px

    made = TapKey(high_mm=20.0, wide_mm=wide_mm, **kwargs)
    made.pos = (px(left_mm), px(50.0))
    return made


def words(text: str, **kwargs: Any) -> Any:
    """Return words in a box of 20 by 6 mm in the middle of the page."""
    from crewapp.kit.look.theme import px
    from crewapp.kit.text.label import TextLabel

    return TextLabel(text=text, pos=(px(60.0), px(20.0)), size=(px(20.0), px(6.0)), **kwargs)


def sending() -> Any:
    """Return two keys 5 mm apart, one that logs and one that sends."""
    from crewapp.kit.look.palette import ButtonKind

    return worker(key(20, is_logging=True), key(55, kind=ButtonKind.SEND))


def typing() -> Any:
    """Return a bare text field, which needs the system's keyboard."""
    from kivy.uix.textinput import TextInput

    return worker(TextInput(size=(200, 200), pos=(200, 200)))


def sliding() -> Any:
    """Return a slider, which needs a drag."""
    from kivy.uix.slider import Slider

    return worker(Slider(size=(200, 200), pos=(200, 200)))


def crowded() -> Any:
    """Return rows that need more height than they have."""
    from crewapp.kit.panes.layout import Rows

    rows = Rows(size=(300, 100), pos=(200, 200))
    for _ in range(3):
        rows.add_widget(key(0))
    return worker(rows)


FAULTS = {
    "is 10.0 x 20.0 mm": lambda: worker(key(20, 10.0)),
    "1.0 mm apart": lambda: worker(key(20), key(51)),
    "5.0 mm apart, least is 10": sending,
    "mm from the edge": lambda: worker(key(2)),
    "capitals of 2.0 mm": lambda: worker(words("small", cap_mm=2.0, least_mm=2.0)),
    "does not fit": lambda: worker(words("far too many words for so little room")),
    "lie on each other": lambda: worker(words("one word"), words("two word")),
    "is no note": typing,
    "needs a drag": sliding,
    "more height": crowded,
    "off the glass": lambda: worker(key(210)),
}


@pytest.mark.parametrize("fault", FAULTS)
def test_fault_is_seen(ui: UI, fault: str) -> None:
    """A page made with one fault gets a sentence about it."""
    from tests.tree_walk import faults

    root = ui.show(FAULTS[fault]())

    assert [sentence for sentence in faults(root) if fault in sentence]


def test_good_page_has_no_fault(ui: UI) -> None:
    """Two keys of a fair size, a fair way apart."""
    from tests.tree_walk import faults

    assert faults(ui.show(worker(key(20), key(60), words("well")))) == []
