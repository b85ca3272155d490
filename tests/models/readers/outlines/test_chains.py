"""Loose pieces joined end to end, whichever way round they were drawn."""

from __future__ import annotations

from random import Random

import pytest

from models.readers.outlines.chains import Chain, join_pieces
from models.readers.outlines.problems import FileProblem
from tests.models.science.plots import M, chance_corners, point

SQUARE = [point(0, 0), point(9, 0), point(9, 9), point(0, 9)]
SIDES = [(a, b) for a, b in zip(SQUARE, [*SQUARE[1:], SQUARE[0]], strict=True)]


def test_sides_in_order_make_the_square() -> None:
    """Closed, from the first point of the first piece."""
    assert join_pieces(SIDES, 1, []) == (Chain(tuple(SQUARE), True),)


@pytest.mark.parametrize("seed", range(20))
def test_any_order_and_direction_makes_the_same_ring(seed: int) -> None:
    """Shuffled and turned sides make one closed chain of the same corners."""
    dice = Random(seed)
    corners = [point(*corner) for corner in chance_corners(seed)]
    sides = [(a, b) for a, b in zip(corners, [*corners[1:], corners[0]], strict=True)]
    dice.shuffle(sides)
    pieces = [side[:: dice.choice((1, -1))] for side in sides]

    chains = join_pieces(pieces, M // 1000, [])

    assert len(chains) == 1
    assert chains[0].is_closed
    assert sorted(chains[0].points) == sorted(corners)


def test_a_gap_leaves_it_open_at_its_ends() -> None:
    """A missing side: the walk begins at one loose end and stops at the other."""
    (chain,) = join_pieces([SIDES[2], SIDES[0], SIDES[1]], 1, [])

    assert not chain.is_closed
    assert {chain.points[0], chain.points[-1]} == {SQUARE[0], SQUARE[3]}
    assert len(chain.points) == 4


def test_ends_within_reach_are_one() -> None:
    """Half a millimetre off is joined at a reach of one, left open at a tenth."""
    sides = [*SIDES[:3], (point(0.0005, 9), point(0, 0))]

    assert join_pieces(sides, M // 1000, [])[0].is_closed
    assert not join_pieces(sides, M // 10_000, [])[0].is_closed


@pytest.mark.parametrize("shift", [-0.0006, -0.0003, 0, 0.0002, 0.0009])
def test_reach_does_not_hang_on_where_the_origin_is(shift: float) -> None:
    """Ends 0.6 mm apart are joined at a reach of 1 mm wherever they lie."""
    pieces = [
        (point(5, 0), point(shift, shift)),
        (point(shift + 0.0006, shift), point(0, 5)),
    ]

    assert len(join_pieces(pieces, M // 1000, [])) == 1


def test_a_branch_is_a_fault_with_its_place() -> None:
    """Where three ends meet, which way the outline goes can not be told."""
    problems: list[FileProblem] = []

    assert join_pieces([*SIDES, (SQUARE[0], point(-5, -5))], 1, problems) == ()
    assert "3 ends of lines meet" in problems[0].sentence
    assert problems[0].place.startswith("east 0.000 m, north 0.000 m")


def test_several_outlines_are_told_apart() -> None:
    """Two squares and a lone line: two closed chains and an open one, in order."""
    there = [tuple(point(p.x_nm / M + 50, p.y_nm / M) for p in side) for side in SIDES]
    chains = join_pieces([*there, *SIDES, (point(20, 0), point(30, 0))], 1, [])

    assert sorted(chain.is_closed for chain in chains) == [False, True, True]
