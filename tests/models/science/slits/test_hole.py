"""Holes of slits: figures by hand, other figures by slices, and the laws of both."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from itertools import pairwise
from math import sqrt

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from models.errors import CalculationInputError
from models.science.slits.floor import CutPiece, DepthReading
from models.science.slits.hole import CUBIC_NM_PER_PL, PI, Hole, SlitSection
from models.science.slits.ramps import Ramp

IN, FT, MM = 25_400_000, 304_800_000, 1_000_000
NINE = SlitSection(IN, 9 * IN)
RADIUS = 18 * IN


def cut(from_ft: int, to_ft: int, radius_nm: int = 0) -> CutPiece:
    """Return a piece at the design depth."""
    return CutPiece(from_ft * FT, to_ft * FT, 9 * IN, radius_nm)


def ft3(volume_pl: Fraction) -> float:
    """Return a volume in cubic feet."""
    return float(volume_pl * CUBIC_NM_PER_PL / FT**3)


def plunged_nm(piece: CutPiece, from_end_nm: float) -> float:
    """Return the depth of a blade that went in over one place and came straight out."""
    half_nm = (piece.to_nm - piece.from_nm) / 2
    above_nm = sqrt(piece.blade_radius_nm**2 - half_nm**2)
    return sqrt(piece.blade_radius_nm**2 - (half_nm - from_end_nm) ** 2) - above_nm


def sliced_pl(hole: Hole, slices: int = 40_000) -> float:
    """Return the volume by slices, from depths that the ramps give place by place."""
    section = hole.section
    pipe = float(PI) * section.pipe_nm**2 / 4 / float(section.width_nm)
    begin = min(piece.from_nm for piece in hole.pieces)
    step = (max(piece.to_nm for piece in hole.pieces) - begin) / slices
    total = 0.0
    for number in range(slices):
        along = begin + (number + 0.5) * step
        deepest, is_full = 0.0, False
        for piece in hole.pieces:
            ramp = Ramp(piece.blade_radius_nm, section.depth_nm)
            from_end = min(along - piece.from_nm, piece.to_nm - along)
            if from_end >= 0:
                share = float(piece.depth_nm) / section.depth_nm
                if piece.to_nm - piece.from_nm > ramp.shortest_nm:
                    depth = float(ramp.depth_at_nm(round(from_end)))
                    is_full = is_full or from_end >= ramp.length_nm
                else:
                    depth = plunged_nm(piece, from_end)
                deepest = max(deepest, depth * share)
        total += max(0.0, deepest - section.sod_nm - (pipe if is_full else 0)) * step
    return total * float(section.width_nm) / CUBIC_NM_PER_PL


@pytest.mark.parametrize(
    ("sod_in", "pipe_in", "volume_ft3"),
    [
        (Fraction(0), 0, 6.250),
        (Fraction(1), 0, 5.556),
        (Fraction(3, 2), 0, 5.208),
        (Fraction(2), 0, 4.861),
        (Fraction(3, 2), 1, 4.663),
    ],
)
def test_a_hundred_feet_of_1_by_9_in(sod_in: Fraction, pipe_in: int, volume_ft3: float) -> None:
    """By hand: 100 ft x (9 in less sod) x 1 in, less the circle of the pipe."""
    section = replace(NINE, sod_nm=int(sod_in * IN), pipe_nm=pipe_in * IN)

    assert round(ft3(Hole(section, (cut(0, 100),)).volume_pl), 3) == volume_ft3


@pytest.mark.parametrize(
    ("length_ft", "volume_ft3", "percent"),
    [(100, 6.2028, -0.76), (10, 0.5778, -7.6), (3, 0.1403, -25)],
)
def test_ramps_take_their_share_of_a_piece(
    length_ft: int, volume_ft3: float, percent: float
) -> None:
    """By hand: two ends of 40.798 in2 less, which is little of 100 ft and a quarter of 3 ft."""
    volume = Hole(NINE, (cut(0, length_ft, RADIUS),)).volume_pl

    assert round(ft3(volume), 4) == volume_ft3
    off = 100 * (ft3(volume) / (length_ft * 9 / 144) - 1)
    assert off == pytest.approx(percent, abs=0.5 if percent == -25 else 0.06)


def test_sod_over_ramps_is_what_slices_give() -> None:
    """100 ft with ramps and 1-1/2 in of sod: 5.1619 ft3, by closed form and by slices."""
    hole = Hole(replace(NINE, sod_nm=3 * IN // 2), (cut(0, 100, RADIUS),))

    assert round(ft3(hole.volume_pl), 4) == 5.1619
    assert sliced_pl(hole) == pytest.approx(float(hole.volume_pl), rel=1e-6)


def test_two_pieces_that_only_meet_leave_a_dam() -> None:
    """By hand: end to end the floor comes up to the turf; two ramps of overlap are full depth."""
    ramp_nm = Ramp(RADIUS, 9 * IN).length_nm

    def halves(overlap_nm: int) -> Hole:
        return Hole(
            NINE,
            (
                CutPiece(0, 50 * FT, 9 * IN, RADIUS),
                CutPiece(50 * FT - overlap_nm, 100 * FT, 9 * IN, RADIUS),
            ),
        )

    def depth_in(overlap_nm: int) -> float:
        return round(halves(overlap_nm).depth_at_nm(50 * FT - overlap_nm // 2) / IN, 2)

    assert [depth_in(ramp_nm * k // 2) for k in (0, 2, 3, 4)] == [0, 7.22, 8.57, 9]
    whole = Hole(NINE, (cut(0, 100, RADIUS),))
    assert halves(2 * ramp_nm).volume_pl == pytest.approx(whole.volume_pl, rel=1e-12)
    assert halves(2 * ramp_nm).full_depth_nm == whole.full_depth_nm == 100 * FT - 2 * ramp_nm
    assert halves(0).full_depth_nm == 100 * FT - 4 * ramp_nm


def test_a_piece_too_short_for_full_depth_is_one_plunge() -> None:
    """By hand: 24 in of a blade of 18 in are 18 - root of 180 = 4.58 in deep, nowhere 9 in."""
    hole = Hole(NINE, (cut(0, 2, RADIUS),))

    assert round(hole.depth_at_nm(FT) / IN, 2) == 4.58
    assert hole.full_depth == ()
    assert hole.depth_at_nm(3 * FT) == 0


def test_depth_is_straight_between_readings_and_level_beyond_them() -> None:
    """By hand: 8 in up to 20 ft, 10 in from 60 ft on: 20 x 8 + 40 x 9 + 40 x 10 = 920 in ft."""
    readings = (DepthReading(60 * FT, 10 * IN), DepthReading(20 * FT, 8 * IN))
    hole = Hole(NINE, (cut(0, 100),), readings)

    assert hole.volume_pl * CUBIC_NM_PER_PL == 920 * IN * IN * FT


def test_a_cut_that_ends_between_readings_ends_at_the_depth_between_them() -> None:
    """By hand: 8 in at 20 ft, 10 in at 60 ft, so 9 in at 40: 20 x 8 + 20 x 8.5 = 330 in ft."""
    readings = (DepthReading(20 * FT, 8 * IN), DepthReading(60 * FT, 10 * IN))
    pieces = (cut(0, 40), cut(40, 100))
    hole = Hole(NINE, pieces, readings)

    assert hole.parts_pl[0] * CUBIC_NM_PER_PL == 330 * IN * IN * FT


def test_a_slit_that_comes_out_of_the_soil_into_the_sod_ends_in_a_wedge() -> None:
    """By hand: 2 in deep at the start, 8 in at 90 ft, sod 4 in: from 30 ft on 60 x 4 / 2."""
    readings = (DepthReading(0, 2 * IN), DepthReading(90 * FT, 8 * IN))
    hole = Hole(replace(NINE, sod_nm=4 * IN), (cut(0, 90),), readings)

    assert hole.volume_pl * CUBIC_NM_PER_PL == 120 * IN * IN * FT


def test_a_reading_in_a_ramp_or_beside_the_cut_says_nothing_of_the_depth() -> None:
    """A tape at one foot from the end of a round blade's cut is in its ramp."""
    plain = Hole(NINE, (cut(0, 100, RADIUS),))
    odd = replace(plain, readings=(DepthReading(FT, 4 * IN), DepthReading(120 * FT, IN)))

    assert odd.volume_pl == plain.volume_pl


def test_depth_of_a_piece_counts_where_its_line_has_no_reading() -> None:
    """By hand: 8 in to 50 ft, then 10 in, where they lie on each other the deeper."""
    pieces = (CutPiece(0, 60 * FT, 8 * IN), CutPiece(50 * FT, 100 * FT, 10 * IN))

    assert Hole(NINE, pieces).volume_pl * CUBIC_NM_PER_PL == (50 * 8 + 50 * 10) * IN * IN * FT


def test_spoil_is_what_comes_out_but_the_sod() -> None:
    """By hand: pipe displaces sand, not soil: 7-1/2 in of 1 in by 100 ft."""
    section = SlitSection(IN, 9 * IN, 3 * IN // 2, IN)

    assert Hole(section, (cut(0, 100),)).spoil_pl * CUBIC_NM_PER_PL == 75 * IN * IN * 10 * FT


def test_a_slit_without_width_is_refused() -> None:
    """There is no hole of it."""
    with pytest.raises(CalculationInputError, match="width or depth"):
        Hole(SlitSection(0, IN), ())


PLACES = st.integers(0, 40_000 * MM)


@st.composite
def holes(draw: st.DrawFn) -> Hole:
    """Draw a line cut by one to four pieces, with readings or without."""
    radius = draw(st.sampled_from([0, 450 * MM, RADIUS]))
    pieces = []
    for _ in range(draw(st.integers(1, 4))):
        begin = draw(PLACES)
        length = draw(st.integers(10 * MM, 20_000 * MM))
        depth = draw(st.integers(150 * MM, 260 * MM))
        pieces.append(CutPiece(begin, begin + length, depth, radius))
    readings = draw(
        st.lists(
            st.builds(DepthReading, PLACES, st.integers(150 * MM, 260 * MM)),
            max_size=6,
            unique_by=lambda one: one.along_nm,
        )
    )
    sod = draw(st.integers(0, 80 * MM))
    pipe = draw(st.sampled_from([0, 20 * MM]))
    return Hole(SlitSection(25 * MM, 230 * MM, sod, pipe), tuple(pieces), tuple(readings))


@given(holes(), st.lists(PLACES, max_size=5))
def test_parts_of_a_stretch_add_up_to_it(hole: Hole, cuts: list[int]) -> None:
    """Wherever a hole is parted, nothing is lost or gained, and no part is below nothing."""
    ends = [0, *sorted(cuts), 60_000 * MM]

    parts = [hole.between_pl(begin, end) for begin, end in pairwise(ends)]

    assert sum(parts) == hole.between_pl(0, 60_000 * MM)
    assert all(part > -1 for part in parts)


@example(
    Hole(
        SlitSection(25 * MM, 230 * MM),
        (CutPiece(0, 10 * MM, 150_000_121, 450 * MM), CutPiece(0, 10_000_004, 150 * MM, 450 * MM)),
    )
)
@given(holes())
def test_pieces_add_up_to_their_line_and_none_is_below_nothing(hole: Hole) -> None:
    """What each piece adds sums to the union of all, in whatever order they are cut."""
    assert all(part >= 0 for part in hole.parts_pl)
    assert sum(hole.parts_pl) == pytest.approx(hole.between_pl(0, 60_000 * MM), abs=1)
    turned = replace(hole, pieces=hole.pieces[::-1])
    assert turned.volume_pl == pytest.approx(hole.volume_pl, abs=1)


def test_a_line_cut_a_hundred_times_over_takes_no_more_than_cut_once() -> None:
    """Readings give it one floor; all but the first pass add nothing."""
    readings = tuple(DepthReading(place * FT, (8 + place % 3) * IN) for place in range(0, 100, 5))
    once = Hole(NINE, (cut(0, 100),), readings)
    again = replace(once, pieces=once.pieces * 100)

    assert again.parts_pl == (once.volume_pl, *[Fraction(0)] * 99)


@given(holes())
def test_a_hole_is_that_of_slices(hole: Hole) -> None:
    """Ramps, dams, plunges and overlaps agree with slices, where no reading bends the floor."""
    hole = replace(hole, readings=())

    step_nm = 60_000 * MM / 2000
    ends_pl = 2 * len(hole.pieces) * step_nm * 25 * MM * 260 * MM / CUBIC_NM_PER_PL
    assert abs(float(hole.volume_pl) - sliced_pl(hole, 2000)) <= ends_pl


@given(holes(), st.integers(0, 60 * MM))
def test_sand_falls_with_the_sod(hole: Hole, more_nm: int) -> None:
    """Thicker turf never takes more sand; without ramps by as much for each millimetre."""
    thicker = replace(hole, section=replace(hole.section, sod_nm=hole.section.sod_nm + more_nm))
    assert thicker.volume_pl <= hole.volume_pl + 1

    square = Hole(SlitSection(25 * MM, 230 * MM), (CutPiece(0, 10**10, 230 * MM),))
    less = replace(square, section=replace(square.section, sod_nm=more_nm))
    assert square.volume_pl - less.volume_pl == Fraction(25 * MM * more_nm * 10**10, 10**12)


@given(holes(), st.integers(150 * MM, 260 * MM), st.lists(PLACES, min_size=1, unique=True))
def test_equal_readings_count_as_one(hole: Hole, depth_nm: int, places: list[int]) -> None:
    """How often the same depth was read changes nothing."""
    full = hole.full_depth
    if not full:
        return
    one = replace(hole, readings=(DepthReading(full[0][0], depth_nm),))
    many = replace(
        hole,
        readings=(*one.readings, *(DepthReading(x, depth_nm) for x in places if x != full[0][0])),
    )

    assert many.volume_pl == pytest.approx(one.volume_pl, abs=1)


@given(holes())
def test_a_union_is_at_full_depth_wherever_a_part_is(hole: Hole) -> None:
    """Length at full depth never falls when a piece is cut besides."""
    for piece in hole.pieces:
        alone = replace(hole, pieces=(piece,))
        assert hole.full_depth_nm >= alone.full_depth_nm


@given(st.integers(1, 10**8), st.integers(1, 10**9), st.integers(1, 10**11))
def test_a_square_hole_is_width_by_depth_by_length(width: int, depth: int, length: int) -> None:
    """The volume of a plain slit is the product, exactly."""
    hole = Hole(SlitSection(width, depth), (CutPiece(0, length, depth),))
    assert hole.volume_pl == Fraction(width * depth * length, 10**12)
