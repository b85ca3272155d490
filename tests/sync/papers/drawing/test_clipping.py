"""Lines cut off at the edge of a window."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from sync.papers.drawing.clipping import clip_course, clip_segment, is_inside

HALF = (50.0, 30.0)
places = st.tuples(st.integers(-120, 120).map(float), st.integers(-120, 120).map(float))


@given(places, places)
def test_what_is_kept_lies_inside_and_on_the_line(
    start: tuple[float, float], end: tuple[float, float]
) -> None:
    """The piece kept is in the window and on the segment; a segment with an end inside keeps it."""
    kept = clip_segment(start, end, HALF)
    if kept is None:
        assert not is_inside(start, HALF)
        assert not is_inside(end, HALF)
        return
    for point in kept:
        assert is_inside(point, (HALF[0] + 1e-6, HALF[1] + 1e-6))
        cross = (end[0] - start[0]) * (point[1] - start[1]) - (end[1] - start[1]) * (
            point[0] - start[0]
        )
        assert abs(cross) < 1e-6
    assert is_inside(start, HALF) == (kept[0] == start)


@given(places, places)
def test_two_windows_side_by_side_lose_nothing(
    start: tuple[float, float], end: tuple[float, float]
) -> None:
    """What a window cuts off, the one beside it draws: lengths add up over a match line."""
    whole = clip_segment(start, end, (100.0, 30.0))
    parts = [
        clip_segment((start[0] + move, start[1]), (end[0] + move, end[1]), HALF)
        for move in (50.0, -50.0)
    ]
    lengths = [length(part) for part in parts]

    if start[0] == end[0] == 0.0:
        return  # along the match line itself both sheets draw it
    assert abs(sum(lengths) - length(whole)) < 1e-6


def length(piece: tuple[tuple[float, float], tuple[float, float]] | None) -> float:
    """Length of a piece, nothing where there is none."""
    if piece is None:
        return 0.0
    (ax, ay), (bx, by) = piece
    return float(((bx - ax) ** 2 + (by - ay) ** 2) ** 0.5)


def test_course_that_leaves_and_comes_back_is_two_runs() -> None:
    """A course is not joined across the edge it left over."""
    course = [(0.0, 0.0), (200.0, 0.0), (200.0, 10.0), (0.0, 10.0)]

    assert clip_course(course, HALF) == [((0.0, 0.0), (50.0, 0.0)), ((50.0, 10.0), (0.0, 10.0))]
