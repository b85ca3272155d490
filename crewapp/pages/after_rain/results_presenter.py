"""Rains, ring tests and figures of materials in words, each with its arithmetic."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from crewapp.job.open_job import OpenJob
from crewapp.kit.input.list_rows import DayRow
from crewapp.kit.input.moments import wall_time_of
from crewapp.kit.look.palette import Status
from crewapp.pages.after_rain.ring_forms import METHODS, TIMES, show_rate, show_run
from crewapp.words.dates import full_day
from crewapp.words.translate import say
from models.entries.kind_names import MATERIAL
from models.queries.materials.gradings import Grading, grading_of
from models.queries.materials.material_properties import Density, bulking_of, density_of
from models.queries.water.clearing import (
    RainStory,
    RingTest,
    SurfaceClearing,
    rain_stories,
    ring_tests,
)
from models.science.water.infiltration import RingInterval
from models.units import (
    PL_PER,
    MassStyle,
    VolumeUnit,
    round_half_even,
    show_duration,
    show_mass,
    show_time_of_day,
)
from models.units.job_units import Figures
from models.units.rounding import show_decimal

LONG = 2
"""Times of the estimate from which a plot that is still not clear needs a look."""


def rain_rows(job: OpenJob) -> tuple[DayRow, ...]:
    """Read every rain with how each plot cleared, the newest first, then every ring test."""
    rows: list[DayRow] = []
    for story in reversed(rain_stories(job.state)):
        rows += _rain(job, story)
    rows += [_ring(job.figures, number, test) for number, test in enumerate(ring_tests(job.state))]
    if not rows:
        return ()
    caution = say(
        "Times are looks at one small plot, and the estimate reckons with even rain and even "
        "sand: a sign of how it drains, no proof."
    )
    return (DayRow("caution", caution), *rows)


def _rain(job: OpenJob, story: RainStory) -> Iterator[DayRow]:
    figures, rain, zone = job.figures, story.rain, job.clock.now().zone
    day, stopped = wall_time_of(rain.stopped_ms, zone)
    times = say("stopped {time}", time=_time(stopped, figures))
    if rain.began_ms is not None and story.lasted_min is not None:
        times = say(
            "{began} to {stopped}, {lasted}",
            began=_time(wall_time_of(rain.began_ms, zone)[1], figures),
            stopped=_time(stopped, figures),
            lasted=show_duration(story.lasted_min),
        )
    detail = ", ".join(part for part in (times, rain.gauge) if part)
    depth = rain_words(rain.depth_nm, figures)
    yield DayRow(
        f"rain/{story.entry.id}",
        say("Rain {day}", day=full_day(day, job.figures.is_us)),
        detail,
        depth,
    )
    if not story.plots:
        yield DayRow(f"none/{story.entry.id}", say("Nobody wrote down how the ground looked."))
    for number, plot in enumerate(story.plots):
        yield _plot(f"plot/{story.entry.id}/{number}", plot)


def rain_words(nm: int, figures: Figures) -> str:
    """Write rain as a gauge shows it: hundredths of an inch, or millimetres."""
    unit_nm, places, unit = (254_000, 2, "in") if figures.is_us else (100_000, 1, "mm")
    return f"{show_decimal(round_half_even(nm, unit_nm), places)} {unit}"


def _time(minutes: int, figures: Figures) -> str:
    return show_time_of_day(minutes, halves=figures.is_us)


def _plot(key: str, plot: SurfaceClearing) -> DayRow:
    where = f"{plot.surface_id}: {plot.plot}" if plot.plot else plot.surface_id
    seen = [
        (plot.standing_min, say("water last seen")),
        (plot.clear_min, say("clear")),
        (plot.playable_min, say("fit to play on")),
    ]
    told = [f"{words} {show_duration(after)}" for after, words in seen if after is not None]
    if plot.estimate_min is None:
        told.append(say("no estimate: {why}", why=plot.no_estimate))
    else:
        told.append(say("estimate {time}", time=show_duration(plot.estimate_min)))
    clear = ""
    if plot.clear_min is not None:
        clear = say("clear {time}", time=show_duration(plot.clear_min))
    detail = say("after the rain: {times}", times=", ".join(told))
    return DayRow(key, where, detail, clear, Status.CHECK if _is_long(plot) else "")


def _is_long(plot: SurfaceClearing) -> bool:
    """Whether water stood much longer than was reckoned."""
    if plot.estimate_min is None or plot.standing_min is None:
        return False
    return plot.standing_min > LONG * plot.estimate_min


def _ring(figures: Figures, number: int, one: RingTest) -> DayRow:
    test = one.test
    title = say(
        "Ring test on {surface}, {when}",
        surface=test.surface_id,
        when=say(TIMES[test.when]).lower(),
    )
    ring = f"{say(METHODS[test.method])}, {figures.depth(test.inner_nm)}"
    if one.result is None:
        return DayRow(f"ring/{number}", title, one.refused, "", Status.CHECK)
    counted = one.result.intervals[one.result.steady_from :]
    steady = say("steady") if one.result.is_steady else say("not steady yet: read on")
    parts = [part for part in (test.where, ring) if part]
    parts.append(f"{interval_words(counted, figures)} ({steady})")
    if one.conductivity_nm_per_h is not None:
        rate = show_rate(one.conductivity_nm_per_h, figures)
        parts.append(say("soil column, worked out by Darcy: {rate}", rate=rate))
    rate = show_rate(one.result.rate_nm_per_h, figures)
    return DayRow(f"ring/{number}", title, "; ".join(parts), rate)


def interval_words(intervals: tuple[RingInterval, ...], figures: Figures) -> str:
    """Write the arithmetic of the intervals that count, to be done again by pencil."""
    drop_nm = sum(one.drop_nm for one in intervals)
    seconds = intervals[-1].to_s - intervals[0].from_s
    rate = show_rate(Fraction(drop_nm * 3600, seconds), figures)
    return say(
        "{drop} in the last {time} = {rate}",
        drop=figures.depth(drop_nm),
        time=show_run(seconds),
        rate=rate,
    )


def sand_rows(job: OpenJob) -> tuple[DayRow, ...]:
    """Read the properties known of each sand and gravel, and where each figure is from."""
    rows = []
    for name in job.state.every_name(MATERIAL):
        material = job.state.latest(MATERIAL, name)
        if material is not None and material.use in {"sand", "gravel"}:
            rows.append(DayRow(name, name, "; ".join(_known(job, name)), _density(job, name)))
    return tuple(rows)


def _known(job: OpenJob, name: str) -> Iterator[str]:
    density = density_of(job.state, name)
    is_us = job.figures.is_us
    yield _weighed(density, is_us)
    bulking = bulking_of(job.state, name)
    if bulking is not None:
        share = show_decimal(round_half_even(bulking.share * 1000), 1)
        yield say("bulks by {share} %, jar of {day}", share=share, day=full_day(bulking.day, is_us))
    grading = grading_of(job.state, name)
    if grading is not None:
        yield _sieved(grading, is_us)


def _weighed(density: Density | None, is_us: bool) -> str:
    if density is None:
        return say("never weighed here")
    if not density.is_measured:
        return say("as planned")
    day = full_day(density.day, is_us)
    return say("weighed {moisture} on {day}", moisture=say(density.moisture), day=day)


def _sieved(grading: Grading, is_us: bool) -> str:
    day = full_day(grading.day, is_us)
    if not grading.edition:
        return say("sieved {day}, held to no table", day=day)
    return say(
        "sieved {day}, {edition}: {verdict}",
        day=day,
        edition=grading.edition,
        verdict=say(str(grading.verdict)),
    )


def _density(job: OpenJob, name: str) -> str:
    """Weight of a cubic foot, or of a cubic metre."""
    density = density_of(job.state, name)
    if density is None:
        return ""
    unit, style = VolumeUnit.FT3, MassStyle.LB_10
    if not job.figures.is_us:
        unit, style = VolumeUnit.M3, MassStyle.TONNE_100
    mass = show_mass(round_half_even(density.ug_per_pl * PL_PER[unit]), style)
    return say("{mass} a {unit}", mass=mass, unit="ft\u00b3" if job.figures.is_us else "m\u00b3")
