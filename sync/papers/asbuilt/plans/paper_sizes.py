"""Sheets of paper and the scales of the trade that plans are drawn to."""

from __future__ import annotations

import re
from dataclasses import dataclass
from enum import StrEnum

from models.errors import CrewError

MARGIN_MM = 11.0
FOOT_MM = 7.6
LEAST_DENOMINATOR, MOST_DENOMINATOR = 10, 100_000
_IN_PER_FT = 12
_FT_PER_IN = (2, 4, 5, 10, 20, 30, 40, 50, 60, 100, 200, 300, 400, 500, 1000)
_BY_EIGHTHS = {96: "1/8 in = 1 ft", 128: "3/32 in = 1 ft", 192: "1/16 in = 1 ft"}
"""Scales of the other rule that an office has, between those of whole feet to the inch."""
_METRIC = (20, 50, 100, 200, 250, 500, 1000, 1250, 2500, 5000, 10_000)
_RATIO = re.compile(r"1\s*:\s*(\d{1,6})")
_FEET = re.compile(r"(?:1\s*in(?:ch)?\s*=\s*)?(\d{1,5})\s*(?:ft|feet|')?")


class ScaleUnreadableError(CrewError, ValueError):
    """A text was given as a scale that is none."""

    code = "asbuilt.scale"
    sentence = (
        "Cannot draw to the scale {text!r}: {why}. "
        "A scale such as 1:250, or 1 in = 20 ft, would be accepted."
    )


class PaperSize(StrEnum):
    """Sheets that printers hold."""

    LETTER = "letter"
    TABLOID = "tabloid"
    A4 = "a4"
    A3 = "a3"


_LYING_MM = {
    PaperSize.LETTER: (279.4, 215.9),
    PaperSize.TABLOID: (431.8, 279.4),
    PaperSize.A4: (297.0, 210.0),
    PaperSize.A3: (420.0, 297.0),
}
_NAMES = {
    PaperSize.LETTER: "letter, 11 x 8-1/2 in",
    PaperSize.TABLOID: "tabloid, 17 x 11 in",
    PaperSize.A4: "A4, 297 x 210 mm",
    PaperSize.A3: "A3, 420 x 297 mm",
}


@dataclass(frozen=True, slots=True)
class PaperSheet:
    """A lying sheet of paper, in mm."""

    size: PaperSize

    @property
    def width(self) -> float:
        """Width of the paper."""
        return _LYING_MM[self.size][0]

    @property
    def height(self) -> float:
        """Height of the paper."""
        return _LYING_MM[self.size][1]

    @property
    def name(self) -> str:
        """Name of the paper with its size."""
        return _NAMES[self.size]

    @property
    def inside(self) -> float:
        """Width between the margins."""
        return self.width - 2 * MARGIN_MM

    @property
    def bottom(self) -> float:
        """Where the foot begins, from the top."""
        return self.height - MARGIN_MM - FOOT_MM

    @property
    def tall(self) -> float:
        """Height between the upper margin and the foot."""
        return self.bottom - MARGIN_MM

    @property
    def columns(self) -> int:
        """Columns that tables are set in."""
        return 3 if self.width > 400 else 2


@dataclass(frozen=True, slots=True)
class Scale:
    """A scale of one to ``denominator``; ``is_us`` names it in inches and feet."""

    denominator: int
    is_us: bool

    @property
    def mm_per_nm(self) -> float:
        """Millimetres of paper for a nanometre of ground."""
        return 1e-6 / self.denominator

    @property
    def words(self) -> str:
        """Scale as a plan states it: ``1 in = 20 ft (1:240)`` or ``1:250``."""
        if self.is_us and self.denominator in _BY_EIGHTHS:
            return f"{_BY_EIGHTHS[self.denominator]} (1:{self.denominator})"
        feet, rest = divmod(self.denominator, _IN_PER_FT)
        if self.is_us and not rest:
            return f"1 in = {feet} ft (1:{self.denominator})"
        return f"1:{self.denominator}"


def trade_scales(is_us: bool) -> tuple[Scale, ...]:
    """Scales that plans are drawn to, the largest drawing first."""
    if is_us:
        found = sorted([*(feet * _IN_PER_FT for feet in _FT_PER_IN), *_BY_EIGHTHS])
        return tuple(Scale(one, True) for one in found)
    return tuple(Scale(one, False) for one in _METRIC)


def read_scale(text: str, is_us: bool) -> Scale:
    """Read a scale as typed: ``1:250``, ``1 in = 20 ft``, or the bare number of either.

    Raises
    ------
    ScaleUnreadableError
        If it is no scale, or none that a plan could be drawn to.
    """
    plain = " ".join(text.split()).lower()
    ratio, feet = _RATIO.fullmatch(plain), _FEET.fullmatch(plain)
    if ratio is None and feet is None:
        raise ScaleUnreadableError(text=text[:40], why="it is not written as one")
    if ratio is not None:
        denominator = int(ratio[1])
    else:
        assert feet is not None
        by_feet = is_us or not plain.isdigit()
        denominator = int(feet[1]) * (_IN_PER_FT if by_feet else 1)
    if not LEAST_DENOMINATOR <= denominator <= MOST_DENOMINATOR:
        why = f"1:{denominator} is outside 1:{LEAST_DENOMINATOR} to 1:{MOST_DENOMINATOR}"
        raise ScaleUnreadableError(text=text[:40], why=why)
    return Scale(denominator, is_us or ratio is None and not plain.isdigit())


def default_paper(is_us: bool) -> PaperSize:
    """Paper that every office of the job's country has."""
    return PaperSize.LETTER if is_us else PaperSize.A4
