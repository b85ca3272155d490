"""Observed against estimated as primitives: one row a plot, times where the axis says."""

from __future__ import annotations

import pytest

from models.queries.water.clearing import SurfaceClearing
from sync.papers.asbuilt.records.facts import Facts
from sync.papers.asbuilt.records.rain_plot import PlotRow, draw_rain_plot
from sync.papers.drawing.primitives import Drawing, Line, Mark, Polygon, Shape, Text
from tests.sync.papers.asbuilt.test_records import shown, table


def drawn(*cleared: SurfaceClearing) -> Drawing:
    """Rows of one rain."""
    return draw_rain_plot([PlotRow(one.surface_id, one) for one in cleared], 125.0)


def hours_at(drawing: Drawing, x: float) -> float:
    """Hours after the rain at a place along the drawing, by the words of its axis."""
    at = {item.text: item.at[0] for item in drawing if isinstance(item, Text)}
    return (x - at["0"]) / (at["2 h"] - at["0"]) * 2


def test_times_lie_where_the_axis_says() -> None:
    """Water till 1 h, clear at 2 h, playable at 5 h, estimated gone by 4 h."""
    drawing = drawn(SurfaceClearing("G7", "", 60, 120, 300, 240, ""))
    row_y = next(i.at[1] for i in drawing if isinstance(i, Text) and i.text == "G7") + 0.9
    marks = {i.shape: i.at[0] for i in drawing if isinstance(i, Mark) and abs(i.at[1] - row_y) < 1}
    bar = next(i for i in drawing if isinstance(i, Polygon))
    estimate = next(i for i in drawing if isinstance(i, Line) and i.weight_mm == 0.8)

    assert hours_at(drawing, marks[Shape.RING]) == pytest.approx(2)
    assert hours_at(drawing, marks[Shape.DISC]) == pytest.approx(5)
    assert hours_at(drawing, bar.points[1][0]) == pytest.approx(1)
    assert hours_at(drawing, estimate.start[0]) == pytest.approx(4)


def test_what_nobody_saw_has_no_mark() -> None:
    """Without sightings or an estimate only the name and the legend's samples are there."""
    drawing = drawn(SurfaceClearing("G7", "", None, None, None, None, "no plan"))

    assert sum(isinstance(item, Mark) for item in drawing) == 2
    assert sum(isinstance(item, Polygon) for item in drawing) == 1


def test_rain_without_a_beginning_says_why_it_has_no_estimate(us_facts: Facts) -> None:
    """What was seen is told; the estimate is left out with its reason."""
    (row,) = shown(table(us_facts, "cleared"))

    assert row[1:] == ["G7", "1 h", "3 h", "3 h", "-", "nobody wrote when the rain began"]
