"""Bearings of lines where nobody says how they run."""

from __future__ import annotations

from typing import Any

import pytest

from models.entries.bodies.surfaces import Surface
from models.plan.layout import LayoutTerms
from models.queries.layout.line_bearings import fill_bearings, lying_bearing

M = 10**9
DEGREE = 1_000_000
SAND, PIPED = {"use": "sand_slit"}, {"use": "piped_slit"}


def field(*lines: tuple[str, int, int], wide: int = 40, high: int = 20) -> Surface:
    """A field in metres with lines of a use from its corner to a place."""
    corners = ((0, 0), (wide, 0), (wide, high), (0, high))
    return Surface.model_validate(
        {
            "surface_id": "F",
            "name": "F",
            "use": "field",
            "outline": [{"x_nm": x * M, "y_nm": y * M} for x, y in corners],
            "lines": [
                {"line_id": f"L{n}", "use": use, "x1_nm": 0, "y1_nm": 0}
                | {"x2_nm": x * M, "y2_nm": y * M, "length_nm": M}
                for n, (use, x, y) in enumerate(lines)
            ],
        }
    )


def laid(use: str, degrees: int) -> LayoutTerms:
    """Terms of a layout that stands."""
    return LayoutTerms.model_validate(
        {"use": use, "spacing_nm": M, "bearing_udeg": degrees * DEGREE}
    )


EAST = ("sand_slit", 9, 0)
NORTH_PIPE = ("piped_slit", 0, 9)
SLANTED_PIPE = ("piped_slit", 9, 9)
CASES: list[tuple[str, Surface, list[Any], list[LayoutTerms], list[tuple[int, str]]]] = [
    ("nothing is known", field(), [SAND, PIPED], [], [(90, "longest"), (0, "square")]),
    ("piped alone", field(), [PIPED], [], [(0, "across")]),
    ("a square", field(wide=20), [SAND, PIPED], [], [(0, "no longest"), (90, "square")]),
    (
        "sand lies",
        field(("sand_slit", 9, 9)),
        [SAND, PIPED],
        [],
        [(45, "as they lie"), (135, "square")],
    ),
    ("sand lies, piped alone", field(EAST), [PIPED], [], [(0, "square")]),
    ("piped lies, sand new", field(SLANTED_PIPE), [SAND], [], [(135, "square")]),
    ("both lie, piped alone", field(EAST, SLANTED_PIPE), [PIPED], [], [(45, "as they lie")]),
    (
        "both lie, both asked",
        field(EAST, SLANTED_PIPE),
        [SAND, PIPED],
        [],
        [(90, "as they lie"), (0, "square")],
    ),
    (
        "sand said",
        field(EAST, NORTH_PIPE),
        [{**SAND, "bearing_udeg": 30 * DEGREE}, PIPED],
        [],
        [(120, "square")],
    ),
    ("piped said", field(), [SAND, {**PIPED, "bearing_udeg": 30 * DEGREE}], [], [(120, "square")]),
    ("laid", field(EAST), [SAND], [laid("sand_slit", 270)], [(270, "laid before")]),
    (
        "piped laid, sand turned",
        field(),
        [{**SAND, "bearing_udeg": 0}, PIPED],
        [laid("piped_slit", 7)],
        [(7, "laid before")],
    ),
    ("all said", field(), [laid("sand_slit", 3), {**PIPED, "bearing_udeg": 9}], [], []),
    ("no outline", field(wide=0, high=0), [SAND], [], [(0, "no longest")]),
]


@pytest.mark.parametrize("case", CASES, ids=[one[0] for one in CASES])
def test_bearings_are_settled(case: Any) -> None:
    """Each way a bearing is left out has one answer and one reason."""
    _, surface, asked, standing, expected = case

    filled, settled = fill_bearings(surface, asked, standing)

    assert [(one.bearing_udeg // DEGREE, one.reason) for one in settled] == expected
    found = {one.use: one.bearing_udeg for one in settled}
    for before, after in zip(asked, filled, strict=True):
        if isinstance(before, dict) and "bearing_udeg" not in before:
            assert after == {**before, "bearing_udeg": found[before["use"]]}
        else:
            assert after is before


def test_the_longest_line_tells_how_lines_lie() -> None:
    """A short piece that runs aside does not count; a line without length never does."""
    surface = field(("sand_slit", 1, 0), ("sand_slit", 0, 9), ("piped_slit", 0, 0))

    assert lying_bearing(surface, "sand_slit") == 0
    assert lying_bearing(surface, "piped_slit") is None
