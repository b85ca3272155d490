"""The plainest surface: a rectangle with its slits parallel to one side."""

from __future__ import annotations

from typing import Any

from models.figures import Figures
from models.plan.line import LineUse


def rectangle_lines(
    told: dict[str, str], surface: dict[str, Any], figures: Figures
) -> dict[str, Any]:
    """Outline and lines of a rectangle, first line half a spacing in.

    ``told`` gives ``along`` (length of a sand slit, the way the machine
    drives) and ``across``; piped slits run square to the sand slits. Spacings
    are those of the surface's patterns.
    """
    along_nm = figures.read_length(told["along"])
    across_nm = figures.read_length(told["across"])
    corners = [(0, 0), (along_nm, 0), (along_nm, across_nm), (0, across_nm)]
    lines: list[dict[str, Any]] = []
    for use, letter, reach_nm, length_nm in (
        ("sand_slit", "S", across_nm, along_nm),
        ("piped_slit", "P", along_nm, across_nm),
    ):
        pattern = surface.get(f"{use}s")
        if isinstance(pattern, dict) and "spacing" in pattern:
            spacing_nm = figures.read_depth(pattern["spacing"])
            lines += parallel_lines(use, letter, spacing_nm, reach_nm, length_nm)  # type: ignore[arg-type]
    return {
        "outline": tuple({"x_nm": x, "y_nm": y} for x, y in corners),
        "lines": tuple(lines),
    }


def parallel_lines(
    use: LineUse, letter: str, spacing_nm: int, reach_nm: int, length_nm: int
) -> list[dict[str, Any]]:
    """Lines at one spacing over a reach, each of one length, the first half a spacing in.

    Sand slits run east, piped slits north.
    """
    if spacing_nm <= 0:
        raise ValueError("a spacing must be more than nothing")
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
