"""Outlines: each fault said with its place, and the mended version only offered."""

from __future__ import annotations

import pytest

from models.errors import OutlineError
from models.science.shapes.outline import (
    OutlineFaultKind,
    Trace,
    find_outline_faults,
    require_outline,
)
from models.science.shapes.outline_repair import mend_outline
from models.science.shapes.rings import PointNm
from tests.models.science.plots import U_SHAPE, Corners, box, point

K = OutlineFaultKind

FAULTY: dict[str, tuple[Corners, bool, K, str]] = {
    "no point": ([], True, K.TOO_FEW, "0 different points"),
    "one point": ([(1, 1)], True, K.TOO_FEW, "1 different"),
    "two points": ([(1, 1), (2, 2)], True, K.TOO_FEW, "2 different"),
    "one point three times": ([(1, 1)] * 3, True, K.TOO_FEW, "1 different"),
    "two points to and fro": ([(0, 0), (5, 5), (0, 0), (5, 5)], True, K.CROSSING, "side 1"),
    "open": (box(0, 0, 10, 10), False, K.OPEN, "ends 10.000 m (32.81 ft) from the first"),
    "doubled corner": ([(0, 0), (9, 0), (9, 0), (9, 9)], True, K.DUPLICATE, "point 3 lies on"),
    "doubled at the end": ([(0, 0), (9, 0), (9, 9), (0, 0)], True, K.DUPLICATE, "point 1 lies on"),
    "nearly doubled": ([(0, 0), (9, 0), (9, 0.0005), (9, 9)], True, K.DUPLICATE, "point 3"),
    "bow tie": ([(0, 0), (9, 9), (9, 0), (0, 9)], True, K.CROSSING, "east 4.500 m, north 4.500 m"),
    "crossing by a swapped pair": (
        [(0, 0), (10, 0), (0, 10), (10, 10)],
        True,
        K.CROSSING,
        "side 2 (from corner 2) meets side 4 at east 5.000 m",
    ),
    "touching itself at a corner": (
        [(0, 0), (10, 0), (5, 5), (10, 10), (0, 10), (5, 5)],
        True,
        K.CROSSING,
        "east 5.000 m, north 5.000 m",
    ),
    "corner on a far side": (
        [(0, 0), (10, 0), (10, 10), (5, 0), (0, 10)],
        True,
        K.CROSSING,
        "side 1 (from corner 1) meets side 3",
    ),
    "spike": ([(0, 0), (10, 0), (10, 5), (20, 5), (10, 5), (0, 9)], True, K.CROSSING, "east 20."),
    "all on a line": ([(0, 0), (4, 0), (8, 0)], True, K.CROSSING, "meets side"),
    "a side twice": (
        [(0, 0), (10, 0), (10, 10), (5, 10), (5, 0), (3, 0), (3, 8), (0, 8)],
        True,
        K.CROSSING,
        "side 1 (from corner 1)",
    ),
    "tiny": (box(0, 0, 0.5, 0.5), True, K.TINY, "0.2500 m2"),
    "a foot for a metre": (box(0, 0, 0.9, 1.1), True, K.TINY, "check the unit"),
    "clockwise": (box(0, 0, 10, 10)[::-1], True, K.WOUND, "clockwise from point 1"),
    "clockwise and concave": (U_SHAPE[::-1], True, K.WOUND, "turn the order"),
    "too far": ([(0, 0), (5e6, 0), (5e6, 9)], True, K.TOO_FAR, "point 2 lies farther"),
    "too many": ([(n / 99, n % 7) for n in range(20_001)], True, K.TOO_MANY, "20001 points"),
}


def trace(corners: Corners, is_closed: bool = True) -> Trace:
    """A trace from metres."""
    return Trace(tuple(point(*corner) for corner in corners), is_closed)


@pytest.mark.parametrize("name", FAULTY)
def test_a_faulty_outline_is_refused_with_its_place(name: str) -> None:
    """Each fault has its kind, a sentence with the place, and stops the outline."""
    corners, is_closed, kind, words = FAULTY[name]

    with pytest.raises(OutlineError) as caught:
        require_outline(trace(corners, is_closed))

    faults = caught.value.context["faults"]
    assert isinstance(faults, tuple)
    assert kind in {fault.kind for fault in faults}
    assert words in str(caught.value)
    assert str(caught.value).endswith(".")


def test_a_sound_outline_is_taken_as_it_is() -> None:
    """Not a corner is moved, and area and length round it are exact."""
    sound = require_outline(trace(U_SHAPE))

    assert sound.ring == tuple(point(*corner) for corner in U_SHAPE)
    assert sound.area_nm2 == (30 * 20 - 10 * 12) * 10**18
    assert sound.perimeter_nm == (2 * (30 + 20) + 2 * 12) * 10**9


def test_several_faults_are_told_at_once() -> None:
    """An open walk with a doubled point that crosses itself says all three."""
    walk = trace([(0, 0), (9, 9), (9, 9), (9, 0), (0, 9)], is_closed=False)

    assert {fault.kind for fault in find_outline_faults(walk)} == {K.OPEN, K.DUPLICATE, K.CROSSING}


def test_an_open_end_is_no_doubled_point() -> None:
    """Of a walk that stops a hair short of its start, that it is open is all that is said."""
    walk = trace([*box(0, 0, 9, 9), (0, 0.0004)], is_closed=False)

    assert [fault.kind for fault in find_outline_faults(walk)] == [K.OPEN]


def test_a_walk_that_comes_back_is_closed() -> None:
    """Points walked to the first again are a closed trace without the repeat."""
    corners = [point(*corner) for corner in [*box(0, 0, 5, 5), (0, 0)]]

    assert Trace.from_walk(corners).is_closed
    assert len(Trace.from_walk(corners).points) == 4
    assert not Trace.from_walk(corners[:-1]).is_closed


@pytest.mark.parametrize(
    ("name", "area_m2", "said"),
    [
        ("open", 100, "Closed by a straight side of 10.000 m"),
        ("doubled corner", 40.5, "Left out point 3"),
        ("doubled at the end", 40.5, "Left out the last point"),
        ("bow tie", 20.25, "largest of 2 parts, 50.0 %"),
        ("spike", 70, "Left out sides that double back on it (first at"),
        ("clockwise", 100, "Turned round"),
    ],
)
def test_a_mended_outline_is_offered_with_what_changed(
    name: str, area_m2: float, said: str
) -> None:
    """The offer is sound, has the area worked out by hand, and says what was done."""
    corners, is_closed, _, _ = FAULTY[name]

    mended = mend_outline(trace(corners, is_closed))

    assert mended is not None
    assert find_outline_faults(Trace(mended.outline.ring)) == ()
    assert float(mended.outline.area_nm2) / 1e18 == pytest.approx(area_m2, abs=1e-6)
    assert said in " ".join(mended.changes)


@pytest.mark.parametrize("name", ["two points", "all on a line", "tiny", "too far", "no point"])
def test_nothing_is_offered_where_nothing_can_be(name: str) -> None:
    """What bounds no ground is not made into some."""
    assert mend_outline(trace(FAULTY[name][0])) is None


def test_mending_a_sound_outline_changes_nothing() -> None:
    """The same corners come back, and nothing is told."""
    mended = mend_outline(trace(U_SHAPE))

    assert mended is not None
    assert mended.changes == ()
    assert mended.outline == require_outline(trace(U_SHAPE))


def test_what_is_left_out_is_measured() -> None:
    """The smaller part of a crossed outline is given as an area: 4.8 of 15.6 m2."""
    mended = mend_outline(trace([(0, 0), (6, 6), (6, 0), (0, 4)]))

    assert mended is not None
    assert float(mended.left_out_nm2) / 1e18 == pytest.approx(4.8)


def test_crossings_far_out_are_found_to_the_nanometre() -> None:
    """A corner one nanometre past a side 4,000 km out is a crossing; one short of it is not."""
    far = 4 * 10**15
    size = 10**10

    def dented(depth_nm: int) -> Trace:
        corners = [(0, 0), (size, 0), (size, size), (size // 2, depth_nm), (0, size)]
        return Trace(tuple(PointNm(far + x, y) for x, y in corners))

    assert find_outline_faults(dented(1)) == ()
    assert {fault.kind for fault in find_outline_faults(dented(0))} == {K.CROSSING}
    assert K.CROSSING in {fault.kind for fault in find_outline_faults(dented(-1))}
