"""The plainest surface: a rectangle with its slits parallel to one side."""

from __future__ import annotations

from typing import Any

from models.plan.line import LineUse
from models.units.job_units import Figures

MOST_LINES = 5_000
_SIDES = ("along", "across")
_CORNER = ("east", "north")
_FORMS = 'an object such as {"along": "120 ft", "across": "64 ft"}, with "east" and "north" if far'


class RectangleError(ValueError):
    """A rectangle can't be laid out; ``forms`` says what could be."""

    def __init__(self, why: str, forms: str = _FORMS) -> None:
        super().__init__(why)
        self.forms = forms


def rectangle_lines(told: Any, surface: dict[str, Any], figures: Figures) -> dict[str, Any]:
    """Outline and lines of a rectangle, first line half a spacing in.

    ``told`` gives ``along`` (length of a sand slit, the way the machine
    drives) and ``across``, and may give the ``east`` and ``north`` of its
    corner; piped slits run square to the sand slits. Spacings are those of
    the surface's patterns, as stored.

    Raises
    ------
    UnreadableError
        If a length can't be read.
    RectangleError
        If it is no rectangle, or has too many lines.
    """
    along_nm, across_nm, east_nm, north_nm = _measures(told, figures)
    lines: list[dict[str, Any]] = []
    for use, letter, reach_nm, length_nm in _ways(along_nm, across_nm):
        pattern = surface.get(f"{use}s")
        spacing_nm = pattern.get("spacing_nm") if isinstance(pattern, dict) else None
        if isinstance(spacing_nm, int):
            lines += parallel_lines(use, letter, spacing_nm, reach_nm, length_nm)
    corners = [(0, 0), (along_nm, 0), (along_nm, across_nm), (0, across_nm)]
    return {
        "outline": tuple({"x_nm": x + east_nm, "y_nm": y + north_nm} for x, y in corners),
        "lines": tuple(_moved(line, east_nm, north_nm) for line in lines),
    }


def parallel_lines(
    use: LineUse, letter: str, spacing_nm: int, reach_nm: int, length_nm: int
) -> list[dict[str, Any]]:
    """Lines at one spacing over a reach, each of one length, the first half a spacing in.

    Sand slits run east, piped slits north.

    Raises
    ------
    RectangleError
        If the spacing is nothing, or so small that the lines can't be counted.
    """
    if spacing_nm <= 0:
        raise RectangleError("has lines without a spacing", "a spacing of more than nothing")
    if reach_nm // spacing_nm >= MOST_LINES:
        raise RectangleError("has too many lines", f"fewer than {MOST_LINES:,} of one use")
    lines = []
    for number, at_nm in enumerate(range(spacing_nm // 2, reach_nm, spacing_nm), start=1):
        if use == "sand_slit":
            ends = {"x1_nm": 0, "y1_nm": at_nm, "x2_nm": length_nm, "y2_nm": at_nm}
        else:
            ends = {"x1_nm": at_nm, "y1_nm": 0, "x2_nm": at_nm, "y2_nm": length_nm}
        lines.append(
            {"line_id": f"{letter}{number:02d}", "use": use, **ends, "length_nm": length_nm}
        )
    return lines


def _measures(told: Any, figures: Figures) -> tuple[int, ...]:
    if not isinstance(told, dict):
        raise RectangleError("is not an object")
    for name in _SIDES:
        if name not in told:
            raise RectangleError(f"has no {name}")
    for name, value in told.items():
        if name not in _SIDES + _CORNER:
            raise RectangleError(f"has a field {name}, which is no side of it")
        if not isinstance(value, str) or not any(letter.isalpha() for letter in value):
            raise RectangleError(f"gives {name} without a unit")
    sides = [figures.read_length(told[name]) for name in _SIDES]
    if 0 in sides:
        raise RectangleError("has a side of no length")
    corner = [figures.read_level(told[name]) if name in told else 0 for name in _CORNER]
    return (*sides, *corner)


def _ways(along_nm: int, across_nm: int) -> tuple[tuple[LineUse, str, int, int], ...]:
    return (
        ("sand_slit", "S", across_nm, along_nm),
        ("piped_slit", "P", along_nm, across_nm),
    )


def _moved(line: dict[str, Any], east_nm: int, north_nm: int) -> dict[str, Any]:
    ends = {name: line[name] + east_nm for name in ("x1_nm", "x2_nm")}
    ends |= {name: line[name] + north_nm for name in ("y1_nm", "y2_nm")}
    return {**line, **ends}
