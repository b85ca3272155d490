"""Laws of layouts, on wild outlines with keep-outs at any bearing."""

from __future__ import annotations

from collections import Counter
from fractions import Fraction
from itertools import pairwise

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from models.science.layout.cuttable_ground import Ground, open_shape
from models.science.layout.driving import plan_drive
from models.science.layout.interleave import Machine
from models.science.layout.layout import lay_lines
from models.science.layout.layout_types import LinePattern
from tests.models.science.plots import M, chance_ground

SEEDS = st.integers(0, 10**9)
BEARINGS = st.integers(0, 359_999_999)
SPACINGS = st.integers(300_000_000, 4_000_000_000)


@settings(max_examples=150, deadline=None)
@given(seed=SEEDS, bearing=BEARINGS, spacing=SPACINGS)
def test_length_is_area_over_spacing_and_what_the_edge_explains(
    seed: int, bearing: int, spacing: int
) -> None:
    """Length and area / spacing differ by half of the edge at most, either way.

    Each line stands for a strip half a spacing to its left and right. Within it the length
    across the ground changes by no more than the edge that runs through the strip.
    """
    ground = chance_ground(seed)
    shape = open_shape(ground)
    layout = lay_lines(ground, LinePattern(spacing, bearing))
    laid = layout.length_nm + layout.stub_length_nm

    assert abs(laid - shape.area / spacing) <= shape.length / 2 + M // 1000


@settings(max_examples=100, deadline=None)
@given(seed=SEEDS, bearing=BEARINGS, turn=st.floats(0, 360), spacing=SPACINGS)
def test_turned_with_its_surface_a_layout_keeps_its_lengths(
    seed: int, bearing: int, turn: float, spacing: int
) -> None:
    """Surface, keep-outs and bearing turned and shifted together lay the same pieces."""
    turn = round(turn, 6)
    stub_nm = 50_000_000
    pattern = LinePattern(spacing, bearing, stub_nm)
    turned = LinePattern(spacing, bearing + round(turn * 1e6), stub_nm)
    here = lay_lines(chance_ground(seed), pattern)
    there = lay_lines(chance_ground(seed, turn, (1234.5, -987.6)), turned)

    assert here.line_count == there.line_count
    pairs = {segment.line_id: segment.length_nm for segment in here.segments}
    for segment in there.segments:
        if segment.line_id in pairs:
            assert abs(segment.length_nm - pairs[segment.line_id]) < 100_000
    total = here.length_nm + here.stub_length_nm
    assert abs(total - there.length_nm - there.stub_length_nm) < 1_000_000


@settings(max_examples=100, deadline=None)
@given(seed=SEEDS, bearing=BEARINGS, legs=st.integers(1, 4), shifts=st.integers(1, 4))
def test_a_drive_cuts_every_piece_once(seed: int, bearing: int, legs: int, shifts: int) -> None:
    """Passes alternate, cut each piece once, and their lengths add up to the layout's."""
    layout = lay_lines(chance_ground(seed), LinePattern(M, bearing, M // 2))
    drive = plan_drive(layout, Machine(legs, shifts * M, 2 * M))
    cut = Counter(name for one in drive.passes for leg in one.legs for name in leg.line_ids)

    assert cut == Counter(segment.line_id for segment in layout.segments)
    assert drive.cut_nm == layout.length_nm
    assert all(a.is_along is not b.is_along for a, b in pairwise(drive.passes))
    assert [one.number for one in drive.passes] == list(range(1, len(drive.passes) + 1))
    assert len(drive.turns) == max(0, len(drive.passes) - 1)
    assert all(turn.length_nm >= turn.shift_nm for turn in drive.turns)
    assert all(p.driven_nm + 2 >= max(leg.length_nm for leg in p.legs) for p in drive.passes)


@settings(max_examples=60, deadline=None)
@given(seed=SEEDS, bearing=BEARINGS, spacing=SPACINGS)
def test_every_piece_lies_in_the_ground(seed: int, bearing: int, spacing: int) -> None:
    """Independently: a hair inside its ends, a piece is within what may be cut."""
    ground = chance_ground(seed)
    shape = shapely.buffer(open_shape(ground), 1_000)
    x0, y0 = ground.origin
    for segment in lay_lines(ground, LinePattern(spacing, bearing)).segments:
        ends = [(p.x_nm - x0, p.y_nm - y0) for p in (segment.start, segment.end)]
        assert shape.covers(shapely.LineString(ends))


def upright_pieces(ground: Ground, x: int) -> list[tuple[Fraction, Fraction]]:
    """Pieces of an upright line by crossing every side, odd and even, in exact fractions."""
    rings = [one.ring for one in ground.outlines]
    cuts = []
    for ring in rings:
        for a, b in zip(ring, [*ring[1:], ring[0]], strict=True):
            if (a.x_nm > x) is not (b.x_nm > x):
                share = Fraction(x - a.x_nm, b.x_nm - a.x_nm)
                cuts.append(a.y_nm + share * (b.y_nm - a.y_nm))
    cuts.sort()
    return list(zip(cuts[::2], cuts[1::2], strict=True))


@pytest.mark.parametrize("seed", range(40))
def test_pieces_are_those_of_exact_arithmetic(seed: int) -> None:
    """Against a second way of clipping, without the library: ends agree to two nanometres."""
    ground = Ground(chance_ground(seed).outlines)
    layout = lay_lines(ground, LinePattern(777_777_777))
    wanted = [
        (line, low, high)
        for line in range(1, layout.line_count + 1)
        for low, high in upright_pieces(ground, ground.origin.x_nm + layout.across_nm(line))
        if high - low > 2_000
    ]
    laid = [s for s in layout.segments if s.length_nm > 2_000]

    assert [s.number for s in laid] == [number for number, _, _ in wanted]
    for segment, (_, low, high) in zip(laid, wanted, strict=True):
        assert abs(segment.start.y_nm - low) <= 2
        assert abs(segment.end.y_nm - high) <= 2


def test_the_same_request_gives_the_same_layout() -> None:
    """Nothing hangs on order of sets or on chance."""
    pattern = LinePattern(M, 12_345_678)

    assert lay_lines(chance_ground(7), pattern) == lay_lines(chance_ground(7), pattern)
