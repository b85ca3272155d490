"""Clearing after rains against the estimate, and results of ring tests."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from models.entries.bodies.after_rain import InfiltrationTest, Rain, SurfaceSeen
from models.entries.envelope import AnyEntry
from models.entries.kind_names import INFILTRATION_TEST, RAIN, SURFACE, SURFACE_SEEN
from models.errors import CalculationInputError
from models.queries.water.surface_drainage import surface_drainage
from models.science.water.infiltration import (
    RingReading,
    RingResult,
    falling_head_conductivity,
    ring_result,
)
from models.science.water.widening import rain_gone
from models.state.job_state import JobState

_MS_IN_MIN = 60_000
_NM_IN_MM = 1_000_000


@dataclass(frozen=True, slots=True)
class SurfaceClearing:
    """Clearing of one surface, or one plot of it, after one rain.

    Times are minutes after the rain stopped; None was not seen. ``estimate_min`` is when
    the whole rain would have left by the gates of the surface, or None with the reason.
    """

    surface_id: str
    plot: str
    standing_min: int | None
    clear_min: int | None
    playable_min: int | None
    estimate_min: int | None
    no_estimate: str


@dataclass(frozen=True, slots=True)
class RainStory:
    """A rain and how the ground cleared after it; ``lasted_min`` is None if not written."""

    entry: AnyEntry
    rain: Rain
    lasted_min: int | None
    plots: tuple[SurfaceClearing, ...]


@dataclass(frozen=True, slots=True)
class RingTest:
    """A ring test; ``result`` is None where its readings make no test, with the reason."""

    entry: AnyEntry
    test: InfiltrationTest
    result: RingResult | None
    conductivity_nm_per_h: Fraction | None
    refused: str


def rain_stories(state: JobState) -> list[RainStory]:
    """Every rain, in the order in which they stopped, with what was seen until the next began."""
    rains = [(entry, entry.body) for entry in state.current(RAIN)]
    rains.sort(key=lambda pair: pair[1].stopped_ms)
    stories = []
    for place, (entry, rain) in enumerate(rains):
        later = rains[place + 1 :]
        until_ms = min((_began(next_rain) for _, next_rain in later), default=None)
        stories.append(_story(state, entry, rain, until_ms))
    return stories


def ring_tests(state: JobState) -> list[RingTest]:
    """Every ring test with its rate, surface by surface, before the work and after it."""
    found = [
        _ring_test(entry, entry.body)
        for surface_id in state.every_name(INFILTRATION_TEST)
        for entry in state.current(INFILTRATION_TEST, surface_id)
    ]
    return sorted(found, key=lambda one: (one.test.surface_id, one.test.when != "before"))


def _began(rain: Rain) -> int:
    return rain.stopped_ms if rain.began_ms is None else rain.began_ms


def _story(state: JobState, entry: AnyEntry, rain: Rain, until_ms: int | None) -> RainStory:
    lasted = None if rain.began_ms is None else (rain.stopped_ms - rain.began_ms) // _MS_IN_MIN
    seen: dict[tuple[str, str], list[SurfaceSeen]] = {}
    for look in _looks(state):
        if rain.stopped_ms <= look.seen_ms and (until_ms is None or look.seen_ms < until_ms):
            seen.setdefault((look.surface_id, look.plot), []).append(look)
    plots = tuple(
        _cleared(state, rain, lasted, surface_id, plot, looks)
        for (surface_id, plot), looks in sorted(seen.items())
    )
    return RainStory(entry, rain, lasted, plots)


def _looks(state: JobState) -> Iterator[SurfaceSeen]:
    for surface_id in state.every_name(SURFACE_SEEN):
        yield from state.bodies(SURFACE_SEEN, surface_id)


def _cleared(
    state: JobState,
    rain: Rain,
    lasted_min: int | None,
    surface_id: str,
    plot: str,
    looks: list[SurfaceSeen],
) -> SurfaceClearing:
    times: dict[str, list[int]] = {"standing_water": [], "clear": [], "playable": []}
    for look in looks:
        times[look.condition].append((look.seen_ms - rain.stopped_ms) // _MS_IN_MIN)
    # Fit to play on is clear too, if nobody looked earlier.
    clear = min(times["clear"] + times["playable"], default=None)
    standing = [time for time in times["standing_water"] if clear is None or time <= clear]
    minutes, why = _estimate(state, surface_id, rain, lasted_min)
    return SurfaceClearing(
        surface_id,
        plot,
        max(standing, default=None),
        clear,
        min(times["playable"], default=None),
        minutes,
        why,
    )


def _estimate(
    state: JobState, surface_id: str, rain: Rain, lasted_min: int | None
) -> tuple[int | None, str]:
    """Minutes after the rain until it had left by the narrowest gate, or why there is none."""
    if lasted_min is None:
        return None, "nobody wrote when the rain began"
    if state.latest(SURFACE, surface_id) is None:
        return None, f"the plan has no surface {surface_id}"
    drainage = surface_drainage(state, surface_id)
    if drainage.inputs.is_lost:
        return None, f"the plan gives the water of {surface_id} no way out"
    rate = (drainage.laid or drainage.designed).rate_mm_per_h
    if not rate or rate <= 0:
        return None, "; ".join(drainage.missing) or "no gate of the water is known"
    depth_mm = rain.depth_nm / _NM_IN_MM * drainage.inputs.run_on
    return round(rain_gone(depth_mm, lasted_min / 60, rate).after_h * 60), ""


def _ring_test(entry: AnyEntry, test: InfiltrationTest) -> RingTest:
    readings = [RingReading(one.after_s, one.level_nm, one.refilled_to_nm) for one in test.readings]
    try:
        result = ring_result(readings)
    except CalculationInputError as fault:
        return RingTest(entry, test, None, None, str(fault))
    return RingTest(entry, test, result, _conductivity(test, readings), "")


def _conductivity(test: InfiltrationTest, readings: list[RingReading]) -> Fraction | None:
    """Conductivity from a head that was left to fall all the way, over a driven ring."""
    first, last = readings[0], readings[-1]
    was_left = all(reading.refilled_to_nm is None for reading in readings[:-1])
    if not was_left or not test.driven_nm or last.level_nm >= first.level_nm:
        return None
    seconds = last.after_s - first.after_s
    return falling_head_conductivity(first.level_nm, last.level_nm, test.driven_nm, seconds)
