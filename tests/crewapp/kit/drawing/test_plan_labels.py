"""Names on the plan: only where there is room, those that stand out first."""

from __future__ import annotations

from itertools import combinations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from crewapp.kit.drawing.plan_labels import Label, labels_of
from crewapp.kit.drawing.plan_picture import LineState, PlanLine, PlanPicture, Window

VIEW = (0.0, 0.0, 400.0, 300.0)
HIGH = 12.0


def picture(count: int, out: int = -1) -> PlanPicture:
    """Lines along, 1 m apart, 100 m long; one of them out."""
    lines = tuple(
        PlanLine(
            f"S{n + 1:02d}",
            ((0.0, float(n)), (100.0, float(n))),
            LineState.OUT if n == out else LineState.PLANNED,
            f"S{n + 1:02d}",
        )
        for n in range(count)
    )
    return PlanPicture((), (), lines, 1.0)


def named(shown: PlanPicture, window: Window) -> list[Label]:
    """Return the names in the view, each letter 8 pixels wide."""
    return labels_of(shown, window, VIEW, HIGH, lambda text: 8.0 * len(text))


def test_lines_with_room_are_all_named() -> None:
    """Ten lines over 300 px: 30 px each."""
    found = named(picture(10), Window((50, 4.5), 3.0).zoom(10))

    assert len(found) == 10


def test_crowded_lines_are_named_at_round_numbers() -> None:
    """At 3 px each every tenth has room for 16 px: S10, S20 and so on."""
    found = named(picture(60), Window((50, 30), 3.0))

    assert [label.text for label in found] == ["S10", "S20", "S30", "S40", "S50", "S60"]


def test_line_that_is_out_is_named_first() -> None:
    """The name of a line that is out comes first, however crowded the plan is."""
    found = named(picture(60, out=33), Window((50, 30), 3.0))

    assert found[0].text == "S34"


def test_line_out_of_view_is_not_named() -> None:
    """A window far away shows no names."""
    assert named(picture(10), Window((5000, 5000), 3.0)) == []


@settings(max_examples=60)
@given(
    scale=st.floats(0.5, 60),
    x=st.floats(-20, 120),
    y=st.floats(-20, 80),
    count=st.integers(1, 80),
)
def test_no_name_lies_on_another_or_runs_out(scale: float, x: float, y: float, count: int) -> None:
    """At any zoom and pull, names lie apart and whole within the view."""
    window = Window((x, y), scale)
    boxes = []
    for label in named(picture(count), window):
        px, py = window.place(label.at, (200.0, 150.0))
        boxes.append((px - label.wide_px / 2, py - HIGH / 2, px + label.wide_px / 2, py + HIGH / 2))

    assert all(b[0] > -1 and b[1] > -1 and b[2] < 401 and b[3] < 301 for b in boxes)
    for one, other in combinations(boxes, 2):
        apart = max(one[0] - other[2], other[0] - one[2], one[1] - other[3], other[1] - one[3])
        assert apart > -1e-6


@pytest.mark.parametrize("cap", [0.0, 90.0])
def test_upright_lines_are_named_too(cap: float) -> None:
    """A line straight up has its name at its end, on the line."""
    line = PlanLine("P1", ((10.0, 0.0), (10.0, 90.0 + cap)), LineState.TODAY, "P1")
    (label,) = named(PlanPicture((), (), (line,)), Window((10, 45), 3.0))

    assert label.at[0] == pytest.approx(10.0)
