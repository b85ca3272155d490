"""Parts of a layout: its pattern, the pieces of its lines, and its stubs."""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple

from models.science.shapes.rings import PointNm
from models.science.shapes.rotated_frame import Frame


@dataclass(frozen=True, slots=True)
class LinePattern:
    """Pattern of lines: spacing, bearing, least length, place of the first.

    Attributes
    ----------
    spacing_nm : int
        From one line to the next. [nm]
    bearing_udeg : int
        Where they run, clockwise from north; line 1 is the one farthest to the left. [1e-6 degree]
    least_nm : int
        Pieces shorter than this are stubs: dropped and listed. [nm]
    first_nm : int or None
        From the leftmost reach of the ground to line 1; None serves both edges alike. [nm]
    prefix : str
        What names begin with, such as S or P. [-]
    """

    spacing_nm: int
    bearing_udeg: int = 0
    least_nm: int = 0
    first_nm: int | None = None
    prefix: str = "S"


class LaidSegment(NamedTuple):
    """An unbroken piece of a line; it begins where the bearing enters the ground.

    Attributes
    ----------
    line_id : str
        Number with a letter where a line has several pieces, such as S07 or S07b. [-]
    number : int
        Which line, from 1 at the left. [-]
    start, end : PointNm
        Its ends. [nm]
    length_nm : int
        Between its ends. [nm]
    from_nm, to_nm : int
        Its ends along the frame of the layout. [nm]
    """

    line_id: str
    number: int
    start: PointNm
    end: PointNm
    length_nm: int
    from_nm: int
    to_nm: int


class Stub(NamedTuple):
    """A piece too short to cut.

    Attributes
    ----------
    number : int
        Which line it would have been part of. [-]
    start, end : PointNm
        Its ends. [nm]
    length_nm : int
        Between its ends. [nm]
    """

    number: int
    start: PointNm
    end: PointNm
    length_nm: int


@dataclass(frozen=True, slots=True)
class Layout:
    """Lines as they would be cut.

    Attributes
    ----------
    pattern : LinePattern
        What was asked for. [nm]
    frame : Frame
        Across and along the lines. [nm]
    line_count : int
        Lines across the ground, those without a piece included. [-]
    width_nm : int
        Width of the ground across the lines. [nm]
    left_nm : int
        Leftmost reach of the ground in the frame. [nm]
    first_nm : int
        From there to line 1. [nm]
    segments : tuple of LaidSegment
        By line number, then along the bearing. [nm]
    stubs : tuple of Stub
        What was dropped, in the same order. [nm]
    """

    pattern: LinePattern
    frame: Frame
    line_count: int
    width_nm: int
    left_nm: int
    first_nm: int
    segments: tuple[LaidSegment, ...]
    stubs: tuple[Stub, ...]

    @property
    def length_nm(self) -> int:
        """Length of all pieces, in nm."""
        return sum(segment.length_nm for segment in self.segments)

    @property
    def stub_length_nm(self) -> int:
        """Length of all that was dropped, in nm."""
        return sum(stub.length_nm for stub in self.stubs)

    @property
    def last_margin_nm(self) -> int:
        """From the last line to the rightmost reach of the ground, in nm."""
        return self.width_nm - self.first_nm - (self.line_count - 1) * self.pattern.spacing_nm

    def across_nm(self, number: int) -> int:
        """Where a line stands across the frame, in nm."""
        return self.left_nm + self.first_nm + (number - 1) * self.pattern.spacing_nm
