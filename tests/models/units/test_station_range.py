"""A stretch of a line runs from its lower station, whichever end was named first."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from models.units.station import StationRange

STATIONS = st.integers(-(10**13), 10**13)


@given(STATIONS, STATIONS)
def test_either_end_may_be_named_first(one_nm: int, other_nm: int) -> None:
    """Both orders give the same stretch, and its lower end comes first."""
    stretch = StationRange.between(one_nm, other_nm)
    assert stretch == StationRange.between(other_nm, one_nm)
    assert stretch == (min(one_nm, other_nm), max(one_nm, other_nm))


def test_both_ends_belong_to_a_stretch() -> None:
    """A station on an end lies in the stretch; a nanometre beyond it does not."""
    stretch = StationRange.between(500, 20)
    assert [at for at in (19, 20, 300, 500, 501) if stretch.holds(at)] == [20, 300, 500]
