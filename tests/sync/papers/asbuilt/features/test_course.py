"""Places along a course that bends, and stretches cut out of it."""

from __future__ import annotations

from fractions import Fraction

import pytest

from sync.papers.asbuilt.features.course import BEYOND_NM, Place, laid_course, place_along, stretch

M = 10**9
BENT = (Place(0, 0), Place(3 * M, 4 * M), Place(3 * M, 14 * M))
"""Five metres aslant (3, 4, 5), then ten metres north."""


@pytest.mark.parametrize(
    ("along", "place"),
    [
        (0, Place(0, 0)),
        (5 * M // 2, Place(3 * M // 2, 2 * M)),
        (5 * M, Place(3 * M, 4 * M)),
        (9 * M, Place(3 * M, 8 * M)),
        (15 * M, Place(3 * M, 14 * M)),
        (15 * M + BEYOND_NM, Place(3 * M, 15 * M)),
        (15 * M + BEYOND_NM + 1, None),
        (-BEYOND_NM, Place(-6 * M // 10, -8 * M // 10)),
        (-BEYOND_NM - 1, None),
    ],
)
def test_place_along_a_bent_course(along: int, place: Place | None) -> None:
    """A distance is measured round the bend; a little beyond an end goes straight on."""
    assert place_along(BENT, along) == place


@pytest.mark.parametrize("course", [(), (Place(1, 1),), (Place(1, 1), Place(1, 1))])
def test_no_course_has_no_places(course: tuple[Place, ...]) -> None:
    """A course without length leads nowhere, and says so instead of dividing by nothing."""
    assert place_along(course, 0) is None
    assert stretch(course, 0, M) == ()


def test_stretch_keeps_the_bend_between_its_ends() -> None:
    """A stretch over the bend has it; one that ends on the bend has it once."""
    bend = Place(3 * M, 4 * M)

    assert stretch(BENT, 0, 6 * M) == (Place(0, 0), bend, Place(3 * M, 5 * M))
    assert stretch(BENT, 5 * M, 6 * M) == (bend, Place(3 * M, 5 * M))
    assert stretch(BENT, 6 * M, 6 * M) == ()


def test_bend_of_a_laid_pipe_lies_straight_between_its_shots() -> None:
    """Stations count from 100; the bend, halfway between two shots, is halfway in level."""
    shots = [(100 * M, Fraction(0)), (110 * M, Fraction(1000)), (200 * M, Fraction(5000))]

    assert laid_course(BENT, 100 * M, shots) == (
        Place(0, 0, 0),
        Place(3 * M, 4 * M, 500),
        Place(3 * M, 9 * M, 1000),
    )
    assert laid_course(BENT, 100 * M, shots[::2]) == ()
