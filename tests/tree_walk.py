"""Walks a laid-out page and says, in sentences, what a gloved hand would miss.

Rules: E1 size of touchables, E2 the gaps between them, E3 size of letters, E9
no drag and no system keyboard, E13 no text cut off or outside its box. And that
no two parts lie on each other and none off the glass.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations
from typing import Any

from kivy.core.window import Window
from kivy.uix.behaviors import ButtonBehavior
from kivy.uix.textinput import TextInput

from crewapp.kit.drawing.signature_pad import SignaturePad
from crewapp.kit.keys.chip_row import ChipRow
from crewapp.kit.keys.touchable import Key, Touchable
from crewapp.kit.look.palette import (
    CAP_LEAST_MM,
    CAP_PER_EM,
    EDGE_MM,
    GAP_MM,
    GAP_TO_DESTRUCTIVE_MM,
    ButtonKind,
)
from crewapp.kit.look.theme import text_size_px, to_mm
from crewapp.kit.text.label import TextLabel

SLACK_MM = 0.15  # a pixel of the coarsest screen, lost in whole pixels
Box = tuple[float, float, float, float]


def faults(root: Any) -> list[str]:
    """Return all that is wrong with a page, one sentence each."""
    return [*touch_faults(root), *gap_faults(root), *word_faults(root), *reach_faults(root)]


def shown(root: Any) -> Iterator[Any]:
    """Give the widgets of a page that are seen at all, and not covered by what lies over it."""
    found = [w for w in root.walk() if w.opacity > 0 and w.width > 0 and w.height > 0]
    over = [w for w in found if getattr(w, "lies_over", False) and w is not root]
    own = {id(inner) for one in over for inner in one.walk()}
    for widget in found:
        if id(widget) in own or not any(is_covered(widget, one) for one in over):
            yield widget


def is_covered(widget: Any, by: Any) -> bool:
    """Whether a part without parts lies under another, in part at least: it takes the touch."""
    if widget.children and not isinstance(widget, ButtonBehavior):
        return False
    return apart(whole_box(widget), whole_box(by)) < 0


def whole_box(widget: Any) -> Box:
    """Return a widget's box on the glass in mm."""
    x, y = widget.to_window(*widget.pos)
    return to_mm(x), to_mm(y), to_mm(x + widget.width), to_mm(y + widget.height)


def touchables(root: Any) -> list[Any]:
    """Return what can be touched, but for rows scrolled out of sight."""
    found = [w for w in shown(root) if isinstance(w, (ButtonBehavior, TextInput))]
    return [w for w in found if box_of(w) is not None]


def box_of(widget: Any) -> Box | None:
    """Return a widget's box on the glass in mm, or None if it is scrolled away."""
    x, y = widget.to_window(*widget.pos)
    left, low, right, top = x, y, x + widget.width, y + widget.height
    view = scroller_of(widget)
    if view is not None:
        vx, vy = view.to_window(*view.pos)
        if top <= vy + 1 or low >= vy + view.height - 1 or right <= vx or left >= vx + view.width:
            return None
        low, top = max(low, vy), min(top, vy + view.height)
    return to_mm(left), to_mm(low), to_mm(right), to_mm(top)


def scroller_of(widget: Any) -> Any:
    """Return the scrolling view a widget is in, or None."""
    parent = widget.parent
    while parent is not None and parent is not widget and parent is not Window:
        if hasattr(parent, "scroll_y"):
            return parent
        parent = parent.parent
    return None


def name_of(widget: Any) -> str:
    """Return words that tell a person which widget is meant."""
    text = getattr(widget, "title", "") or getattr(widget, "text", "")
    return f"{type(widget).__name__} {str(text)[:30]!r}"


def touch_faults(root: Any) -> Iterator[str]:
    """Give what is too small to hit (E1)."""
    for widget in touchables(root):
        left, low, right, top = box_of(widget) or (0, 0, 0, 0)
        least = getattr(widget, "least_side_mm", 15.0)
        high_least = 18.0 if isinstance(widget.parent, ChipRow) else least
        if right - left < least - SLACK_MM or top - low < high_least - SLACK_MM:
            yield (
                f"{name_of(widget)} is {right - left:.1f} x {top - low:.1f} mm, "
                f"least is {least:g} x {high_least:g} mm"
            )


def is_risky(widget: Any) -> bool:
    """Whether a touch sends, closes or strikes out."""
    return getattr(widget, "kind", None) in (ButtonKind.DESTRUCTIVE, ButtonKind.SEND)


def is_logging(widget: Any) -> bool:
    """Whether a touch writes an entry."""
    return bool(getattr(widget, "is_logging", False))


def apart(one: Box, other: Box) -> float:
    """Return the gap between two boxes; below zero they lie on each other."""
    across = max(one[0] - other[2], other[0] - one[2])
    up = max(one[1] - other[3], other[1] - one[3])
    return max(across, up)


def gap_faults(root: Any) -> Iterator[str]:
    """Give what lies too near something else, or the edge of the glass (E2)."""
    boxes = [(w, b) for w in touchables(root) if (b := box_of(w)) is not None]
    for (one, box), (other, other_box) in combinations(boxes, 2):
        least = GAP_MM
        if (is_risky(one) and is_logging(other)) or (is_risky(other) and is_logging(one)):
            least = GAP_TO_DESTRUCTIVE_MM
        if is_pad_pair(one, other):
            least = 6.0
        gap = apart(box, other_box)
        if gap < least - SLACK_MM:
            yield f"{name_of(one)} and {name_of(other)} are {gap:.1f} mm apart, least is {least:g}"
    wide, high = to_mm(Window.width), to_mm(Window.height)
    for widget, (left, low, right, top) in boxes:
        edge = min(left, low, wide - right, high - top)
        if edge < EDGE_MM - SLACK_MM:
            yield f"{name_of(widget)} is {edge:.1f} mm from the edge, least is {EDGE_MM:g}"


def is_pad_pair(one: Any, other: Any) -> bool:
    """Whether one takes digits back and the other writes one."""
    backs = {"Clear", "Close", "Back"}
    texts = {getattr(one, "text", ""), getattr(other, "text", "")}
    both_keys = one.parent is other.parent and (isinstance(one, Key) or isinstance(other, Key))
    return both_keys and bool(texts & backs) and any(len(t) == 1 for t in texts)


def word_faults(root: Any) -> Iterator[str]:
    """Give letters too small (E3), cut off, or outside their box (E13)."""
    boxes = []
    for words in shown(root):
        if not isinstance(words, TextLabel) or not words.text.strip() or not is_in_view(words):
            continue
        cap = to_mm(words.font_size) * CAP_PER_EM
        if cap < CAP_LEAST_MM - 0.02:
            yield f"{words.text[:30]!r} has capitals of {cap:.1f} mm"
        if words.is_cut:
            yield f"{words.text[:40]!r} does not fit in {size_of(words)}"
        wide, high = words.texture_size
        if wide > words.width + 1.5 or high > words.height + 2:
            yield f"{words.text[:40]!r} runs out of its box of {size_of(words)}"
        boxes.append((words, letters_box(words)))
    for (one, box), (other, other_box) in combinations(boxes, 2):
        if apart(box, other_box) < -0.6:
            yield f"{one.text[:30]!r} and {other.text[:30]!r} lie on each other"


def size_of(widget: Any) -> str:
    """Return a widget's size in words."""
    return f"{to_mm(widget.width):.1f} x {to_mm(widget.height):.1f} mm"


def is_in_view(widget: Any) -> bool:
    """Whether a part inside a scrolling view is seen whole."""
    view = scroller_of(widget)
    if view is None:
        return True
    _, low = widget.to_window(*widget.pos)
    _, view_low = view.to_window(*view.pos)
    return bool(low >= view_low - 1 and low + widget.height <= view_low + view.height + 1)


def letters_box(words: TextLabel) -> Box:
    """Return the box of the letters themselves, in mm on the glass."""
    wide, high = words.texture_size
    x, y = words.to_window(*words.center)
    tight = high * 0.7
    lines = words.text.split("\n")
    natural = max(
        text_size_px(line, words.font_size, bool(words.bold), words.font_name)[0] for line in lines
    )
    if natural > words.width:
        natural = wide
    x += {"left": -1, "right": 1}.get(words.halign, 0) * (words.width - natural) / 2
    return (
        to_mm(x - natural / 2),
        to_mm(y - tight / 2),
        to_mm(x + natural / 2),
        to_mm(y + tight / 2),
    )


def reach_faults(root: Any) -> Iterator[str]:
    """Give what needs more than a tap (E9), and what lies off the glass."""
    for widget in shown(root):
        if isinstance(widget, TextInput) and not getattr(widget, "longest", 0):
            yield f"{name_of(widget)} needs the system's keyboard and is no note"
        is_drag = any(hasattr(type(widget), name) for name in ("do_rotation", "value_normalized"))
        if is_drag and not isinstance(widget, SignaturePad):
            yield f"{name_of(widget)} needs a drag"
        is_silent = isinstance(widget, TextLabel) and not widget.text
        if scroller_of(widget) is None and widget.parent is not None and not is_silent:
            x, y = widget.to_window(*widget.pos)
            is_off = x < -2 or y < -2 or x + widget.width > Window.width + 2
            if is_off or y + widget.height > Window.height + 2:
                yield f"{name_of(widget)} lies off the glass"
    yield from stacked_faults(root)


def stacked_faults(root: Any) -> Iterator[str]:
    """Give parts of a touchable kind that are covered by their neighbours' boxes."""
    for parent in shown(root):
        if not isinstance(parent, Touchable) and hasattr(parent, "minimum_height"):
            over = to_mm(parent.minimum_height - parent.height)
            is_upright = getattr(parent, "orientation", "") == "vertical"
            if is_upright and over > 0.5 and scroller_of(parent) is None:
                yield f"the parts of a {type(parent).__name__} need {over:.1f} mm more height"
