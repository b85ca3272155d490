"""After the rain: how it fell and cleared, ring tests, sand topped up, repairs."""

from __future__ import annotations

from models.entries.bodies.after_rain import InfiltrationTest
from models.entries.envelope import AnyEntry
from models.entries.kind_names import RAIN, REPAIR, SAND_TOP_UP, SURFACE_SEEN
from models.queries.water.clearing import RingTest, rain_stories, ring_tests
from models.state.job_state import JobState
from models.units import show_duration
from models.units.job_units import Figures
from models.units.times import local_time
from sync.papers.asbuilt.records.rain_plot import draw_rain_plot, plot_rows
from sync.papers.day.facts.day import figures_for
from sync.papers.day.facts.slits import current_of
from sync.papers.drawing.primitives import Drawing
from sync.papers.tables.record_table import (
    Field,
    MeasureCells,
    Record,
    RecordCell,
    count_cell,
    make_record,
    text_cell,
)
from sync.papers.wording.entry_text import line_names
from sync.papers.wording.measures import (
    Measure,
    number,
    number_text,
    plain_day,
    printed_unit,
    unit_of,
)
from sync.papers.wording.safe_text import single_line

_SEEN = {"standing_water": "water stands", "clear": "no water stands", "playable": "fit to play on"}


def after_rain_section(state: JobState) -> tuple[Record, ...]:
    """Tables of everything that was written down after the work, in the order they are read."""
    made = MeasureCells(figures_for(state))
    return (
        _rains(state, made),
        _seen(state, made),
        _cleared(state, made),
        _tests(state, made),
        _readings(state, made),
        _top_ups(state, made),
        _repairs(state, made),
    )


def has_any(section: tuple[Record, ...]) -> bool:
    """Whether anything was written down after the work."""
    return any(one.rows for one in section)


def clock_words(entry: AnyEntry, ms: int) -> str:
    """A moment on the wall where an entry was written."""
    return local_time(ms, entry.offset_min)


def _rains(state: JobState, made: MeasureCells) -> Record:
    rows = []
    for entry in current_of(state, RAIN):
        rain = entry.body
        began, lasted = "-", None
        if rain.began_ms is not None:
            began = clock_words(entry, rain.began_ms)
            lasted = (rain.stopped_ms - rain.began_ms) // 60_000
        rows.append(
            [
                text_cell(began),
                text_cell(clock_words(entry, rain.stopped_ms)),
                RecordCell("-" if lasted is None else show_duration(lasted), lasted),
                _as_read(rain.depth_nm, rain.depth_typed, made),
                text_cell(", ".join(part for part in (rain.gauge, rain.note) if part)),
            ]
        )
    fields = [
        Field("began", "began", 25),
        Field("stopped", "stopped", 25),
        Field("lasted", "lasted", 15, "min", is_number=True),
        made.field("depth", Measure.DEPTH, "depth", 14),
        Field("gauge", "gauge, remarks"),
    ]
    return make_record("rain", "Rains", fields, rows)


def _seen(state: JobState, made: MeasureCells) -> Record:
    """How surfaces cleared, each sighting with the time since the last rain before it stopped."""
    stops = sorted(body.stopped_ms for body in state.bodies(RAIN))
    rows = []
    for entry in sorted(current_of(state, SURFACE_SEEN), key=lambda one: one.lc):
        body = entry.body
        seen_ms = body.seen_ms
        before = [stop for stop in stops if stop <= seen_ms]
        since = (seen_ms - before[-1]) // 60_000 if before else None
        rows.append(
            [
                text_cell(body.surface_id),
                text_cell(body.plot or "all of it"),
                text_cell(clock_words(entry, seen_ms)),
                RecordCell("-" if since is None else show_duration(since), since),
                text_cell(_SEEN.get(body.condition, "")),
                text_cell(body.note),
            ]
        )
    fields = [
        Field("surface", "surface", 13),
        Field("plot", "which part", 24),
        Field("seen", "seen", 25),
        Field("after_rain", "after rain", 16, "min", is_number=True),
        Field("condition", "how it was", 22),
        Field("note", "remarks"),
    ]
    return make_record("surface_seen", "How it cleared", fields, rows)


def _as_read(nm: int, typed: str, made: MeasureCells) -> RecordCell:
    """A reading as it was typed where that is kept, since it is finer than a tape is read."""
    cell = made.of(Measure.DEPTH, nm)
    return RecordCell(single_line(typed), cell.value) if typed else cell


def _cleared(state: JobState, made: MeasureCells) -> Record:
    """When each plot cleared after each rain, against the estimate."""
    rows = []
    for story in rain_stories(state):
        for plot in story.plots:
            times = (plot.standing_min, plot.clear_min, plot.playable_min, plot.estimate_min)
            rows.append(
                [
                    text_cell(clock_words(story.entry, story.rain.stopped_ms)),
                    text_cell(f"{plot.surface_id} {plot.plot}".strip()),
                    *(RecordCell("-" if m is None else show_duration(m), m) for m in times),
                    text_cell(plot.no_estimate),
                ]
            )
    fields = [
        Field("rain_stopped", "rain stopped", 21.5),
        Field("plot", "plot"),
        Field("water_seen", "water till", 13, "min", is_number=True),
        Field("clear", "clear", 13, "min", is_number=True),
        Field("playable", "playable", 13, "min", is_number=True),
        Field("estimate", "estimate", 13, "min", is_number=True),
        Field("no_estimate", "none, why", 18),
    ]
    note = (
        "Times after the rain stopped. Seen: when somebody looked, so it cleared no later than "
        "that. Estimate: when the whole rain would have left by the narrowest gate of the water, "
        "as laid where it was shot, else as designed. One plot and one rain prove little."
    )
    return make_record("cleared", "Observed against estimated", fields, rows, note=note)


def _tests(state: JobState, made: MeasureCells) -> Record:
    unit = "in_per_h" if made.figures.is_us else "mm_per_h"
    rows = [
        [
            count_cell(place),
            RecordCell(plain_day(one.entry.day, made.figures.is_us), one.entry.day),
            text_cell(
                f"{one.test.surface_id} {one.test.where}".strip() + f", {one.test.when} the work"
            ),
            text_cell(_ring_words(one.test, made.figures)),
            _rate(one, made.figures),
            text_cell(_worked(one, made.figures)),
        ]
        for place, one in enumerate(ring_tests(state), start=1)
    ]
    fields = [
        Field("test", "test", 6, is_number=True),
        Field("day", "day", 23),
        Field("where", "where"),
        Field("ring", "ring", 21),
        Field("rate", f"rate, {unit.replace('_per_', '/')}", 13, unit, is_number=True),
        Field("arithmetic", "worked out", 25),
    ]
    note = (
        "Rate: fall of the water over time, over the last intervals that agree within a tenth; "
        "refills taken out. In a ring with upright walls it is the incremental infiltration "
        "velocity of ASTM D3385, volume over area and time. Column: conductivity of the soil in "
        "the ring by Darcy's law, derived for this record. A single ring lets water spread "
        "sideways and reads high: one test is a sign, not a rate of the whole surface."
    )
    return make_record("infiltration", "Infiltration tests", fields, rows, note=note)


def _ring_words(test: InfiltrationTest, figures: Figures) -> str:
    driven = f", driven {figures.depth(test.driven_nm)}" if test.driven_nm else ""
    return f"{test.method.replace('_', ' ')} {figures.depth(test.inner_nm)} inside{driven}"


def _rate(one: RingTest, figures: Figures) -> RecordCell:
    if one.result is None:
        return RecordCell("-", None)
    value = number(Measure.DEPTH, one.result.rate_nm_per_h, figures.is_us)
    return RecordCell("-" if value is None else f"{value:.2f}", value)


def _worked(one: RingTest, figures: Figures) -> str:
    """The arithmetic with its figures, so that it can be done again by hand."""
    if one.result is None:
        return one.refused
    steady = one.result.intervals[one.result.steady_from :]
    time_s = steady[-1].to_s - steady[0].from_s
    fall = number(Measure.DEPTH, sum(part.drop_nm for part in steady), figures.is_us) or 0.0
    unit = unit_of(Measure.DEPTH, figures.is_us)
    still = "" if one.result.is_steady else "; not steady yet"
    return f"{fall:.3f} {unit} / {time_s} s x 3600{still}{_column(one, figures)}"


def _column(one: RingTest, figures: Figures) -> str:
    """Conductivity of the soil in the ring, where the test gives one."""
    if one.conductivity_nm_per_h is None:
        return ""
    value = number(Measure.DEPTH, one.conductivity_nm_per_h, figures.is_us) or 0.0
    return f"; column {value:.2f} {unit_of(Measure.DEPTH, figures.is_us)}/h"


def _readings(state: JobState, made: MeasureCells) -> Record:
    """Every reading of every ring, for whoever wants to work it out another way."""
    rows = [
        [
            count_cell(test_number),
            count_cell(reading.after_s),
            _as_read(reading.level_nm, reading.level_typed, made),
            made.of(Measure.DEPTH, reading.refilled_to_nm),
        ]
        for test_number, one in enumerate(ring_tests(state), start=1)
        for reading in one.test.readings
    ]
    fields = [
        Field("test", "test", 8, is_number=True),
        Field("after", "after, s", 16, "s", is_number=True),
        made.field("level", Measure.DEPTH, "level", 18),
        made.field("refilled_to", Measure.DEPTH, "filled up to", 24),
    ]
    return make_record("ring_readings", "Readings of the rings", fields, rows)


def _top_ups(state: JobState, made: MeasureCells) -> Record:
    rows = []
    for entry in current_of(state, SAND_TOP_UP):
        body = entry.body
        measure, amount = (Measure.MASS, body.mass_ug)
        if body.volume_pl is not None:
            measure, amount = Measure.VOLUME, body.volume_pl
        is_us = made.figures.is_us
        rows.append(
            [
                RecordCell(plain_day(entry.day, is_us), entry.day),
                text_cell(f"{body.surface_id} {line_names(body.line_ids) or 'all over'}"),
                text_cell(body.material_id),
                RecordCell(
                    number_text(measure, amount, made.figures), number(measure, amount, is_us)
                ),
                RecordCell(printed_unit(measure, made.figures), unit_of(measure, is_us)),
                made.of(Measure.DEPTH, body.settled_nm),
                text_cell(body.note),
            ]
        )
    fields = [
        Field("day", "day", 22.5),
        Field("lines", "lines"),
        Field("sand", "sand", 16),
        Field("amount", "amount", 12, is_number=True),
        Field("unit", "unit", 6),
        made.field("settled", Measure.DEPTH, "had sunk", 16),
        Field("note", "remarks", 23),
    ]
    return make_record("top_ups", "Sand topped up", fields, rows)


def _repairs(state: JobState, made: MeasureCells) -> Record:
    rows = []
    for entry in current_of(state, REPAIR):
        body = entry.body
        station = "" if body.station_nm is None else made.figures.station(body.station_nm)
        parts = (body.surface_id, body.line_id, body.collector_id, station)
        rows.append(
            [
                RecordCell(plain_day(entry.day, made.figures.is_us), entry.day),
                text_cell(" ".join(part for part in parts if part)),
                text_cell(body.done.replace("_", " ")),
                text_cell(body.why),
                text_cell(body.note),
                text_cell(entry.author),
            ]
        )
    fields = [
        Field("day", "day", 25),
        Field("where", "where", 24),
        Field("done", "done", 17),
        Field("why", "what was wrong"),
        Field("note", "remarks", 26),
        Field("by", "", 0),
    ]
    return make_record("repairs", "Repairs and flushing", fields, rows)


def rain_drawing(state: JobState, width_mm: float) -> Drawing | None:
    """Drawing of observed clearing against the estimate; None where nobody looked."""
    stories = rain_stories(state)
    days = {one.entry.id: clock_words(one.entry, one.rain.stopped_ms)[5:10] for one in stories}
    rows = plot_rows(stories, days)
    return draw_rain_plot(rows, width_mm) if rows else None
