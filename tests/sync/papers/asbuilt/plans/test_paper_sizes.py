"""Papers and scales: what is read, what is refused, how a plan is put on paper."""

from __future__ import annotations

import pytest

from sync.papers.asbuilt.features.feature_types import AsBuilt
from sync.papers.asbuilt.features.plots import Plot, plots_of
from sync.papers.asbuilt.plans.paper_sizes import (
    PaperSheet,
    PaperSize,
    Scale,
    ScaleUnreadableError,
    read_scale,
    trade_scales,
)
from sync.papers.asbuilt.plans.plan_sets import window_mm
from sync.papers.asbuilt.plans.tiles import LEGIBLE_MM, MOST_TILES, ScaleTooLargeError, tile_plan
from tests.sync.papers.asbuilt.conftest import facts_of_book
from tests.sync.papers.asbuilt.record_books import us_record
from tests.sync.papers.sample_day import metric_book

FORMS = {
    "20": 240,
    "1 in = 20 ft": 240,
    "1in=20ft": 240,
    "30 ft": 360,
    "1:250": 250,
    " 1 : 100 ": 100,
    "8": 96,
}
REFUSED = ("", "0", "1:0", "twenty", "1:5", "1:9999999", "-20", "1/240", "20 m", "1:250:2", "1 in")


def plot_of_us() -> Plot:
    """The green in feet with its collector."""
    facts = facts_of_book(us_record())
    return plots_of(facts.state, facts.job)[0]


@pytest.mark.parametrize("text", FORMS, ids=FORMS.keys())
def test_scale_is_read_as_the_trade_writes_it(text: str) -> None:
    """Inches to feet, ratios, and the bare number of feet to the inch are read."""
    assert read_scale(text, is_us=True).denominator == FORMS[text]


def test_bare_number_is_a_ratio_where_metres_are_used() -> None:
    """In metres a bare 250 is one to 250."""
    assert read_scale("250", is_us=False) == Scale(250, False)


@pytest.mark.parametrize("text", REFUSED)
def test_what_is_no_scale_gets_a_sentence(text: str) -> None:
    """Anything else is refused, and the sentence says what would be accepted."""
    with pytest.raises(ScaleUnreadableError, match=r"1:250, or 1 in = 20 ft"):
        read_scale(text, is_us=True)


def test_scales_are_named_as_a_plan_names_them() -> None:
    """Feet to the inch, parts of an inch to the foot, or the ratio."""
    assert Scale(240, True).words == "1 in = 20 ft (1:240)"
    assert Scale(96, True).words == "1/8 in = 1 ft (1:96)"
    assert Scale(250, False).words == "1:250"


@pytest.mark.parametrize("size", PaperSize)
def test_plan_takes_the_largest_scale_that_fits(size: PaperSize) -> None:
    """On every paper the next larger scale of the trade would not fit on one sheet."""
    plot, window = plot_of_us(), window_mm(PaperSheet(size))
    chosen = tile_plan(plot, window, None)
    scales = trade_scales(True)
    larger = scales[scales.index(chosen.scale) - 1]

    assert len(chosen.tiles) == 1
    assert len(tile_plan(plot, window, larger).tiles) > 1


def test_plan_too_fine_for_one_sheet_is_cut_over_several() -> None:
    """A field whose lines would run together on one sheet goes on more, lines apart again."""
    facts = facts_of_book(metric_book())
    plot = plots_of(facts.state, facts.job)[0]
    chosen = tile_plan(plot, window_mm(PaperSheet(PaperSize.A4)), None)

    assert len(chosen.tiles) > 1
    assert plot.spacing_nm() * chosen.scale.mm_per_nm >= LEGIBLE_MM - 1e-9


def test_scale_that_would_take_a_stack_of_paper_is_refused() -> None:
    """The sentence says how many sheets it would take, and which scale fits."""
    facts = facts_of_book(metric_book())
    plot = plots_of(facts.state, facts.job)[0]
    with pytest.raises(ScaleTooLargeError, match=rf"more than {MOST_TILES}.*1:\d+"):
        tile_plan(plot, window_mm(PaperSheet(PaperSize.A4)), Scale(10, False))


def test_plot_without_a_place_is_not_drawn() -> None:
    """A job whose surface has neither edge nor lines has no plan."""
    book = us_record()
    book.write("surface", surface_id="Z9", name="No place", use="green")
    facts = facts_of_book(book)

    assert [plot.name for plot in plots_of(facts.state, facts.job)] == [
        "G7 Green 7; C1 Collector C1"
    ]
    assert isinstance(facts.job, AsBuilt)
