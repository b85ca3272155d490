"""Lists what a page on the glass holds: words, keys, drawings, with their boxes.

Pixels differ with drivers; these don't. A picture is stale when its list is another.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from kivy.uix.behaviors import ButtonBehavior

from crewapp.kit.drawing.drawing_canvas import DrawingCanvas
from crewapp.kit.drawing.plan_canvas import PlanCanvas
from crewapp.kit.drawing.plan_picture import PlanPicture
from crewapp.kit.look.theme import to_mm
from crewapp.kit.text.label import TextLabel
from crewapp.screenshots.drawn_facts import Facts, drawing_facts, round_to_half

_SAID = ("title", "text", "detail", "figure", "note", "waiting")
_STATES = ("kind", "status", "disabled", "is_current", "is_struck")


def facts_of(shell: Any) -> Facts:
    """Facts of all that the shell shows; boxes in mm from the upper left corner of the glass."""
    shown = list(_shown(shell))
    return {
        "size_mm": [round_to_half(to_mm(shell.width)), round_to_half(to_mm(shell.height))],
        "texts": [
            {"text": one.text, "box": _box(shell, one)}
            for one in shown
            if isinstance(one, TextLabel) and one.text.strip()
        ],
        "keys": [
            {**_said(one), **_states(one), "box": _box(shell, one)}
            for one in shown
            if isinstance(one, ButtonBehavior)
        ],
        "drawn": [item for one in shown for item in _drawn(shell, one)],
    }


def _shown(root: Any) -> Iterator[Any]:
    """Widgets that are seen at all."""
    for widget in root.walk():
        if widget.opacity > 0 and widget.width > 0 and widget.height > 0:
            yield widget


def _box(shell: Any, widget: Any) -> list[float]:
    """Left, top, right and bottom of a widget on the glass, mm."""
    x, y = widget.to_window(*widget.pos)
    top = shell.height - y - widget.height
    sides = (x, top, x + widget.width, top + widget.height)
    return [round_to_half(to_mm(side)) for side in sides]


def _said(key: Any) -> dict[str, str]:
    """What a key says, part by part."""
    return {name: str(said) for name in _SAID if (said := getattr(key, name, ""))}


def _states(key: Any) -> dict[str, str | bool]:
    """How a key stands: its kind, and whether it is dead, current or struck."""
    states = {name: getattr(key, name, "") for name in _STATES}
    return {name: one if one is True else str(one) for name, one in states.items() if one}


def _drawn(shell: Any, widget: Any) -> Iterator[dict[str, Any]]:
    """What a drawing or a plan on the glass is made of."""
    if isinstance(widget, DrawingCanvas) and (drawing := widget.fitted_drawing()) is not None:
        yield {"kind": "drawing", "box": _box(shell, widget)}
        yield from drawing_facts(drawing)
    elif isinstance(widget, PlanCanvas):
        yield {"kind": "plan", "box": _box(shell, widget), "names": _names(widget)}
        yield from _plan(widget.picture)


def _names(view: PlanCanvas) -> list[str]:
    """Names that are lettered on a plan, in their order."""
    return [label.text for label, _, _ in view._labels]


def _plan(picture: PlanPicture) -> Iterator[dict[str, Any]]:
    """Outline, keep-outs and lines of a plan, in its own metres."""
    rings = [("outline", picture.outline), *(("keep-out", ring) for ring in picture.keep_outs)]
    for kind, ring in rings:
        yield {"kind": kind, "points": _flat(ring)}
    for line in picture.lines:
        yield {"kind": line.state.value, "text": line.key, "points": _flat(line.points)}


def _flat(points: Any) -> list[float]:
    return [round_to_half(side) for point in points for side in point]
