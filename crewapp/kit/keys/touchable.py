"""Buttons and keys, with one pressed look and one buzz."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from kivy.properties import NumericProperty, StringProperty
from kivy.uix.behaviors import ButtonBehavior

from crewapp.kit.look.paint import DrawnWidget, box, cut_box, edge, fill, inset
from crewapp.kit.look.palette import (
    CAP_FIGURE_MM,
    CAP_LABEL_MM,
    EDGE_LINE_MM,
    INK,
    KEY_MM,
    PAGE,
    RULE_MM,
    TOUCH_MM,
    ButtonKind,
    look_of,
)
from crewapp.kit.look.theme import px
from crewapp.kit.text.label import TextLabel

CUT_MM = 3.0
FOOT_MM = 1.6
PADDING_MM = 2.0
BLOCK_MM = 26.0
_feel: list[Callable[[], None]] = []


def on_every_touch(feel: Callable[[], None]) -> None:
    """Set what a press is felt by: the device's vibration, once, at start-up."""
    _feel[:] = [feel]


def buzz() -> None:
    """Buzz for something that needs a look: a refused key, a reading that is out."""
    for feel in _feel:
        feel()


class Touchable(ButtonBehavior, DrawnWidget):
    """A thing to touch, with words. Events: ``on_press``, ``on_release``.

    Act on ``on_release``: a finger that slides off before lifting did nothing.
    ``kind`` (palette.Kind) gives look and distance; ``least_mm`` is the least
    side that the tree walk holds it to.
    """

    text = StringProperty("")
    note = StringProperty("")  # a second, smaller line
    kind = StringProperty(ButtonKind.PLAIN)
    cap_mm = NumericProperty(CAP_LABEL_MM + 0.5)
    least_side_mm = TOUCH_MM
    is_logging = False  # whether a touch writes an entry (kept away from sending)
    redraw_on: tuple[str, ...] = ("state", "kind", "text", "note", "disabled", "cap_mm")

    def __init__(self, **kwargs: Any) -> None:
        high_mm = kwargs.pop("high_mm", None)
        wide_mm = kwargs.pop("wide_mm", None)
        is_logging = kwargs.pop("is_logging", None)
        self.words = TextLabel(bold=True, halign="center", lines=2)
        self.second = TextLabel(halign="center", cap_mm=CAP_LABEL_MM)
        super().__init__(**kwargs)
        if is_logging is not None:
            self.is_logging = is_logging
        if high_mm is not None:
            self.size_hint_y, self.height = None, px(high_mm)
        if wide_mm is not None:
            self.size_hint_x, self.width = None, px(wide_mm)
        self.add_widget(self.words)
        self.add_widget(self.second)

    def on_press(self) -> None:
        """Buzz at once: a glove feels no click."""
        buzz()

    def draw(self) -> None:
        """Draw ground, edge and words as the state wants them."""
        look = look_of(ButtonKind(self.kind), self.state == "down", self.disabled)
        outline = self.outline()
        fill(outline, look.ground)
        edge(outline, look.edge, RULE_MM if self.kind == ButtonKind.QUIET else EDGE_LINE_MM)
        self._place_words(look.text)

    def outline(self) -> Any:
        """Return the outline in pixels: an index card with its corner cut."""
        cut = 0.0 if self.kind == ButtonKind.QUIET else px(CUT_MM)
        return cut_box(*inset(self, EDGE_LINE_MM / 2), cut)

    def _place_words(self, tone: str) -> None:
        """Put one or two lines of words in the middle."""
        pad = px(PADDING_MM)
        x, width = self.x + pad, self.width - 2 * pad
        share = (0.4 if self.second.lines == 1 else 0.5) if self.note else 0.0
        # On a tall key the words keep together in its middle.
        inner = min(self.height - 2 * px(1.0), px(BLOCK_MM))
        low = self.center_y - inner / 2
        for label, text in ((self.words, self.text), (self.second, self.note)):
            label.text, label.tone = text, tone
        self.second.pos, self.second.size = (x, low), (width, inner * share)
        self.words.pos = (x, low + inner * share)
        self.words.size = (width, inner * (1 - share))
        self.words.cap_mm = self.cap_mm


class TapKey(Touchable):
    """A button of a kind; ``high_mm`` and ``wide_mm`` fix its size, else it fills."""

    def __init__(self, **kwargs: Any) -> None:
        kwargs.setdefault("high_mm", TOUCH_MM if "size_hint_y" not in kwargs else None)
        super().__init__(**kwargs)


class MainKey(Touchable):
    """The one next thing on a screen: black, at least 22 mm high."""

    least_side_mm = KEY_MM
    is_logging = True

    def __init__(self, **kwargs: Any) -> None:
        kwargs.setdefault("kind", ButtonKind.PRIMARY)
        kwargs.setdefault("cap_mm", 5.0)
        kwargs.setdefault("high_mm", KEY_MM if "size_hint_y" not in kwargs else None)
        super().__init__(**kwargs)


class Key(Touchable):
    """A key of the pad: a large figure, square corners, a heavy foot."""

    least_side_mm = KEY_MM

    def __init__(self, **kwargs: Any) -> None:
        kwargs.setdefault("cap_mm", CAP_FIGURE_MM)
        super().__init__(**kwargs)
        self.words.lines = 1

    def outline(self) -> Any:
        """Return a plain box: keys stand in a block, like type in a case."""
        return cut_box(*inset(self, EDGE_LINE_MM / 2), 0)

    def draw(self) -> None:
        """Draw the key and its foot."""
        super().draw()
        if self.disabled or ButtonKind(self.kind) is not ButtonKind.PLAIN:
            return
        x, y, width, _ = inset(self, EDGE_LINE_MM / 2)
        fill(box(x, y, width, px(FOOT_MM)), PAGE if self.state == "down" else INK)
