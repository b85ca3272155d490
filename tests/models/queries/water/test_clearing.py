"""After the rain: when each plot cleared, by which rain, against which estimate."""

from __future__ import annotations

from typing import Any

from models.queries.water.clearing import rain_stories, ring_tests
from models.queries.water.surface_drainage import surface_drainage
from models.science.water.widening import rain_gone
from models.state.job_state import JobState
from tests.models.checks.any_fields_around import IN
from tests.models.checks.any_job import FT, PATTERN
from tests.models.checks.written_job import written_entries

MIN = 60_000
NOON = 1_780_000_000_000


def rain(began: int | None, stopped: int, inches: int = 1) -> dict[str, Any]:
    """Return a rain; times are minutes after noon."""
    return {
        "kind": "rain",
        "fields": {
            "depth_nm": inches * IN,
            "began_ms": None if began is None else NOON + began * MIN,
            "stopped_ms": NOON + stopped * MIN,
        },
    }


def seen(condition: str, minute: int, plot: str = "") -> dict[str, Any]:
    """Return how the field was seen."""
    fields = {"surface_id": "F1", "plot": plot, "condition": condition}
    return {"kind": "surface_seen", "fields": {**fields, "seen_ms": NOON + minute * MIN}}


def ring(*levels: tuple[int, int], when: str = "after", driven: int = 0) -> dict[str, Any]:
    """Return a ring test with readings in seconds and inches."""
    readings = [{"after_s": s, "level_nm": inches * IN} for s, inches in levels]
    fields = {
        "surface_id": "F1", "when": when, "method": "double_ring", "inner_nm": 12 * IN,
        "driven_nm": driven * IN, "readings": readings,
    }  # fmt: skip
    return {"kind": "infiltration_test", "fields": fields}


FIELD: dict[str, Any] = {
    "kind": "surface",
    "fields": {
        "surface_id": "F1",
        "name": "Field",
        "use": "field",
        "outline": [{"x_nm": x * FT, "y_nm": y * FT} for x, y in ((0, 0), (9, 0), (9, 9), (0, 9))],
        "sand_slits": PATTERN,
        "piped_slits": {**PATTERN, "spacing_nm": 48 * IN, "pipe_outside_nm": IN},
    },
}
TERMS = {
    "kind": "drainage_terms",
    "fields": {
        "surface_id": "F1", "sand_um_per_h": 300_000, "roughness_millionths": 11_000,
        "rain_nm": IN, "rain_min": 60,
    },
}  # fmt: skip

WAY_OUT = (
    {
        "kind": "outlet",
        "fields": {"outlet_id": "O1", "name": "Ditch", "what": "ditch"},
    },
    {"kind": "surface", "fields": {**FIELD["fields"], "outlet_id": "O1"}},
)


def state(*written: dict[str, Any]) -> JobState:
    """Return a field with what was written about it."""
    return JobState(written_entries([FIELD, *written]))


def test_times_count_from_the_end_of_the_rain() -> None:
    """By hand: stopped at 60, water last seen at 90, clear at 130, playable at 200."""
    looks = [seen("standing_water", 70), seen("standing_water", 90), seen("clear", 130)]
    story = rain_stories(state(rain(0, 60), *looks, seen("playable", 200)))[0]

    assert story.lasted_min == 60
    plot = story.plots[0]
    assert (plot.standing_min, plot.clear_min, plot.playable_min) == (30, 70, 140)


def test_a_look_belongs_to_the_rain_before_it() -> None:
    """What is seen after the second rain began is no news of the first."""
    first, second = rain_stories(
        state(
            rain(0, 60),
            rain(300, 360),
            *(seen("clear", 200), seen("standing_water", 320), seen("playable", 330)),
            *(seen("clear", 420), seen("clear", 430, "corner")),
        )
    )

    assert [(plot.plot, plot.clear_min, plot.standing_min) for plot in first.plots] == [
        ("", 140, None)
    ]
    assert first.plots[0].playable_min is None
    assert [plot.clear_min for plot in second.plots] == [60, 70]


def test_plots_are_told_apart() -> None:
    """A small plot has its own times beside the whole surface."""
    story = rain_stories(state(rain(0, 60), seen("clear", 100), seen("clear", 80, "corner")))[0]

    assert {plot.plot: plot.clear_min for plot in story.plots} == {"": 40, "corner": 20}


def test_playable_ground_is_clear() -> None:
    """Nobody looked before it was fit to play on: it was clear by then at the latest."""
    plot = rain_stories(state(rain(0, 60), seen("playable", 100)))[0].plots[0]

    assert (plot.clear_min, plot.playable_min) == (40, 40)


def test_water_seen_again_later_is_not_before_clear() -> None:
    """Water seen after the ground was clear came from elsewhere; it does not move the time."""
    plot = rain_stories(
        state(
            rain(0, 60), seen("standing_water", 70), seen("clear", 90), seen("standing_water", 99)
        )
    )[0].plots[0]

    assert (plot.standing_min, plot.clear_min) == (10, 30)


def test_estimate_is_that_of_the_narrowest_gate() -> None:
    """The rain as it was measured, at the rate of the surface's drainage as it stands."""
    job = state(TERMS, *WAY_OUT, rain(0, 60, inches=3), seen("clear", 400))
    plot = rain_stories(job)[0].plots[0]
    rate = surface_drainage(job, "F1").designed.rate_mm_per_h

    assert rate is not None
    assert plot.estimate_min == round(rain_gone(76.2, 1, rate).after_h * 60)
    assert plot.no_estimate == ""


def test_without_what_it_needs_there_is_no_estimate_but_a_reason() -> None:
    """No terms, no beginning, no surface: each is said."""
    no_terms = rain_stories(state(rain(0, 60), seen("clear", 90)))[0].plots[0]
    no_start = rain_stories(state(TERMS, rain(None, 60), seen("clear", 90)))[0].plots[0]
    bare = JobState(written_entries([rain(0, 60), seen("clear", 90)]))
    no_surface = rain_stories(bare)[0].plots[0]

    assert [one.estimate_min for one in (no_terms, no_start, no_surface)] == [None] * 3
    assert "drainage terms" in no_terms.no_estimate
    assert "when the rain began" in no_start.no_estimate
    assert "no surface F1" in no_surface.no_estimate


def test_struck_rain_is_no_rain() -> None:
    """A rain that was crossed out has no story."""
    struck = {"kind": "struck", "fields": {"why": "sprinkler"}, "strikes": ["e000002"]}

    assert rain_stories(state(rain(0, 60), struck)) == []


def test_ring_tests_stand_before_first_and_give_their_rates() -> None:
    """By hand: 1 in in 10 minutes is 6 in/h."""
    job = state(ring((0, 4), (600, 3)), ring((0, 4), (3600, 3), when="before"))
    before, after = ring_tests(job)

    assert before.result is not None
    assert after.result is not None
    assert [before.test.when, after.test.when] == ["before", "after"]
    assert before.result.rate_nm_per_h == IN
    assert after.result.rate_nm_per_h == 6 * IN
    assert after.conductivity_nm_per_h is None  # nobody wrote how deep the ring was driven


def test_driven_ring_left_to_fall_gives_a_conductivity() -> None:
    """By calculator: 4 in falling to 2 in in an hour over 4 in: 4 ln(8/6) = 1.150728 in/h."""
    (found,) = ring_tests(state(ring((0, 4), (3600, 2), driven=4)))

    assert found.conductivity_nm_per_h is not None
    assert round(float(found.conductivity_nm_per_h) / IN, 6) == 1.150728


def test_readings_that_make_no_test_are_told_not_raised() -> None:
    """Water that rises by itself was misread: a sentence, and no rate."""
    (found,) = ring_tests(state(ring((0, 3), (600, 4))))

    assert found.result is None
    assert "stands higher" in found.refused


def test_no_time_for_water_that_has_no_way_out() -> None:
    """Water that reaches no outlet in the plan is given no time to be gone by, and why."""
    plot = rain_stories(state(TERMS, rain(0, 60, inches=3), seen("clear", 400)))[0].plots[0]

    assert plot.estimate_min is None
    assert plot.no_estimate == "the plan gives the water of F1 no way out"
