"""Primitives of a drawing: lines, areas, words and marks, in millimetres.

One layout function makes a list of these; the tablet's canvas and the PDF both
draw the same list, and tests compare the list instead of pixels. The origin is
the lower left corner of the drawing, x runs right and y runs up.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum

Point = tuple[float, float]


class Tone(StrEnum):
    """Meaning of a colour; each renderer looks the colour itself up."""

    INK = "ink"  # black: all that was measured or written
    RULE = "rule"  # dark grey: axes, grid, what is only ground to stand on
    BAND = "band"  # light fill behind ink: the tolerance band, a keep-out
    PAPER = "paper"  # white: halos and knock-outs
    PLANNED = "planned"  # the design and what is still to be done
    TODAY = "today"  # what was done on the day shown
    OK = "ok"
    CHECK = "check"
    OUT = "out"
    ELECTRIC = "electric"  # these six: buried utilities, by the colours of the marking code
    GAS = "gas"
    COMMUNICATION = "communication"
    WATER = "drinking water"
    RECLAIMED = "reclaimed water"
    SEWER = "sewer"


class Dash(StrEnum):
    """Pattern of a broken line, so that colour is never the only sign."""

    SOLID = "solid"
    DASHED = "dashed"
    DOTTED = "dotted"


# Drawn and blank length of each pattern, as multiples of the line weight.
DASH_IN_WEIGHTS: dict[Dash, tuple[float, float] | None] = {
    Dash.SOLID: None,
    Dash.DASHED: (8.0, 5.0),
    Dash.DOTTED: (1.5, 3.0),
}


class Shape(StrEnum):
    """The outline of a mark; the first four are the four states of a reading."""

    DISC = "disc"  # OK
    TRIANGLE = "triangle"  # CHECK
    CROSSED_SQUARE = "crossed square"  # OUT
    RING = "ring"  # not yet measured
    SQUARE = "square"
    CROSS = "cross"
    ARROW_UP = "arrow up"
    ARROW_DOWN = "arrow down"
    ARROW_LEFT = "arrow left"
    ARROW_RIGHT = "arrow right"


class Anchor(StrEnum):
    """The point of a text's box that sits at its position."""

    LEFT = "left"  # left end, on the baseline
    MIDDLE = "middle"  # middle of the width, on the baseline
    RIGHT = "right"  # right end, on the baseline


@dataclass(frozen=True, slots=True)
class Line:
    """A straight line between two points."""

    start: Point
    end: Point
    weight_mm: float = 0.25
    tone: Tone = Tone.INK
    dash: Dash = Dash.SOLID


@dataclass(frozen=True, slots=True)
class Polyline:
    """A run of straight lines, closed back to its first point with ``is_closed``."""

    points: tuple[Point, ...]
    weight_mm: float = 0.25
    tone: Tone = Tone.INK
    dash: Dash = Dash.SOLID
    is_closed: bool = False


@dataclass(frozen=True, slots=True)
class Polygon:
    """A filled area without an edge of its own; it must not cross itself."""

    points: tuple[Point, ...]
    fill: Tone = Tone.BAND


@dataclass(frozen=True, slots=True)
class Text:
    """A line of words; ``angle_deg`` turns it counter-clockwise about ``at``."""

    at: Point
    text: str
    cap_mm: float = 2.9
    anchor: Anchor = Anchor.LEFT
    is_bold: bool = False
    tone: Tone = Tone.INK
    angle_deg: float = 0.0
    has_halo: bool = False


@dataclass(frozen=True, slots=True)
class Mark:
    """A shape centred on a point; ``is_filled`` tells a done one from a planned one."""

    at: Point
    shape: Shape
    size_mm: float = 2.5
    tone: Tone = Tone.INK
    is_filled: bool = True


Primitive = Line | Polyline | Polygon | Text | Mark


@dataclass(frozen=True, slots=True)
class Drawing:
    """A whole drawing: its size and what is on it, the first drawn lowest."""

    width_mm: float
    height_mm: float
    items: tuple[Primitive, ...] = ()

    def __iter__(self) -> Iterator[Primitive]:
        return iter(self.items)

    def translate(self, right_mm: float, up_mm: float) -> tuple[Primitive, ...]:
        """Return the items shifted, to be put into a larger drawing."""
        return tuple(translate(item, right_mm, up_mm) for item in self.items)


def translate(item: Primitive, right_mm: float, up_mm: float) -> Primitive:
    """Return one primitive shifted to the right and up."""

    def shift(point: Point) -> Point:
        return point[0] + right_mm, point[1] + up_mm

    match item:
        case Line():
            return Line(shift(item.start), shift(item.end), item.weight_mm, item.tone, item.dash)
        case Polyline():
            points = tuple(map(shift, item.points))
            return Polyline(points, item.weight_mm, item.tone, item.dash, item.is_closed)
        case Polygon():
            return Polygon(tuple(map(shift, item.points)), item.fill)
        case Text():
            rest = (item.cap_mm, item.anchor, item.is_bold, item.tone)
            return Text(shift(item.at), item.text, *rest, item.angle_deg, item.has_halo)
        case Mark():
            return Mark(shift(item.at), item.shape, item.size_mm, item.tone, item.is_filled)


# Advance widths as multiples of the capital height. Taken on the generous side
# of the fonts in use, so that a layout that keeps labels apart by these keeps
# them apart on the tablet and on paper.
_NARROW = frozenset(" .,:;'|!ijlIft()[]-")
_WIDE = frozenset("MWmw@%")
_NARROW_CAPS, _WIDE_CAPS, _OTHER_CAPS = 0.55, 1.4, 0.92


def text_width_mm(text: str, cap_mm: float, is_bold: bool = False) -> float:
    """Return a width in mm that the text will not exceed when drawn."""
    caps = sum(
        _NARROW_CAPS if letter in _NARROW else _WIDE_CAPS if letter in _WIDE else _OTHER_CAPS
        for letter in text
    )
    return caps * cap_mm * (1.08 if is_bold else 1.0)
