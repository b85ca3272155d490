"""Names of marks on a plan: beside them where there is room, else led to by a line."""

from __future__ import annotations

from sync.papers.asbuilt.plans.label_search import DiscGrid
from sync.papers.asbuilt.plans.marks import draw_mark
from sync.papers.drawing.primitives import Anchor, Line, Shape, Text

Point = tuple[float, float]
MIDDLE = (0.0, 0.0)


def drawn(spots: DiscGrid, at: Point = MIDDLE) -> tuple[list[Line], Text]:
    """Draw an outlet; return its leaders and its name."""
    items = list(draw_mark(at, Shape.DISC, 2.8, "outlet of C1", spots, (0.0, -1.0)))
    (name,) = (item for item in items if isinstance(item, Text))
    return [item for item in items if isinstance(item, Line)], name


def test_name_beside_its_mark_needs_no_leader() -> None:
    """Nothing is in the way: the name stands at the mark's right."""
    leaders, name = drawn(DiscGrid((100.0, 100.0)))

    assert leaders == []
    assert name.anchor is Anchor.LEFT
    assert 0 < name.at[0] < 4


def test_name_further_off_is_led_to() -> None:
    """Stations stand in the way: a line leads from the mark to where the name begins or ends."""
    spots = DiscGrid((100.0, 100.0))
    for step in range(-40, 41):
        spots.block((float(step), -2.5), 1.0)
        spots.block((float(step), 0.0), 0.7)
    (leader,), name = drawn(spots)

    assert leader.start == MIDDLE
    assert abs(leader.end[0] - name.at[0]) < 0.1
    assert leader.end[1] < -3.5


def test_name_left_of_its_mark_ends_there() -> None:
    """At the right edge of a sheet the name ends by its mark, however wide it was reckoned."""
    _, name = drawn(DiscGrid((100.0, 100.0)), (96.0, 0.0))

    assert name.anchor is Anchor.RIGHT
    assert -4.5 < name.at[0] - 96.0 < 0
