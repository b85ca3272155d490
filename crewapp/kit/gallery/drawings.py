"""An invented green and an invented collector, drawn for the gallery."""

from __future__ import annotations

import math
from typing import Any

from crewapp.kit.drawing.plan_picture import LineState, PlanLine, PlanPicture
from sync.papers.drawing.primitives import (
    Anchor,
    Dash,
    Drawing,
    Line,
    Mark,
    Polygon,
    Polyline,
    Shape,
    Text,
    Tone,
)


def plan_picture() -> PlanPicture:
    """Return an invented green with its lines in every state."""
    turn = [2 * math.pi * n / 60 for n in range(60)]
    ring = tuple((60 + 50 * math.cos(a) + 8 * math.cos(3 * a), 40 + 34 * math.sin(a)) for a in turn)
    lines = []
    for n in range(46):
        y = 8 + n * 1.42
        half = 50 * math.sqrt(max(1 - ((y - 40) / 34) ** 2, 0.0)) * 0.96
        state = LineState.DONE if n < 18 else LineState.TODAY if n < 30 else LineState.PLANNED
        state = {24: LineState.OUT, 30: LineState.SELECTED}.get(n, state)
        lines.append(PlanLine(str(n), ((60 - half, y), (60 + half, y)), state))
    return PlanPicture(ring, (((70, 44), (80, 44), (80, 52), (70, 52)),), tuple(lines), 1.42)


def two_strips(width: float, height: float) -> Drawing:
    """Lay out an invented profile and its deviation strip."""
    low = height * 0.36
    items: list[Any] = [
        Line((12, low), (width - 2, low), 0.5),
        Line((12, low), (12, height - 4), 0.5),
    ]
    items.append(
        Polygon(((12, 4), (width - 2, 4), (width - 2, low - 14), (12, low - 14)), Tone.BAND)
    )
    middle = (4 + low - 14) / 2
    items.append(Line((12, middle), (width - 2, middle), 0.5, Tone.PLANNED, Dash.DASHED))
    step = (width - 20) / 8
    shots = []
    for n in range(9):
        x = 14 + n * step
        items.append(Line((x, low), (x, low - 1.5), 0.4))
        if n % 2 == 0:
            items.append(Text((x, low - 6), f"0+{n * 12:02d}", 2.9, Anchor.MIDDLE))
        shots.append((x, low + 8 + n * (height - low - 24) / 9 + (1.5 if n == 5 else 0)))
        tone = Tone.OUT if n == 5 else Tone.OK
        kind = Shape.CROSSED_SQUARE if n == 5 else Shape.DISC
        items.append(Mark((x, middle + (3 * math.sin(n) if n != 5 else 7)), kind, 4.0, tone))
    items.append(Line((14, low + 8), (14 + 8 * step, height - 16), 0.5, Tone.PLANNED, Dash.DASHED))
    items.append(Polyline(tuple(shots), 0.8))
    items += [
        Mark(
            shot,
            Shape.DISC if n != 5 else Shape.CROSSED_SQUARE,
            4.0,
            Tone.OK if n != 5 else Tone.OUT,
        )
        for n, shot in enumerate(shots)
    ]
    items.append(Text((14, height - 5), "Profile, heights \u00d7 20", 3.5, is_bold=True))
    items.append(Text((14, low - 11.5), "Shot less design, 0.01 ft", 2.9))
    items.append(Mark((width - 10, height - 6), Shape.ARROW_LEFT, 6.0, Tone.INK))
    return Drawing(width, height, tuple(items))
