"""Pen of a DXF drawing: nanometres of the plane in, units of the drawing out."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from math import atan2, degrees
from typing import TYPE_CHECKING

from models.units import NM_PER, LengthUnit
from sync.papers.asbuilt.dxf.scale import PlotScale
from sync.papers.asbuilt.dxf.styles import DATA_NAME, FONT_STYLE, TEXT_MM, DrawingLayer
from sync.papers.asbuilt.dxf.text import escape_text, plain_text
from sync.papers.asbuilt.features.course import Course, Place
from sync.papers.asbuilt.features.feature_types import AsBuilt

if TYPE_CHECKING:
    from ezdxf.document import Drawing

_LONGEST_DATA = 250
"""Characters that one string of attached data may hold."""


BY_LAYER = 256
"""Colour number of what has the colour of its layer."""


class DxfPen:
    """Draws one job into one drawing."""

    def __init__(self, drawing: Drawing, job: AsBuilt, scale: PlotScale) -> None:
        self.drawing, self.job, self.scale = drawing, job, scale
        self.paper = drawing.modelspace()
        self.per = NM_PER[LengthUnit.FT if job.is_us else LengthUnit.M]

    def mm(self, on_sheet: float) -> float:
        """Millimetres on the sheet in units of the drawing."""
        return on_sheet * self.scale.per_mm

    def flat(self, place: Place) -> tuple[float, float]:
        """Place in units of the drawing."""
        return place.x_nm / self.per, place.y_nm / self.per

    def draw_course(self, layer: DrawingLayer, course: Course, *, is_closed: bool = False) -> None:
        """Draw a course on the plan."""
        points = [self.flat(place) for place in course]
        if len(points) > 1:
            self.paper.add_lwpolyline(
                points, close=is_closed, dxfattribs={"layer": layer.name}
            ).dxf.flags |= 128  # patterns run on round corners

    def draw_course_3d(self, layer: DrawingLayer, course: Course) -> None:
        """Draw a course with its levels."""
        points = [(*self.flat(place), (place.level_nm or 0) / self.per) for place in course]
        if len(points) > 1:
            self.paper.add_polyline3d(points, dxfattribs={"layer": layer.name})

    def draw_line(self, layer: DrawingLayer, start: Place, end: Place) -> None:
        """Draw a straight line between two places."""
        self.paper.add_line(self.flat(start), self.flat(end), dxfattribs={"layer": layer.name})

    def draw_point(self, layer: DrawingLayer, at: Place, data: Sequence[str]) -> None:
        """Draw a point that carries data."""
        point = self.paper.add_point(self.flat(at), dxfattribs={"layer": layer.name})
        point.set_xdata(DATA_NAME, [(1000, escape_text(text[:_LONGEST_DATA])) for text in data])

    def mark(
        self,
        layer: DrawingLayer,
        mark: str,
        at: tuple[float, float, float],
        figures: Mapping[str, str],
        turn: float = 0.0,
        colour: int = BY_LAYER,
    ) -> None:
        """Put a mark with its label, which is drawn, and its figures, which are kept."""
        style = {"layer": layer.name, "rotation": turn, "color": colour}
        made = self.paper.add_blockref(mark, at, dxfattribs=style)
        made.add_auto_attribs(
            {
                tag: plain_text(text) if tag == "LABEL" else escape_text(text)
                for tag, text in figures.items()
            }
        )
        for attrib in made.attribs:
            attrib.dxf.layer = layer.name

    def text(
        self,
        layer: DrawingLayer,
        words: str,
        at: tuple[float, float],
        height_mm: float = TEXT_MM,
        turn: float = 0.0,
        *,
        ends_there: bool = False,
    ) -> None:
        """Write a line of text that starts at a point, or ends beside it."""
        from ezdxf.enums import TextEntityAlignment

        facts = {"layer": layer.name, "style": FONT_STYLE, "rotation": turn, "insert": at}
        text = self.paper.add_text(plain_text(words), height=self.mm(height_mm), dxfattribs=facts)
        if ends_there:
            text.set_placement(at, align=TextEntityAlignment.MIDDLE_RIGHT)


def readable_turn(start: tuple[float, float], end: tuple[float, float]) -> float:
    """Turn of a line's name in degrees, so that nobody reads it upside down."""
    turn = degrees(atan2(end[1] - start[1], end[0] - start[0]))
    return turn if -90 < turn <= 90 else turn + (180 if turn <= -90 else -180)
