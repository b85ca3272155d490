"""Room for labels on a drawing: each is put where it covers nothing, or left out."""

from __future__ import annotations

from collections.abc import Iterator
from math import ceil, hypot

from sync.papers.drawing.primitives import Anchor, Point, Text, Tone, text_width_mm

Box = tuple[float, float, float, float]
AWAY_MM = 1.4
"""Distance of a label from its point."""


class Room:
    """Boxes taken so far: left, bottom, right, top, in mm."""

    def __init__(self) -> None:
        self.taken: list[Box] = []
        self.labels: list[Box] = []

    def take(self, at: Point, width_mm: float, height_mm: float) -> None:
        """Keep a box round a point clear."""
        x, y = at
        self.taken.append(
            (x - width_mm / 2, y - height_mm / 2, x + width_mm / 2, y + height_mm / 2)
        )

    def take_line(self, start: Point, end: Point, width_mm: float) -> None:
        """Keep a line clear, in boxes along it."""
        (x1, y1), (x2, y2) = start, end
        steps = max(1, ceil(hypot(x2 - x1, y2 - y1) / width_mm))
        for step in range(steps + 1):
            share = step / steps
            at = (x1 + share * (x2 - x1), y1 + share * (y2 - y1))
            self.take(at, width_mm, width_mm)

    def is_free(self, box: Box) -> bool:
        """Whether a box touches none that is taken."""
        return not any(_overlap(box, other) for other in self.taken)

    def place(
        self,
        text: str,
        at: Point,
        cap_mm: float,
        strip: tuple[float, float],
        tone: Tone = Tone.INK,
        *,
        is_needed: bool = False,
    ) -> Iterator[Text]:
        """Put a label over, under or beside a point, inside its strip, where there is room.

        One that is needed may lie over a line, but never over another label.
        """
        width = text_width_mm(text, cap_mm, is_needed)
        boxes = [
            (left, bottom, left + width, bottom + cap_mm)
            for left, bottom in _places(at, width, cap_mm)
            if bottom >= strip[0] and bottom + cap_mm <= strip[1]
        ]
        free = [box for box in boxes if self.is_free(box)]
        if is_needed and not free:
            free = [box for box in boxes if not any(_overlap(box, one) for one in self.labels)]
        for box in free[:1]:
            self.taken.append(box)
            self.labels.append(box)
            middle = (box[0] + width / 2, box[1])
            yield Text(middle, text, cap_mm, Anchor.MIDDLE, is_needed, tone, has_halo=True)


def _places(at: Point, width: float, cap_mm: float) -> list[Point]:
    """Lower left corners that a label may have: over, under, beside, then at the corners."""
    x, y = at
    right, left, middle = x + AWAY_MM, x - AWAY_MM - width, x - width / 2
    over, under = y + AWAY_MM, y - AWAY_MM - cap_mm
    level = y - cap_mm / 2
    beside = [(right, level), (left, level)]
    corners = [(side, height) for side in (right, left) for height in (over, under)]
    return [(middle, over), (middle, under), *beside, *corners]


def _overlap(one: Box, other: Box) -> bool:
    return one[0] < other[2] and other[0] < one[2] and one[1] < other[3] and other[1] < one[3]
