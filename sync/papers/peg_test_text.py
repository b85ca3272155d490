"""A peg test worked out, as lines of text and as plain facts."""

from __future__ import annotations

from models.readers.level_notes import PegPage
from models.units import LengthUnit, StationStyle, UnitSystem
from models.units.job_units import Figures


def build_peg_text(page: PegPage) -> str:
    """Print a peg test: its readings, the error of the line of sight, and whether it may stand."""
    figures = _figures(page)
    unit = "ft" if figures.is_us else "m"
    seen, right = page.readings, page.right_nm
    way = "rises" if page.error > 0 else "falls"
    runs = f"{way} {figures.sight_error(page.error)}" if page.error else "is level"
    lines = [
        f"Peg test in {'feet' if figures.is_us else 'metres'}",
        "",
        f"midway       A {figures.level(seen.mid_a_nm)}   B {figures.level(seen.mid_b_nm)}",
        f"second setup A {figures.level(seen.end_a_nm)}   B {figures.level(seen.end_b_nm)}",
        f"distance     A {figures.length(seen.to_a_nm)}   B {figures.length(seen.to_b_nm)}",
        f"level line   A {figures.level(round(right[0]))}   B {figures.level(round(right[1]))} "
        f"{unit} would be read from the second setup",
        "",
        f"The line of sight {runs}; {figures.sight_error(page.limit)} is allowed: "
        + ("it may stand." if page.is_good else "OUT. Have it adjusted, then test it again."),
    ]
    return "\n".join(lines) + "\n"


def build_peg_facts(page: PegPage) -> dict[str, object]:
    """Give the same facts as plain values: lengths in whole nm, errors in millionths."""
    seen, right = page.readings, page.right_nm
    return {
        "unit": str(page.unit),
        "sign": "a rising line of sight is positive",
        "readings": {
            "mid_a_nm": seen.mid_a_nm,
            "mid_b_nm": seen.mid_b_nm,
            "end_a_nm": seen.end_a_nm,
            "end_b_nm": seen.end_b_nm,
            "to_a_nm": seen.to_a_nm,
            "to_b_nm": seen.to_b_nm,
        },
        "error_millionths": round(float(page.error * 1_000_000), 3),
        "limit_millionths": round(float(page.limit * 1_000_000), 3),
        "level_a_nm": round(right[0]),
        "level_b_nm": round(right[1]),
        "sound": page.is_good,
    }


def _figures(page: PegPage) -> Figures:
    is_us = page.unit in {LengthUnit.FT, LengthUnit.IN}
    return Figures(UnitSystem.US if is_us else UnitSystem.METRIC, StationStyle.US_100FT)
