"""Crossings of piped and sand slits, and ends at the collector."""

from __future__ import annotations

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from models.errors import CalculationInputError
from models.science.layout.collector_ends import find_collector_ends
from models.science.layout.crossings import count_crossings
from models.science.layout.cuttable_ground import Ground
from models.science.layout.layout import lay_lines
from models.science.layout.layout_types import LaidSegment, LinePattern
from tests.models.science.plots import U_SHAPE, M, box, chance_ground, outline, point

FIELD = Ground((outline(box(0, 0, 6, 4)),))
SAND = lay_lines(FIELD, LinePattern(M)).segments
PIPED = lay_lines(FIELD, LinePattern(2 * M, 90_000_000, prefix="P")).segments


def test_every_piped_slit_crosses_every_sand_slit() -> None:
    """Two piped and six sand slits square to each other: twelve."""
    assert count_crossings(PIPED, SAND) == 12


def test_slits_that_run_alike_never_cross() -> None:
    """Parallel, and even on top of each other: no crossing."""
    assert count_crossings(SAND, SAND) == 0
    assert count_crossings((), SAND) == count_crossings(SAND, ()) == 0


def test_a_slit_that_ends_on_another_crosses_it() -> None:
    """A micrometre short still counts, since ends are rounded; a millimetre does not."""

    def segment(name: str, y_m: float) -> LaidSegment:
        return LaidSegment(name, 1, point(2, y_m), point(2, 9), 9 * M - round(y_m * M), 0, 1)

    at = [count_crossings([segment("P01", y)], PIPED[1:]) for y in (1, 1 + 1e-6, 1.001)]

    assert at == [1, 1, 0]


@settings(max_examples=60, deadline=None)
@given(
    seed=st.integers(0, 10**9),
    bearing=st.integers(0, 179_999_999),
    angle=st.integers(5_000_000, 175_000_000),
)
def test_crossings_are_those_the_library_finds(seed: int, bearing: int, angle: int) -> None:
    """Against each pair as the geometry library has it, at any two bearings.

    Ends are rounded, so of those that touch within a tenth of a millimetre either count stands.
    """
    ground = chance_ground(seed)
    sand = lay_lines(ground, LinePattern(3 * M, bearing, M // 10)).segments
    piped = lay_lines(ground, LinePattern(7 * M, bearing + angle, M // 10)).segments
    lines = [shapely.LineString([one.start, one.end]) for one in sand]
    pipes = [shapely.LineString([one.start, one.end]) for one in piped]
    apart = [line.distance(pipe) for line in lines for pipe in pipes]
    found = count_crossings(piped, sand)

    assert sum(one == 0 for one in apart) <= found <= sum(one < 100_000 for one in apart)


def test_ends_are_numbered_by_station() -> None:
    """Piped slits that stop half a metre short of a collector along the east join it there."""
    path = [point(6.5, 5), point(6.5, -1)]
    ends = find_collector_ends(PIPED, path, M, start_station_nm=10 * M).ends

    assert [(e.number, e.line_id, e.station_nm // M, e.gap_nm) for e in ends] == [
        (1, "P01", 12, M // 2),
        (2, "P02", 14, M // 2),
    ]
    assert ends[0].at == point(6.5, 3)


def test_a_slit_may_cross_the_collector_or_end_on_it() -> None:
    """Through: no gap, and it is told; on its end: no gap, and it does not go through."""
    through = find_collector_ends(PIPED, [point(2, 9), point(2, -9)], 0).ends
    onto = find_collector_ends(PIPED, [point(6, 9), point(6, -9)], 0).ends

    assert [(e.gap_nm, e.goes_through, e.at.x_nm) for e in through] == [(0, True, 2 * M)] * 2
    assert [(e.gap_nm, e.goes_through, e.at.x_nm) for e in onto] == [(0, False, 6 * M)] * 2


def test_slits_that_stay_away_are_listed() -> None:
    """Pieces in the far arm of a field reach no collector beside the near one."""
    piped = lay_lines(Ground((outline(U_SHAPE),)), LinePattern(4 * M, 90_000_000, prefix="P"))
    found = find_collector_ends(piped.segments, [point(31, 20), point(31, 0)], 2 * M)

    assert found.unjoined == ("P01a", "P02a", "P03a")
    assert [end.line_id for end in found.ends] == ["P01b", "P02b", "P03b", "P04", "P05"]


def test_a_bent_collector_counts_round_its_bends() -> None:
    """Station of a joint behind a bend is the length along the course."""
    path = [point(0, -1), point(7, -1), point(7, 9)]
    ends = find_collector_ends(PIPED, path, M).ends

    assert [(end.line_id, end.station_nm // M) for end in ends] == [("P02", 9), ("P01", 11)]


@pytest.mark.parametrize(
    ("path", "reach"),
    [([], 0), ([point(1, 1)], 0), ([point(1, 1)] * 2, 0), ([point(0, 0), point(1, 1)], -1)],
)
def test_a_collector_needs_a_course(path: list[object], reach: int) -> None:
    """A course of no length joins nothing."""
    with pytest.raises(CalculationInputError):
        find_collector_ends(PIPED, path, reach)  # type: ignore[arg-type]
