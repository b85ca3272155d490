"""Passes, turns, and bearings side by side."""

from __future__ import annotations

from math import pi

import pytest

from models.errors import CalculationInputError, InterleaveError
from models.science.layout.bearings import compare_bearings
from models.science.layout.cuttable_ground import Ground, KeepOut
from models.science.layout.driving import Drive, plan_drive, turn_length_nm
from models.science.layout.interleave import Machine
from models.science.layout.layout import lay_lines
from models.science.layout.layout_types import LinePattern
from models.science.shapes.offsets import rectangle
from tests.models.science.plots import FT, IN, M, box, outline, point

FIELD = Ground((rectangle(60 * FT, 100 * FT),))
TWO_LEGS = Machine(2, 48 * IN)


def drive(ground: Ground = FIELD, machine: Machine = TWO_LEGS) -> Drive:
    """Lines at 16 in, driven."""
    return plan_drive(lay_lines(ground, LinePattern(16 * IN)), machine)


def test_blocks_of_the_interleave_follow_each_other() -> None:
    """45 lines by two legs at three spacings: 7 full blocks, and three passes of one leg."""
    passes = drive().passes

    assert [(p.block, p.shift) for p in passes[:4]] == [(1, 1), (1, 2), (1, 3), (2, 1)]
    assert [[leg.number for leg in p.legs] for p in passes[:4]] == [[1, 4], [2, 5], [3, 6], [7, 10]]
    assert [[leg.number for leg in p.legs] for p in passes[-3:]] == [[43], [44], [45]]
    assert len(passes) == 24


def test_directions_alternate_from_end_to_end() -> None:
    """The first pass runs with the bearing, the second comes back beside it."""
    first, second = drive().passes[:2]

    assert (first.start.y_nm, first.end.y_nm) == (0, 100 * FT)
    assert (second.start.y_nm, second.end.y_nm) == (100 * FT, 0)
    assert second.start.x_nm - first.end.x_nm == 16 * IN


def test_legs_know_their_lengths_and_lifts() -> None:
    """Over a keep-out a leg comes up once and cuts what is left of its line."""
    keep_out = KeepOut(outline(box(2.2, 10, 0.5, 3)))
    field = Ground((outline(box(0, 0, 4, 30)),), (keep_out,))
    layout = lay_lines(field, LinePattern(M))
    pair = plan_drive(layout, Machine(2, 2 * M)).passes[0]
    other = plan_drive(layout, Machine(1)).passes[2]

    assert [(leg.leg, leg.number, leg.length_nm // M) for leg in pair.legs] == [
        (1, 1, 30),
        (2, 3, 27),
    ]
    assert pair.lifts == 1
    assert (other.legs[0].line_ids, other.driven_nm, other.cut_nm) == (
        ("S03a", "S03b"),
        30 * M,
        27 * M,
    )


def test_pieces_are_listed_as_they_are_driven() -> None:
    """Against the bearing the piece farther along it comes first."""
    keep_out = KeepOut(outline(box(1.2, 10, 0.5, 3)))
    field = Ground((outline(box(0, 0, 4, 30)),), (keep_out,))
    passes = plan_drive(lay_lines(field, LinePattern(M)), Machine()).passes

    assert passes[1].legs[0].line_ids == ("S02b", "S02a")


def test_turns_go_out_to_the_farther_end() -> None:
    """On a slanted headland a turn drives the difference of the two ends as well."""
    wedge = Ground((outline([(0, 0), (4, 0), (4, 14), (0, 10)]),))
    turns = plan_drive(lay_lines(wedge, LinePattern(M)), Machine()).turns

    assert [(t.after, t.shift_nm, t.along_nm, t.length_nm) for t in turns] == [
        (1, M, M, 2 * M),
        (2, M, 0, M),
        (3, M, M, 2 * M),
    ]


def test_a_pass_without_a_line_is_left_out() -> None:
    """Between two fields nothing is driven but the way across."""
    parts = (outline(box(0, 0, 2, 10)), outline(box(10, 0, 2, 10)))
    found = plan_drive(lay_lines(Ground(parts), LinePattern(M)), Machine())

    assert [[leg.number for leg in one.legs] for one in found.passes] == [[1], [2], [11], [12]]
    assert found.turns[1].shift_nm == 9 * M


@pytest.mark.parametrize(
    ("shift", "radius", "metres"),
    [
        (0, 0, 0),
        (5 * M, 0, 5),
        (2 * M, M, pi),
        (6 * M, M, pi + 4),
        (0, M, 7 * pi / 3),
        (M, M, pi + 4 * 0.722_734_247_813_4),  # arccos 3/4 by hand from a table
    ],
)
def test_turns_are_as_long_as_their_arcs(shift: int, radius: int, metres: float) -> None:
    """Worked by hand from arcs and straights."""
    assert turn_length_nm(shift, radius) == pytest.approx(metres * M, abs=2)


@pytest.mark.parametrize(("shift", "radius"), [(-1, 0), (0, -1)])
def test_a_turn_can_not_be_less_than_nothing(shift: int, radius: int) -> None:
    """Shift and radius are zero or more."""
    with pytest.raises(CalculationInputError):
        turn_length_nm(shift, radius)


def test_legs_that_do_not_fit_are_refused() -> None:
    """The drive says what the interleave says."""
    with pytest.raises(InterleaveError):
        drive(machine=Machine(2, 50 * IN))


def test_bearings_are_compared_in_one_table() -> None:
    """A long field costs fewer turns the long way; the table has a row for each bearing asked."""
    field = Ground((outline(box(0, 0, 20, 100)),))
    rows = compare_bearings(
        field, LinePattern(M, least_nm=M), Machine(), [0, 45_000_000, 90_000_000]
    )

    assert [row.bearing_udeg for row in rows] == [0, 45_000_000, 90_000_000]
    assert [(row.passes, row.turns, row.headland_nm) for row in (rows[0], rows[2])] == [
        (20, 19, 19 * M),
        (100, 99, 99 * M),
    ]
    assert rows[0].length_nm == rows[2].length_nm == 2_000 * M
    assert rows[1].stubs == 2
    assert rows[1].headland_nm > rows[1].turns * M


def test_the_middle_of_the_machine_is_what_is_driven() -> None:
    """Legs at 0.5 and 2.5 m: the machine drives at 1.5 m."""
    field = Ground((outline(box(0, 0, 4, 10)),))
    first = plan_drive(lay_lines(field, LinePattern(M)), Machine(2, 2 * M)).passes[0]

    assert (first.start, first.end) == (point(1.5, 0), point(1.5, 10))
