"""Lines over surfaces with arms, holes and islands; names, stubs, margins."""

from __future__ import annotations

import pytest

from models.errors import CalculationInputError
from models.science.layout.cuttable_ground import Ground, KeepOut, open_shape
from models.science.layout.layout import lay_lines, piece_letters
from models.science.layout.layout_types import Layout, LinePattern
from models.science.shapes.offsets import circle, rectangle
from models.science.shapes.rings import show_both
from tests.models.science.plots import IN, U_SHAPE, M, box, outline, point


def lay(ground: Ground, spacing_m: float = 1, bearing: float = 0, least_m: float = 0) -> Layout:
    """A layout from metres and degrees."""
    pattern = LinePattern(round(spacing_m * M), round(bearing * 1e6), round(least_m * M))
    return lay_lines(ground, pattern)


def names(layout: Layout) -> list[str]:
    """Names of the pieces in order."""
    return [segment.line_id for segment in layout.segments]


def lengths(layout: Layout) -> list[float]:
    """Lengths of the pieces in metres."""
    return [segment.length_nm / M for segment in layout.segments]


def test_a_concavity_makes_two_pieces_of_a_line() -> None:
    """A field of two arms, lines across: below the gap 30 m, above it two of 10 m each."""
    layout = lay(Ground((outline(U_SHAPE),)), spacing_m=4, bearing=90)

    assert lengths(layout) == [10, 10, 10, 10, 10, 10, 30, 30]
    assert names(layout)[:2] == ["S01a", "S01b"]
    assert names(layout)[-2:] == ["S04", "S05"]


def test_line_one_is_at_the_left_of_the_bearing() -> None:
    """Driving east, left is north; a piece begins where the bearing enters."""
    first = lay(Ground((outline(box(0, 0, 10, 4)),)), spacing_m=1, bearing=90).segments[0]

    assert (first.start, first.end) == (point(0, 3.5), point(10, 3.5))


def test_a_keep_out_with_clearance_splits_a_line() -> None:
    """A box of 2 m with 1 m kept clear takes 4 m out of the line through its middle."""
    keep_out = KeepOut(outline(box(4, 4, 2, 2)), M, "valve box")
    layout = lay(Ground((outline(box(0, 0, 10, 10)),), (keep_out,)), spacing_m=2)

    assert names(layout) == ["S01", "S02", "S03a", "S03b", "S04", "S05"]
    assert lengths(layout) == [10, 10, 3, 3, 10, 10]


def test_an_island_in_a_keep_out_is_cut_again() -> None:
    """Keep-out 6 m with an island of 2 m in it: the middle line has three pieces."""
    keep_out = KeepOut(outline(box(2, 2, 6, 6)), 0, "bunker", (outline(box(4, 4, 2, 2)),))
    layout = lay(Ground((outline(box(0, 0, 10, 10)),), (keep_out,)), spacing_m=2)

    assert [s.length_nm // M for s in layout.segments if s.number == 3] == [2, 2, 2]
    assert names(layout)[3:6] == ["S03a", "S03b", "S03c"]


def test_a_surface_may_have_several_parts() -> None:
    """Two fields apart share one row of lines; between them no line has a piece."""
    parts = (outline(box(0, 0, 4, 10)), outline(box(10, 0, 4, 10)))
    layout = lay(Ground(parts), spacing_m=2)

    assert layout.line_count == 7
    assert names(layout) == ["S01", "S02", "S06", "S07"]


def test_parts_that_touch_make_one_line() -> None:
    """A line from one part into the next is not cut at the seam."""
    parts = (outline(box(0, 0, 4, 10)), outline(box(0, 10, 4, 5)))

    assert lengths(lay(Ground(parts), spacing_m=2)) == [15, 15]


def test_a_line_that_touches_a_corner_of_a_keep_out_stays_whole() -> None:
    """A diamond whose tip lies on the line does not cut it."""
    diamond = outline([(5, 5), (7, 3), (9, 5), (7, 7)])
    layout = lay(Ground((outline(box(0, 0, 10, 10)),), (KeepOut(diamond),)), spacing_m=10)

    assert lengths(layout) == [10]


def test_setback_keeps_lines_off_the_edge() -> None:
    """A metre in from 10 m on all sides: 8 lines of 8 m."""
    layout = lay(Ground((outline(box(0, 0, 10, 10)),), setback_nm=M))

    assert lengths(layout) == [8] * 8
    ground = Ground((outline(box(0, 0, 10, 10)),), setback_nm=M)
    assert open_shape(ground).area == pytest.approx(64 * 10**18)


def test_stubs_are_dropped_and_listed() -> None:
    """In a right triangle the shortest lines are stubs; a length on the limit is no stub."""
    triangle = Ground((outline([(0, 0), (10, 0), (10, 10)]),))
    layout = lay(triangle, least_m=1.5)

    assert [(stub.number, stub.length_nm) for stub in layout.stubs] == [(1, M // 2)]
    assert lengths(layout) == [1.5, 2.5, 3.5, 4.5, 5.5, 6.5, 7.5, 8.5, 9.5]
    assert layout.length_nm + layout.stub_length_nm == 50 * M


def test_letters_are_given_after_stubs_are_dropped() -> None:
    """A line with one long piece and a stub beyond a hole needs no letter."""
    keep_out = KeepOut(outline(box(4, 8, 2, 1)))
    layout = lay(Ground((outline(box(0, 0, 10, 10)),), (keep_out,)), spacing_m=2, least_m=2)

    assert "S03" in names(layout)
    assert [stub.number for stub in layout.stubs] == [3]


@pytest.mark.parametrize(
    ("width_m", "lines", "margin_m"),
    [(10, 10, 0.5), (10.0005, 10, 0.500_25), (10.4, 11, 0.2), (10.9, 11, 0.45), (0.7, 1, 0.35)],
)
def test_both_edges_are_served_alike(width_m: float, lines: int, margin_m: float) -> None:
    """The same margin left and right, never more than half a spacing (and half a millimetre)."""
    layout = lay(Ground((outline(box(3, -2, width_m, 10)),)))

    assert layout.line_count == lines
    assert layout.first_nm == pytest.approx(margin_m * M, abs=1)
    assert abs(layout.first_nm - layout.last_margin_nm) <= 1


def test_the_first_line_may_be_chosen() -> None:
    """Where it is stated the row begins there, and the margins are what is left."""
    pattern = LinePattern(M, first_nm=M // 4)
    layout = lay_lines(Ground((outline(box(0, 0, 10, 5)),)), pattern)

    assert (layout.first_nm, layout.line_count, layout.last_margin_nm) == (M // 4, 10, 3 * M // 4)


def test_numbers_grow_to_the_digits_they_need() -> None:
    """Names sort as they are numbered: three digits for a hundred lines."""
    layout = lay(Ground((outline(box(0, 0, 100, 5)),)))

    assert (names(layout)[0], names(layout)[-1]) == ("S001", "S100")
    assert names(layout) == sorted(names(layout))


def test_letters_go_on_beyond_z() -> None:
    """As columns of a sheet."""
    letters = piece_letters(800)

    assert (letters[25], letters[26], letters[701], letters[702]) == ("z", "aa", "zz", "aaa")
    assert len(set(letters)) == 800


GROUND = Ground((outline(box(0, 0, 10, 10)),))
BAD: dict[str, tuple[Ground, LinePattern, str]] = {
    "no spacing": (GROUND, LinePattern(0), "spacing above zero"),
    "spacing below zero": (GROUND, LinePattern(-M), "spacing above zero"),
    "stub below zero": (GROUND, LinePattern(M, least_nm=-1), "zero or more"),
    "first below zero": (GROUND, LinePattern(M, first_nm=-1), "zero or more"),
    "first beyond": (GROUND, LinePattern(M, first_nm=11 * M), "would get 0 lines"),
    "too many": (GROUND, LinePattern(M // 2001), "would get 20009 lines"),
    "no outline": (Ground(()), LinePattern(M), "no outline"),
    "setback eats all": (
        Ground(GROUND.outlines, setback_nm=6 * M),
        LinePattern(M),
        f"a setback of {show_both(6 * M)}",
    ),
    "keep-out eats all": (
        Ground(GROUND.outlines, (KeepOut(outline(box(-1, -1, 12, 12))),)),
        LinePattern(M),
        "leave nothing",
    ),
    "setback below zero": (Ground(GROUND.outlines, setback_nm=-1), LinePattern(M), "negative"),
    "clearance below zero": (
        Ground(GROUND.outlines, (KeepOut(outline(box(1, 1, 2, 2)), -1),)),
        LinePattern(M),
        "negative",
    ),
    "parts overlap": (
        Ground((*GROUND.outlines, outline(box(5, 5, 10, 10)))),
        LinePattern(M),
        "overlap",
    ),
    "island outside": (
        Ground(
            GROUND.outlines,
            (KeepOut(outline(box(1, 1, 2, 2)), 0, "pond", (outline(box(2, 2, 4, 4)),)),),
        ),
        LinePattern(M),
        "out of the keep-out pond",
    ),
}


@pytest.mark.parametrize("name", BAD)
def test_what_can_not_be_laid_is_said(name: str) -> None:
    """A sentence with the figures that were met."""
    ground, pattern, words = BAD[name]

    with pytest.raises(CalculationInputError) as caught:
        lay_lines(ground, pattern)

    assert words in str(caught.value)


def test_a_clearance_is_kept_all_round() -> None:
    """No piece comes nearer to a round head than its clearance less what its chords cut off."""
    head = KeepOut(circle(M, point(5.3, 4.9)), M // 2)
    ground = Ground(GROUND.outlines, (head,))
    shape = open_shape(ground)

    layout = lay(ground, spacing_m=16 * IN / M, bearing=31)

    assert shape.interiors
    for segment in layout.segments:
        for x_nm, y_nm in (segment.start, segment.end):
            away = ((x_nm / M - 5.3) ** 2 + (y_nm / M - 4.9) ** 2) ** 0.5
            assert away > 1.5 - 0.0012 * 1.5


def test_origin_far_away_changes_nothing() -> None:
    """State plane coordinates in the thousands of kilometres lay the same lines, shifted."""
    near = lay(Ground((outline(U_SHAPE),)), bearing=30)
    away = lay(Ground((outline(U_SHAPE, shift=(1_234_567, 4_111_222)),)), bearing=30)

    assert [s.length_nm for s in near.segments] == [s.length_nm for s in away.segments]
    gap = away.segments[0].start.x_nm - near.segments[0].start.x_nm
    assert gap == 1_234_567 * M


def test_rectangle_turns_with_its_bearing() -> None:
    """Lines along a turned rectangle are as long as it is."""
    field = Ground((rectangle(20 * M, 50 * M, point(7, 8), 123_456_789),))
    layout = lay_lines(field, LinePattern(M, 123_456_789))

    assert layout.line_count == 20
    assert all(abs(segment.length_nm - 50 * M) <= 2 for segment in layout.segments)
