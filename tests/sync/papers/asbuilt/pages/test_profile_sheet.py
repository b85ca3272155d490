"""Profile sheets as primitives: stated scales are the drawn ones, shots and bellies in place."""

from __future__ import annotations

import pytest

from sync.papers.asbuilt.pages.profile_pages import profile_facts
from sync.papers.asbuilt.pages.profile_sheet import ProfileDrawing, ProfileFacts, draw_profile_sheet
from sync.papers.asbuilt.records.facts import Facts
from sync.papers.drawing.primitives import Anchor, Mark, Polygon, Shape, Text, Tone
from tests.sync.papers.day_writer import FT


def profile(facts: Facts) -> ProfileFacts:
    """Profile of the first collector."""
    found = profile_facts(facts.state, facts.job, facts.job.collectors[0])
    assert found is not None
    return found


@pytest.fixture(scope="module")
def drawing(us_facts: Facts) -> ProfileDrawing:
    """The green's collector on a letter sheet."""
    return draw_profile_sheet(profile(us_facts), 257.4, 160.0)


def texts(drawing: ProfileDrawing) -> dict[str, Text]:
    """Words of a drawing."""
    words = [item for item in drawing.drawing if isinstance(item, Text)]
    return {item.text: item for item in words if not item.angle_deg} | {
        item.text: item for item in words if item.angle_deg and not item.text[0].isdigit()
    }


def test_stated_scales_are_the_drawn_ones(drawing: ProfileDrawing) -> None:
    """Stations ten feet apart, and levels, lie as far apart as scale and stretch say."""
    found = texts(drawing)
    along = found["0+10.0"].at[0] - found["0+00.0"].at[0]
    levels = {i.text: i.at[1] for i in found.values() if i.anchor is Anchor.RIGHT}
    up = levels["96.60"] - levels["96.20"]
    per_ft = 304.8 / drawing.scale.denominator

    assert along == pytest.approx(10 * per_ft)
    assert up == pytest.approx(0.4 * per_ft * drawing.stretch)
    assert f"Profile: {drawing.scale.words} along, heights x {drawing.stretch}" in found


def test_shots_lie_at_their_station_and_level(drawing: ProfileDrawing) -> None:
    """The shot at 0+50 lies 50 ft along and 0.41 ft above that at 0+00."""
    marks = [i for i in drawing.drawing if isinstance(i, Mark)]
    first = next(mark for mark in marks if mark.shape is Shape.DISC)
    out = next(mark for mark in marks if mark.shape is Shape.CROSSED_SQUARE)
    per_ft = 304.8 / drawing.scale.denominator

    assert out.at[0] - first.at[0] == pytest.approx(50 * per_ft)
    assert out.at[1] - first.at[1] == pytest.approx(0.41 * per_ft * drawing.stretch, abs=1e-3)


def test_belly_is_shaded_and_named(drawing: ProfileDrawing) -> None:
    """Water that stands in the pipe is shaded, with its depth and deepest station in words."""
    shaded = [i for i in drawing.drawing if isinstance(i, Polygon) and i.fill is Tone.BAND]

    assert len(shaded) == 2  # the belly, and the tolerance of the lower strip
    assert "belly 0.01 ft deep at 0+50.0" in texts(drawing)


def test_figures_stand_under_every_shot(drawing: ProfileDrawing, us_facts: Facts) -> None:
    """Design, as laid and off stand on end at each of the nine shots."""
    on_end = [i.text for i in drawing.drawing if isinstance(i, Text) and i.angle_deg == 90.0]

    assert {"96.41", "96.50", "-0.09"} <= set(on_end)
    assert len(on_end) == 9 * len(profile(us_facts).rows)


def test_everything_stays_inside(us_facts: Facts, green_facts: Facts) -> None:
    """On the smallest and the largest paper, words begin inside the box."""
    for facts in (us_facts, green_facts):
        for width, height in ((257.4, 160.0), (409.8, 230.0)):
            made = draw_profile_sheet(profile(facts), width, height).drawing
            for item in made:
                if isinstance(item, Text | Mark):
                    assert -0.01 <= item.at[0] <= width
                    assert -0.01 <= item.at[1] <= height


def test_joints_stand_over_the_pipe(green_facts: Facts) -> None:
    """A piped slit that comes in at 0+20 has a tick and its name there."""
    facts = profile(green_facts)

    assert facts.joints == ((20 * FT, "P1"),)
    assert "P1" in texts(draw_profile_sheet(facts, 257.4, 160.0))
