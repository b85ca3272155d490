"""How each plot cleared after each rain against the estimate, as one small drawing."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from models.queries.water.clearing import RainStory, SurfaceClearing
from models.units import show_duration
from sync.papers.asbuilt.features.short_names import short
from sync.papers.drawing.primitives import (
    Anchor,
    Drawing,
    Line,
    Mark,
    Polygon,
    Polyline,
    Primitive,
    Shape,
    Text,
    Tone,
    text_width_mm,
    translate,
)
from sync.papers.drawing.round_steps import round_step

CAP_MM = 1.8
ROW_MM = 5.6
_NAMES_MM, _RIGHT_MM = 34.0, 6.0
_HEAD_MM, _FOOT_MM = 4.5, 10.5
_STEPS_MIN = (10, 15, 30, 60, 120, 180, 240, 360, 720, 1440, 2880, 7200, 14_400)
MOST_ROWS = 16


@dataclass(frozen=True, slots=True)
class PlotRow:
    """A plot after one rain, times in minutes after it stopped."""

    name: str
    cleared: SurfaceClearing


def plot_rows(stories: list[RainStory], days: dict[str, str]) -> list[PlotRow]:
    """Rows of the drawing, the newest rains first; ``days`` are the rains' days by entry."""
    rows = []
    for story in reversed(stories):
        for cleared in story.plots:
            place = f"{cleared.surface_id} {cleared.plot}".strip()
            rows.append(PlotRow(f"{short(place, 22)}, {days[story.entry.id]}", cleared))
    return rows[:MOST_ROWS]


def draw_rain_plot(rows: list[PlotRow], width_mm: float) -> Drawing:
    """A bar while water was seen, marks when it was clear and playable, a line for the estimate."""
    high = _HEAD_MM + ROW_MM * len(rows) + _FOOT_MM
    longest = max((time for row in rows for time in _times(row.cleared)), default=60) or 60
    step = round_step(_STEPS_MIN, longest / 6)
    most = -(-longest // step) * step
    per_min = (width_mm - _NAMES_MM - _RIGHT_MM) / most
    items: list[Primitive] = list(_axis(most, step, per_min, high))
    for place, row in enumerate(rows):
        y = high - _HEAD_MM - (place + 0.5) * ROW_MM
        items += _row(row, y, per_min)
    items += _legend(width_mm)
    return Drawing(width_mm, high, tuple(items))


def _times(cleared: SurfaceClearing) -> Iterator[int]:
    for time in (
        cleared.standing_min,
        cleared.clear_min,
        cleared.playable_min,
        cleared.estimate_min,
    ):
        if time is not None:
            yield time


def _axis(most: int, step: int, per_min: float, high: float) -> Iterator[Primitive]:
    """Time since the rain stopped, a thin line up at each step."""
    for minutes in range(0, most + 1, step):
        x = _NAMES_MM + minutes * per_min
        yield Line((x, _FOOT_MM), (x, high - _HEAD_MM), 0.15, Tone.RULE)
        words = show_duration(minutes) if minutes else "0"
        yield Text((x, high - _HEAD_MM + 1.0), words, CAP_MM, Anchor.MIDDLE)
    yield Text((0.0, high - _HEAD_MM + 1.0), "after the rain stopped", CAP_MM)


def _row(row: PlotRow, y: float, per_min: float) -> Iterator[Primitive]:
    cleared, half = row.cleared, 1.1
    yield Text((0.0, y - CAP_MM / 2), row.name, CAP_MM)
    if cleared.standing_min is not None:
        end = _NAMES_MM + cleared.standing_min * per_min
        box = ((_NAMES_MM, y - half), (end, y - half), (end, y + half), (_NAMES_MM, y + half))
        yield Polygon(box, Tone.BAND)
        yield Polyline(box, 0.25, is_closed=True)
    if cleared.estimate_min is not None:
        x = _NAMES_MM + cleared.estimate_min * per_min
        yield Line((x, y - 2.0), (x, y + 2.0), 0.8)
    for minutes, shape in ((cleared.clear_min, Shape.RING), (cleared.playable_min, Shape.DISC)):
        if minutes is not None:
            at = (_NAMES_MM + minutes * per_min, y)
            yield Mark(at, shape, 2.0, is_filled=shape is Shape.DISC)


def _legend(width_mm: float) -> Iterator[Primitive]:
    """What bar, marks and line mean, in one or two lines."""
    x, y = 0.0, 5.0
    samples: tuple[tuple[Primitive, str], ...] = (
        (
            Polygon(((0, -0.9), (5, -0.9), (5, 0.9), (0, 0.9)), Tone.BAND),
            "water last seen standing",
        ),
        (Mark((2.5, 0.0), Shape.RING, 2.0, is_filled=False), "none stands"),
        (Mark((2.5, 0.0), Shape.DISC, 2.0), "fit to play on"),
        (Line((2.5, -1.6), (2.5, 1.6), 0.8), "estimated to be gone"),
    )
    for sample, words in samples:
        wide = 6.5 + text_width_mm(words, CAP_MM) + 3.0
        if x + wide > width_mm:
            x, y = 0.0, y - 4.0
        yield translate(sample, x, y)
        yield Text((x + 6.5, y - CAP_MM / 2), words, CAP_MM)
        x += wide
