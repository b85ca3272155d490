"""Room for labels on a drawing: each is put where it covers nothing, or left out."""

from __future__ import annotations

from collections.abc import Iterator

from sync.sheets.primitives import Anchor, Point, Text, Tone, text_width_mm

Box = tuple[float, float, float, float]


class Room:
    """Boxes taken so far: left, bottom, right, top, in mm."""

    def __init__(self) -> None:
        self.taken: list[Box] = []

    def take(self, at: Point, width_mm: float, height_mm: float) -> None:
        """Keep a box round a point clear."""
        x, y = at
        self.taken.append(
            (x - width_mm / 2, y - height_mm / 2, x + width_mm / 2, y + height_mm / 2)
        )

    def is_free(self, box: Box) -> bool:
        """Whether a box touches none that is taken."""
        return not any(
            box[0] < other[2] and other[0] < box[2] and box[1] < other[3] and other[1] < box[3]
            for other in self.taken
        )

    def place(
        self,
        text: str,
        at: Point,
        cap_mm: float,
        strip: tuple[float, float],
        tone: Tone = Tone.INK,
        *,
        is_bold: bool = False,
    ) -> Iterator[Text]:
        """Put a label over, under or beside a point, inside its strip, where there is room."""
        width, away = text_width_mm(text, cap_mm, is_bold), 1.4
        x, y = at
        for left, bottom in (
            (x - width / 2, y + away),
            (x - width / 2, y - away - cap_mm),
            (x + away, y - cap_mm / 2),
            (x - away - width, y - cap_mm / 2),
        ):
            box = (left, bottom, left + width, bottom + cap_mm)
            if box[1] >= strip[0] and box[3] <= strip[1] and self.is_free(box):
                self.taken.append(box)
                middle = (left + width / 2, bottom)
                yield Text(middle, text, cap_mm, Anchor.MIDDLE, is_bold, tone, has_halo=True)
                return
