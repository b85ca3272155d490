"""Plan and profile as lists of primitives: what is drawn, where, and how true."""

from __future__ import annotations

from dataclasses import replace

import pytest

from models.units import StationStyle, UnitSystem
from models.units.job_units import Figures
from sync.papers.drawing.plan_lines import LineProgress
from sync.papers.drawing.plan_strip import PlanLine, PlanView, draw_plan
from sync.papers.drawing.primitives import (
    Anchor,
    Dash,
    Drawing,
    Line,
    Mark,
    Polygon,
    Polyline,
    Shape,
    Text,
    Tone,
    text_width_mm,
)
from sync.papers.drawing.profile import (
    EXAGGERATIONS,
    ProfileCanvas,
    ProfileShot,
    Scales,
    draw_profile,
    scales_of,
)
from tests.sync.papers.day_writer import FT, MM, M

METRIC = Figures(UnitSystem.METRIC, StationStyle.METRIC_1000M)
SIZES = [(94.0, 50.0), (94.0, 90.0), (190.0, 60.0), (60.0, 40.0), (300.0, 160.0)]


def shot(station_ft: int, off_hundredths: int, limit: int = 3) -> ProfileShot:
    """A shot some hundredths of a foot off a line that falls one percent to the left."""
    off = off_hundredths * FT // 100
    level = 96 * FT + station_ft * FT // 100 + off
    return ProfileShot(station_ft * FT, level, off, abs(off_hundredths) > limit)


def profile(*shots: ProfileShot, length_ft: int = 200) -> ProfileCanvas:
    """A collector at one percent from its outlet, three hundredths allowed."""
    return ProfileCanvas(
        name="C1",
        from_nm=0,
        to_nm=length_ft * FT,
        design_nm=(96 * FT, 96 * FT + length_ft * FT // 100),
        high_nm=3 * FT // 100,
        low_nm=3 * FT // 100,
        shot_every_nm=25 * FT,
        shots=shots,
        flows_left=True,
        figures=Figures(),
    )


def texts(drawing: Drawing) -> list[Text]:
    """Words of a drawing."""
    return [item for item in drawing if isinstance(item, Text)]


def box(text: Text) -> tuple[float, float, float, float]:
    """Box of a text by the width it is promised not to exceed."""
    width = text_width_mm(text.text, text.cap_mm, text.is_bold)
    shift = {Anchor.LEFT: 0.0, Anchor.MIDDLE: width / 2, Anchor.RIGHT: width}[text.anchor]
    left, bottom = text.at[0] - shift, text.at[1]
    return left, bottom, left + width, bottom + text.cap_mm


def overlaps(drawing: Drawing) -> list[tuple[str, str]]:
    """Pairs of words that lie over each other."""
    boxes = [(text.text, box(text)) for text in texts(drawing)]
    return [
        (one, other)
        for place, (one, a) in enumerate(boxes)
        for other, b in boxes[place + 1 :]
        if a[0] < b[2] and b[0] < a[2] and a[1] < b[3] and b[1] < a[3]
    ]


RUN = profile(
    *(
        shot(at, off)
        for at, off in zip(range(0, 201, 20), [0, 1, -2, 3, 5, -9, 0, 8, 1, -4, 0], strict=True)
    )
)


@pytest.mark.parametrize("size", SIZES)
def test_stated_stretch_is_the_ratio_of_the_two_scales(size: tuple[float, float]) -> None:
    """The stretch in the caption is what the marks themselves show, and is on the list."""
    drawing = draw_profile(RUN, *size)
    (caption,) = [text.text for text in texts(drawing) if "heights x" in text.text]
    stated = int(caption.rsplit(" ", 1)[1])
    design = next(i for i in drawing if isinstance(i, Line) and i.dash is Dash.DASHED)
    rise = (design.end[1] - design.start[1]) / (2 * FT)
    run = (design.end[0] - design.start[0]) / (200 * FT)

    assert stated in EXAGGERATIONS
    assert rise / run == pytest.approx(stated)


def test_largest_stretch_that_fits_is_taken() -> None:
    """The next one on the list would reach beyond the strip."""
    scales = scales_of(RUN, 10, 90, (20, 50))
    levels = [one.level_nm for one in RUN.shots] + list(RUN.design_nm)
    places = [scales.y(level) for level in levels]
    larger = EXAGGERATIONS[EXAGGERATIONS.index(round(scales.exaggeration)) + 1]
    spread = (max(places) - min(places)) * larger / scales.exaggeration

    assert 20 <= min(places) <= max(places) <= 50
    assert spread + 2 * 3 * MM * scales.mm_per_level_nm * larger / scales.exaggeration > 30
    assert isinstance(scales, Scales)


@pytest.mark.parametrize("size", SIZES)
def test_nothing_leaves_the_drawing_and_no_words_overlap(size: tuple[float, float]) -> None:
    """Words stay inside the box and clear of each other, at any size."""
    drawing = draw_profile(RUN, *size)

    assert overlaps(drawing) == []
    for text in texts(drawing):
        left, bottom, right, top = box(text)
        assert left >= -0.01
        assert bottom >= 0
        assert right <= size[0] + 0.01
        assert top <= size[1]


@pytest.mark.parametrize("size", SIZES)
def test_first_and_last_station_are_named(size: tuple[float, float]) -> None:
    """Both ends have their station, however narrow the drawing."""
    words = {text.text for text in texts(draw_profile(RUN, *size))}

    assert {"0+00.0", "2+00.0"} <= words


def test_gap_longer_than_the_spacing_is_a_gap() -> None:
    """Shots 40 ft apart where 25 are allowed are not joined in either strip."""
    near = draw_profile(profile(shot(0, 0), shot(20, 0), shot(40, 0)), 94, 60)
    far = draw_profile(profile(shot(0, 0), shot(20, 0), shot(60, 0)), 94, 60)
    joins = [
        sum(isinstance(i, Line) and i.tone is Tone.INK and i.weight_mm == 0.5 for i in one)
        for one in (near, far)
    ]

    assert joins == [4, 2]


def test_point_beyond_the_strip_is_held_at_its_edge_with_its_number() -> None:
    """Nine hundredths low where the strip shows six: an arrow down at the edge, and -9."""
    drawing = draw_profile(profile(shot(0, 0), shot(20, -9), shot(40, 0)), 94, 60)
    arrows = [i for i in drawing if isinstance(i, Mark) and i.shape is Shape.ARROW_DOWN]
    band = next(i for i in drawing if isinstance(i, Polygon) and i.fill is Tone.BAND)
    low, high = min(y for _, y in band.points), max(y for _, y in band.points)

    assert len(arrows) == 1
    assert arrows[0].at[1] == pytest.approx(low - (high - low) / 2)
    assert "-9" in {text.text for text in texts(drawing)}


def test_point_on_its_limit_is_in_the_band() -> None:
    """Exactly three hundredths is drawn on the band's edge, as an ordinary mark."""
    drawing = draw_profile(profile(shot(0, 3), shot(20, -3)), 94, 60)

    assert not [i for i in drawing if isinstance(i, Mark) and i.tone is Tone.OUT]


def test_reach_that_runs_backward_is_named() -> None:
    """A level that drops away from the outlet is drawn heavy and called adverse."""
    drawing = draw_profile(profile(shot(0, 0), shot(20, 0), shot(40, -25, 99)), 94, 70)

    assert "adverse" in {text.text for text in texts(drawing)}


def test_metric_profile_speaks_millimetres() -> None:
    """The lower strip's unit and the stations follow the job."""
    view = replace(profile(), to_nm=60 * M, figures=METRIC, high_nm=9 * MM, low_nm=9 * MM)
    words = {text.text for text in texts(draw_profile(view, 94, 60))}

    assert "Shots less design, mm" in words
    assert {"0+000.0", "+9", "-9"} <= words


def plan(readiness_rows: list[LineProgress], wide_ft: int = 70, apart_ft: int = 5) -> PlanView:
    """Parallel lines, one above the other."""
    lines = tuple(
        PlanLine((0, n * apart_ft * FT), (wide_ft * FT, n * apart_ft * FT), standing, f"S{n:02d}")
        for n, standing in enumerate(readiness_rows)
    )
    high = len(readiness_rows) * apart_ft * FT
    return PlanView("G7", ((0, 0), (wide_ft * FT, 0), (wide_ft * FT, high), (0, high)), lines)


THREE = [LineProgress.PLANNED, LineProgress.DONE, LineProgress.TODAY]


def test_lines_are_told_apart_by_more_than_colour() -> None:
    """Planned is broken, done thin, today heavy."""
    drawing = draw_plan(plan(THREE), 94, 60)
    lines = {i.tone: i for i in drawing if isinstance(i, Line) and i.start[1] == i.end[1]}

    assert lines[Tone.PLANNED].dash is Dash.DASHED
    assert lines[Tone.TODAY].weight_mm >= 2 * lines[Tone.INK].weight_mm


@pytest.mark.parametrize("size", SIZES)
def test_plan_stays_in_its_box_at_one_scale(size: tuple[float, float]) -> None:
    """Every point lies inside, and the outline keeps its proportions."""
    drawing = draw_plan(plan(THREE), *size)
    outline = next(i for i in drawing if isinstance(i, Polyline) and len(i.points) == 4)
    xs, ys = [x for x, _ in outline.points], [y for _, y in outline.points]

    assert min(xs) >= 0
    assert max(xs) <= size[0]
    assert min(ys) >= 0
    assert max(ys) <= size[1]
    sides = sorted([max(xs) - min(xs), max(ys) - min(ys)])
    assert sides[1] / sides[0] == pytest.approx(70 / 15)
    assert overlaps(drawing) == []


def test_scale_bar_is_true() -> None:
    """The bar is as long as the plan's own scale says."""
    drawing = draw_plan(plan(THREE), 94, 60)
    (words,) = [text.text for text in texts(drawing) if text.text.endswith(" ft")]
    outline = next(i for i in drawing if isinstance(i, Polyline) and len(i.points) == 4)
    bar = [i for i in drawing if isinstance(i, Polyline)][-1]
    long_mm = max(x for x, _ in bar.points) - min(x for x, _ in bar.points)
    width_mm = max(x for x, _ in outline.points) - min(x for x, _ in outline.points)

    assert long_mm / int(words.split()[0]) == pytest.approx(width_mm / 70)


def test_tall_plan_is_laid_on_its_side_and_says_so() -> None:
    """A tall field in a wide box is turned; its north arrow points left."""
    tall = plan([LineProgress.PLANNED] * 40, wide_ft=30, apart_ft=10)
    drawing = draw_plan(tall, 190, 50)
    (north,) = [text for text in texts(drawing) if text.text == "N"]
    arrow = next(i for i in drawing if isinstance(i, Line) and i.weight_mm == 0.35)

    assert arrow.end[0] < arrow.start[0]
    assert arrow.end[1] == arrow.start[1]
    assert north.at[1] < arrow.start[1]


def test_crowded_planned_lines_are_thinned_and_it_is_said() -> None:
    """Where lines would run into grey, one in a few is drawn; done ones are all drawn."""
    many = [LineProgress.DONE] * 20 + [LineProgress.PLANNED] * 180
    drawing = draw_plan(plan(many, wide_ft=400, apart_ft=1), 94, 60)
    lines = [i for i in drawing if isinstance(i, Line) and i.start[1] == i.end[1]]

    assert sum(line.tone is Tone.INK for line in lines) == 20
    assert sum(line.tone is Tone.PLANNED for line in lines) < 180
    assert [text for text in texts(drawing) if "planned lines drawn" in text.text]


def test_surface_without_a_plan_says_so() -> None:
    """An empty plan is words, not a fault."""
    (words,) = draw_plan(PlanView("G7", (), ()), 94, 60)

    assert isinstance(words, Text)
    assert words.text == "no plan yet"
