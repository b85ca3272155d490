"""A sketch for each end that two ties lead to: the end, its points, the taped distances."""

from __future__ import annotations

from functools import partial

from sync.papers.asbuilt.features.feature_types import AsBuilt, Place, TieMeasured
from sync.papers.asbuilt.features.short_names import short
from sync.papers.asbuilt.records.ground import ties_by_end
from sync.papers.drawing.primitives import (
    Anchor,
    Drawing,
    Line,
    Mark,
    Point,
    Primitive,
    Shape,
    Text,
    text_width_mm,
)
from sync.papers.pdf.drawing_ops import draw
from sync.papers.pdf.flow import Piece, Section
from sync.papers.pdf.pen import PdfPen
from sync.papers.pdf.rows import section

CAP_MM = 1.8
HIGH_MM = 34.0
MOST_SKETCHES = 24


def sketch_section(job: AsBuilt, width: float) -> list[Section]:
    """Sketches two abreast, collectors first; none where no end has two ties."""
    ends = [(name, ties) for name, ties in ties_by_end(job).items() if len(ties) > 1]
    ends.sort(key=lambda end: not end[1][0].collector_id)
    if not ends:
        return []
    each = (width - 4.0) / 2
    drawings = [draw_sketch(name, ties, job, each) for name, ties in ends[:MOST_SKETCHES]]
    pairs = [drawings[place : place + 2] for place in range(0, len(drawings), 2)]
    pieces = [Piece(HIGH_MM + 2.0, partial(_paint, pair=pair, each=each)) for pair in pairs]
    return [section(width, "Ties, sketched (not to scale where no place is known)", pieces)]


def _paint(pen: PdfPen, left: float, top: float, *, pair: list[Drawing], each: float) -> None:
    for place, drawing in enumerate(pair):
        draw(pen, drawing, left + place * (each + 4.0), top + 1.0)


def draw_sketch(name: str, ties: list[TieMeasured], job: AsBuilt, width_mm: float) -> Drawing:
    """Draw an end with the lines of its ties; laid as on the plan where every place is known."""
    end, *points = _places(ties, width_mm)
    longest = max(tie.distance_nm for tie in ties)
    items: list[Primitive] = [Text((0.0, HIGH_MM - CAP_MM), short(name, 28), CAP_MM, is_bold=True)]
    for tie, at in zip(ties, points, strict=True):
        items.append(Line(end, at, 0.25))
        words = f"{job.figures.level(tie.distance_nm)} {'ft' if job.is_us else 'm'}"
        share = 0.7 if tie.distance_nm == longest else 0.5
        middle = (end[0] + share * (at[0] - end[0]), end[1] + share * (at[1] - end[1]))
        items.append(Text(middle, words, CAP_MM, Anchor.MIDDLE, has_halo=True))
        items.append(Mark(at, Shape.TRIANGLE, 2.4))
        items.append(_named(short(tie.point_id, 14), at, end, width_mm))
    items.append(Mark(end, Shape.DISC, 2.2))
    return Drawing(width_mm, HIGH_MM, tuple(items))


def _named(words: str, at: Point, end: Point, width_mm: float) -> Text:
    """A point's name beside it, away from the end it is measured to where there is room."""
    wide = text_width_mm(words, CAP_MM, True)
    fits = at[0] + 2.0 + wide <= width_mm and (at[0] >= end[0] or at[0] - 2.0 - wide < 0)
    place = (at[0] + 2.0, at[1] - 0.9) if fits else (at[0] - 2.0, at[1] - 0.9)
    anchor = Anchor.LEFT if fits else Anchor.RIGHT
    return Text(place, words, CAP_MM, anchor, is_bold=True, has_halo=True)


def _places(ties: list[TieMeasured], width_mm: float) -> list[Point]:
    """The end, then every point, in the box under the sketch's name."""
    known: list[Place] = []
    for place in [ties[0].end, *(tie.point for tie in ties)]:
        if place is not None:
            known.append(place)
    room = (width_mm - 22.0, HIGH_MM - 12.0)
    if len(known) < len(ties) + 1:
        count = len(ties)
        tops = [(11.0 + room[0] * (n + 0.5) / count, HIGH_MM - 9.0) for n in range(count)]
        return [(width_mm / 2, 4.0), *tops]
    xs, ys = [one.x_nm for one in known], [one.y_nm for one in known]
    sides = (max(xs) - min(xs) or 1, max(ys) - min(ys) or 1)
    per_nm = min(mm / nm for mm, nm in zip(room, sides, strict=True))
    left = 11.0 + (room[0] - sides[0] * per_nm) / 2
    low = 4.0 + (room[1] - sides[1] * per_nm) / 2
    return [
        (left + (one.x_nm - min(xs)) * per_nm, low + (one.y_nm - min(ys)) * per_nm) for one in known
    ]
