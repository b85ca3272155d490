"""Plan sheets as primitives: to scale, inside their frame, names apart, told without colour."""

from __future__ import annotations

from itertools import combinations
from math import cos, hypot, radians, sin

import pytest

from sync.papers.asbuilt.features.plots import plots_of
from sync.papers.asbuilt.plans.label_search import DiscGrid
from sync.papers.asbuilt.plans.legend import draw_bar, draw_legend
from sync.papers.asbuilt.plans.paper_sizes import PaperSheet, PaperSize, Scale
from sync.papers.asbuilt.plans.plan_sets import PlanSet, plan_sets
from sync.papers.asbuilt.plans.plan_sheet import draw_plan_sheet
from sync.papers.asbuilt.plans.strokes import STYLES, Stroke
from sync.papers.asbuilt.records.facts import Facts
from sync.papers.drawing.primitives import Drawing, Line, Mark, Polyline, Shape, Text, text_width_mm
from tests.sync.papers.day_writer import FT


def planned(facts: Facts, paper: PaperSize = PaperSize.LETTER, scale: int = 0) -> PlanSet:
    """The first plot of a job on its paper."""
    chosen = Scale(scale, facts.head.is_us) if scale else None
    return plan_sets(plots_of(facts.state, facts.job), PaperSheet(paper), chosen, 2)[0]


def drawn(facts: Facts, plan: PlanSet, place: int = 0) -> Drawing:
    """One of its sheets."""
    joins = {
        side: f"sheet {number}"
        for side, number in plan.sheeting.neighbours(plan.sheeting.tiles[place]).items()
    }
    tile = plan.sheeting.tiles[place]
    return draw_plan_sheet(plan.plot, plan.sheeting, tile, facts.job.figures, joins).drawing


def lengths(drawing: Drawing, stroke: Stroke) -> list[float]:
    """Lengths of two-point lines drawn in the style of a stroke, in mm."""
    style = STYLES[stroke]
    lines = [item for item in drawing if isinstance(item, Polyline) and len(item.points) == 2]
    return [
        hypot(one.points[1][0] - one.points[0][0], one.points[1][1] - one.points[0][1])
        for one in lines
        if one.dash is style.dash and one.weight_mm <= style.weight_mm
    ]


def test_lines_are_as_long_as_the_scale_says(us_facts: Facts) -> None:
    """Seventy feet of slit at 1:192 are 70 x 304.8 / 192 mm on paper, cut or not."""
    plan = planned(us_facts)
    true_mm = 70 * FT / 1e6 / plan.sheeting.scale.denominator
    drawing = drawn(us_facts, plan)
    cut = [mm for mm in lengths(drawing, Stroke.SAND) if abs(mm - true_mm) < 1e-6]
    left = [mm for mm in lengths(drawing, Stroke.SAND_LEFT) if abs(mm - true_mm) < 1e-6]

    assert plan.sheeting.scale == Scale(192, True)
    assert (len(cut), len(left)) == (16, 8)


@pytest.mark.parametrize("paper", PaperSize)
def test_nothing_is_drawn_over_the_frame(us_facts: Facts, paper: PaperSize) -> None:
    """Lines, marks and words stay inside the window, cut over sheets or not."""
    for scale in (0, 60):
        plan = planned(us_facts, paper, scale)
        for place in range(len(plan.sheeting.tiles)):
            drawing = drawn(us_facts, plan, place)
            for x, y in points_of(drawing):
                assert -0.01 <= x <= drawing.width_mm + 0.01
                assert -0.01 <= y <= drawing.height_mm + 0.01


def points_of(drawing: Drawing) -> list[tuple[float, float]]:
    """Every point that a drawing's items are at, words with their far end."""
    found: list[tuple[float, float]] = []
    for item in drawing:
        if isinstance(item, Line):
            found += [item.start, item.end]
        elif isinstance(item, Polyline):
            found += item.points
        elif isinstance(item, Mark):
            found.append(item.at)
        elif isinstance(item, Text):
            found += ends_of(item)
    return found


def ends_of(text: Text) -> list[tuple[float, float]]:
    """Both ends of the middle line of words, turned as they are."""
    turn = radians(text.angle_deg)
    up = (-sin(turn) * text.cap_mm / 2, cos(turn) * text.cap_mm / 2)
    start = (text.at[0] + up[0], text.at[1] + up[1])
    wide = text_width_mm(text.text, text.cap_mm, text.is_bold)
    return [start, (start[0] + wide * cos(turn), start[1] + wide * sin(turn))]


def test_every_line_is_named_and_no_two_names_touch(us_facts: Facts) -> None:
    """Where there is room each line has its name, and the middles of names keep apart."""
    drawing = drawn(us_facts, planned(us_facts, PaperSize.A3))
    names = [item for item in drawing if isinstance(item, Text)]
    lines = {line.line_id for line in us_facts.job.lines}

    assert lines <= {name.text for name in names}
    for one, other in combinations(names, 2):
        assert apart(one, other) > 0.9 * one.cap_mm, (one.text, other.text)


def apart(one: Text, other: Text) -> float:
    """Least distance between points along two names."""
    along = [along_of(text) for text in (one, other)]
    return min(hypot(a[0] - b[0], a[1] - b[1]) for a in along[0] for b in along[1])


def along_of(text: Text) -> list[tuple[float, float]]:
    """Points along the middle of a name, half a millimetre apart."""
    (ax, ay), (bx, by) = ends_of(text)
    count = max(1, int(hypot(bx - ax, by - ay) * 2))
    return [(ax + (bx - ax) * n / count, ay + (by - ay) * n / count) for n in range(count + 1)]


def test_crowded_lines_are_named_by_round_numbers(us_facts: Facts) -> None:
    """Drawn small, the first, the last and every fifth or so have names; the rest have none."""
    drawing = drawn(us_facts, planned(us_facts, PaperSize.LETTER, 600))
    sand = {i.text for i in drawing if isinstance(i, Text) and i.text.startswith("S")}

    assert {"S01", "S24"} <= sand < {f"S{n:02d}" for n in range(1, 25)}
    assert all(int(name[1:]) % 5 == 0 or name in {"S01", "S24"} for name in sand)


def test_sheets_of_a_cut_plan_say_where_they_go_on(us_facts: Facts) -> None:
    """Each side that another sheet joins at has a match line naming that sheet."""
    plan = planned(us_facts, PaperSize.LETTER, 60)
    for place, tile in enumerate(plan.sheeting.tiles):
        words = [i.text for i in drawn(us_facts, plan, place) if isinstance(i, Text)]
        told = {word.rpartition(" ")[2] for word in words if word.startswith("match line")}
        assert told == {str(number) for number in plan.sheeting.neighbours(tile).values()}


def test_no_length_is_lost_over_match_lines(us_facts: Facts) -> None:
    """Summed over all sheets, the slits are as long as on one sheet."""
    plan = planned(us_facts, PaperSize.LETTER, 60)
    cut = [
        sum(lengths(drawn(us_facts, plan, place), Stroke.SAND))
        for place in range(len(plan.sheeting.tiles))
    ]
    true_mm = 16 * 70 * FT / 1e6 / 60

    assert sum(cut) == pytest.approx(true_mm, abs=60)  # ticks and arrows are thin lines too
    assert len(plan.sheeting.tiles) > 3


def test_kinds_of_line_differ_without_colour() -> None:
    """No two strokes share weight and pattern, so a grey copy tells them apart."""
    seen = {(style.weight_mm, style.dash) for style in STYLES.values()}

    assert len(seen) == len(STYLES)


def test_legend_names_what_is_drawn_and_nothing_else(green_facts: Facts) -> None:
    """A job with keep-outs, joints and utilities has them in its legend."""
    plots = plots_of(green_facts.state, green_facts.job)
    words = {i.text for i in draw_legend(plots, 58.0) if isinstance(i, Text)}

    assert {"keep-out", "piped slit, cut", "met in the ground, see table"} <= words
    assert Stroke.COLLECTOR_LEFT.value not in words


def test_what_lies_in_the_ground_is_marked(green_facts: Facts) -> None:
    """Outlet, head, lasting point, joint, utility and the line that is out have their marks."""
    drawing = drawn(green_facts, planned(green_facts))
    shapes = {item.shape for item in drawing if isinstance(item, Mark)}
    words = {item.text for item in drawing if isinstance(item, Text)}

    assert {Shape.DISC, Shape.RING, Shape.TRIANGLE, Shape.SQUARE, Shape.CROSS} <= shapes
    assert Shape.CROSSED_SQUARE in shapes
    assert {"PP1", "U1 Green 1", "head of C1", "0+20.0"} <= words


def test_scale_bar_is_true(us_facts: Facts) -> None:
    """The bar's length in mm is its number of feet at the stated scale."""
    sheeting = planned(us_facts).sheeting
    bar = draw_bar(sheeting, 36.0, is_us=True)
    last = max(x for item in bar if isinstance(item, Polyline) for x, _ in item.points)
    feet = next(int(i.text.split()[0]) for i in bar if isinstance(i, Text) and "ft" in i.text)

    assert last == pytest.approx(feet * 304.8 / sheeting.scale.denominator)


def test_name_that_would_cover_another_is_left_out() -> None:
    """Of two names at one place the first is written; a third beside them has its room."""
    spots = DiscGrid((50.0, 50.0))

    assert spots.place_label("S01", (0.0, 0.0), 1.8)
    assert not spots.place_label("S02", (1.0, 1.0), 1.8, 90.0)
    assert spots.place_label("S03", (0.0, 4.0), 1.8)


def test_name_that_would_cross_the_frame_is_left_out() -> None:
    """A name keeps inside its window whichever way it is turned."""
    spots = DiscGrid((10.0, 10.0))

    assert not spots.place_label("S01", (8.0, 0.0), 1.8)
    assert spots.place_label("S01", (8.0, 0.0), 1.8, 90.0)
