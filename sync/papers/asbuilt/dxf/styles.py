"""Layers, line types and marks of the drawing, in trade words, distinct without colour."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from sync.papers.asbuilt.features.feature_types import LineStatus

if TYPE_CHECKING:
    from ezdxf.document import Drawing

SOLID, DASHED, LONG, DOTTED, DASH_DOT = "CONTINUOUS", "DASHED", "LONG-DASH", "DOTTED", "DASH-DOT"
SHORT, DASH_TWO_DOTS, LONG_DOT, SPARSE = (
    "SHORT-DASH",
    "DASH-TWO-DOTS",
    "LONG-DASH-DOT",
    "SPARSE-DOTS",
)
TEXT_MM, NAME_MM, TITLE_MM = 2.5, 2.0, 4.0
FONT_STYLE = "NAMES"
DATA_NAME = "CREWAPP"
"""Name under which a probe carries its figures."""

# Dashes and gaps in millimetres on the sheet; a dot is a dash of no length.
PATTERNS: dict[str, tuple[float, ...]] = {
    DASHED: (3.0, -1.5),
    LONG: (9.0, -1.5),
    DOTTED: (0.0, -1.2),
    DASH_DOT: (5.0, -1.2, 0.0, -1.2),
    SHORT: (1.5, -1.0),
    DASH_TWO_DOTS: (4.0, -1.2, 0.0, -1.2, 0.0, -1.2),
    LONG_DOT: (9.0, -1.5, 0.0, -1.5),
    SPARSE: (0.0, -2.5),
}


@dataclass(frozen=True, slots=True)
class DrawingLayer:
    """A layer: colour by number, line type, weight in hundredths of a millimetre."""

    name: str
    said: str
    colour: int
    pattern: str = SOLID
    weight: int = 25
    is_off: bool = False


# Drains are green, as the code for marking buried utilities has them: blue there is drinking
# water. Red and orange tell what is out, on marks and lines of their own pattern.
LINE_LAYERS: dict[LineStatus, DrawingLayer] = {
    LineStatus.PLANNED: DrawingLayer("LINE-PLANNED", "line planned, not cut", 8, DASHED, 25),
    LineStatus.CUT: DrawingLayer("LINE-CUT", "line cut", 7, SOLID, 35),
    LineStatus.PIPED: DrawingLayer("LINE-PIPED", "line cut and piped", 3, LONG, 50),
    LineStatus.ACCEPTED: DrawingLayer(
        "LINE-ACCEPTED", "line out of tolerance, accepted", 30, DASH_DOT, 70
    ),
    LineStatus.OUT: DrawingLayer("LINE-OUT", "line out of tolerance", 1, DOTTED, 100),
}
EDGE = DrawingLayer("SURFACE-EDGE", "edge of a surface", 7, SOLID, 50)
KEEP_OUT = DrawingLayer("KEEP-OUT", "keep-out", 30, SHORT, 50)
LINE_NAME = DrawingLayer("LINE-NAME", "names of lines, with their figures", 7)
UNPLACED = DrawingLayer("LINE-ON-NO-PLAN", "lines cut that no plan has, listed", 1)
PROBE = DrawingLayer("PROBE", "depth probe", 8)
PROBE_OUT = DrawingLayer("PROBE-OUT", "depth probe out of tolerance", 1)
PLANNED_PIPE = DrawingLayer("COLLECTOR-PLANNED", "collector as planned", 3, LONG_DOT, 35)
LAID_PIPE = DrawingLayer("COLLECTOR-INVERT", "collector invert as shot, in space", 3, SOLID, 70)
STATION = DrawingLayer("STATION", "station", 7)
INVERT = DrawingLayer("INVERT", "invert shot", 3)
INVERT_OUT = DrawingLayer("INVERT-OUT", "invert shot out of tolerance", 1)
JOINT = DrawingLayer("JOINT", "joint of a piped slit", 3)
RELEASED = DrawingLayer("RELEASED", "stretch released to be covered", 3, DASH_TWO_DOTS, 25)
UTILITY = DrawingLayer("UTILITY", "met in the ground, in the marking code's colour", 7, SOLID, 50)
POINT = DrawingLayer("PERMANENT-POINT", "permanent point", 7, SOLID, 50)
TIE = DrawingLayer("TIE", "measured tie", 8, SPARSE, 35)
STRUCK = DrawingLayer("STRUCK", "struck or overtaken: does not stand", 8, SOLID, 25, is_off=True)
NOTES = DrawingLayer("NOTES", "notes, legend, scale, north", 7)

LAYERS = (
    EDGE,
    KEEP_OUT,
    *LINE_LAYERS.values(),
    LINE_NAME,
    UNPLACED,
    PROBE,
    PROBE_OUT,
    PLANNED_PIPE,
    LAID_PIPE,
    STATION,
    INVERT,
    INVERT_OUT,
    JOINT,
    RELEASED,
    UTILITY,
    POINT,
    TIE,
    STRUCK,
    NOTES,
)

_AS_INSERTED = 0
"""Colour number of what takes the colour of the mark it is part of."""

Stroke = tuple[tuple[float, float], ...]

# Marks in millimetres on the sheet round (0, 0): strokes, and where the label begins.
MARKS: dict[str, tuple[Stroke, ...]] = {
    "LINE-TAG": (),
    "PROBE-OUT": (((-1, -1), (1, 1)), ((-1, 1), (1, -1)), ((-1, -1), (1, -1), (1, 1), (-1, 1))),
    "INVERT": (((-1, 0), (0, 1), (1, 0), (0, -1), (-1, 0)),),
    "INVERT-OUT": (((-1, 0), (0, 1), (1, 0), (0, -1), (-1, 0)), ((-1, 0), (1, 0))),
    "JOINT": (((-1, -1), (1, -1), (1, 1), (-1, 1), (-1, -1)),),
    "UTILITY": (((-1.5, -1), (1.5, -1), (0, 1.6), (-1.5, -1)), ((0, -0.5), (0, 0.7))),
    "PERMANENT-POINT": (((-2, 0), (2, 0)), ((0, -2), (0, 2)), ((-1, -1), (1, 1))),
    "STRUCK": (((-1, -1), (1, 1)), ((-1, 1), (1, -1))),
    "NORTH": (((0, 0), (0, 12)), ((-2, 7), (0, 12), (2, 7)), ((-2, 7), (2, 7))),
}


def add_styles(drawing: Drawing, per_mm: float) -> None:
    """Put line types, layers and the text style into a drawing."""
    for name, steps in PATTERNS.items():
        total = sum(abs(step) for step in steps)
        pattern = [total * per_mm, *(step * per_mm for step in steps)]
        drawing.linetypes.add(name, pattern, description=name.lower())
    drawing.styles.add(FONT_STYLE, font="arial.ttf")
    drawing.appids.add(DATA_NAME)
    for layer in LAYERS:
        made = drawing.layers.add(
            layer.name, color=layer.colour, linetype=layer.pattern, lineweight=layer.weight
        )
        made.description = layer.said
        if layer.is_off:
            made.off()


def add_mark(drawing: Drawing, name: str, tags: Sequence[str], per_mm: float, text: float) -> None:
    """Make a mark with a label that is seen and figures that are not.

    ``text`` is the height of the label in units of the drawing.
    """
    block = drawing.blocks.new(name)
    for stroke in MARKS[name]:
        points = [(x * per_mm, y * per_mm) for x, y in stroke]
        block.add_lwpolyline(points, dxfattribs={"color": _AS_INSERTED})
    aside = 1.8 * per_mm if MARKS[name] else 0.3 * text
    style = {"style": FONT_STYLE}
    block.add_attdef("LABEL", (aside, 0.3 * text), height=text, dxfattribs=style)
    for tag in tags:
        block.add_attdef(tag, (aside, 0), height=text, dxfattribs=style).is_invisible = True
