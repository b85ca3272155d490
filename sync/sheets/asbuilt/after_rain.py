"""After the rain: how it fell and cleared, ring tests, sand topped up, repairs."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from fractions import Fraction

from models.entries.after_rain import InfiltrationTest, LevelReading, Rain, Repair, SandTopUp
from models.entries.envelope import Entry
from models.figures import Figures
from models.job_state import JobState
from models.units import show_duration
from sync.sheets.asbuilt.record import Field, Figure, Item, Record, counted, record, said
from sync.sheets.day_facts import figures_for
from sync.sheets.entry_words import line_names
from sync.sheets.measures import Measure, bare, number, plain_day, printed_unit, unit_of
from sync.sheets.safe_text import one_line
from sync.sheets.slit_facts import current_of

_SEEN = {"standing_water": "water stands", "clear": "no water stands", "playable": "fit to play on"}
_S_PER_H = 3600
_EPOCH = datetime(1970, 1, 1, tzinfo=UTC)


def after_rain_section(state: JobState) -> tuple[Record, ...]:
    """Tables of everything that was written down after the work, in the order they are read."""
    made = Figure(figures_for(state))
    return (
        _rains(state, made),
        _seen(state, made),
        _tests(state, made),
        _readings(state, made),
        _top_ups(state, made),
        _repairs(state, made),
    )


def has_any(section: tuple[Record, ...]) -> bool:
    """Whether anything was written down after the work."""
    return any(one.rows for one in section)


def clock_words(entry: Entry, ms: int) -> str:
    """A moment on the wall where an entry was written."""
    at = _EPOCH + timedelta(minutes=ms // 60_000 + entry.offset_min)
    return at.strftime("%Y-%m-%d %H:%M")


def _rains(state: JobState, made: Figure) -> Record:
    rows = []
    for entry in current_of(state, "rain"):
        rain = entry.body
        if not isinstance(rain, Rain):
            continue
        began, lasted = "-", None
        if rain.began_ms is not None:
            began = clock_words(entry, rain.began_ms)
            lasted = (rain.stopped_ms - rain.began_ms) // 60_000
        rows.append(
            [
                said(began),
                said(clock_words(entry, rain.stopped_ms)),
                Item("-" if lasted is None else show_duration(lasted), lasted),
                _as_read(rain.depth_nm, rain.depth_typed, made),
                said(", ".join(part for part in (rain.gauge, rain.note) if part)),
            ]
        )
    fields = [
        Field("began", "began", 25),
        Field("stopped", "stopped", 25),
        Field("lasted", "lasted", 15, "min", is_number=True),
        made.field("depth", Measure.DEPTH, "depth", 14),
        Field("gauge", "gauge, remarks"),
    ]
    return record("rain", "Rains", fields, rows)


def _seen(state: JobState, made: Figure) -> Record:
    """How surfaces cleared, each sighting with the time since the last rain before it stopped."""
    stops = sorted(body.stopped_ms for body in state.bodies("rain"))
    rows = []
    for entry in sorted(current_of(state, "surface_seen"), key=lambda one: one.lc):
        body = entry.body
        seen_ms = getattr(body, "seen_ms", 0)
        before = [stop for stop in stops if stop <= seen_ms]
        since = (seen_ms - before[-1]) // 60_000 if before else None
        rows.append(
            [
                said(getattr(body, "surface_id", "")),
                said(getattr(body, "plot", "") or "all of it"),
                said(clock_words(entry, seen_ms)),
                Item("-" if since is None else show_duration(since), since),
                said(_SEEN.get(getattr(body, "condition", ""), "")),
                said(getattr(body, "note", "")),
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
    return record("surface_seen", "How it cleared", fields, rows)


def _as_read(nm: int, typed: str, made: Figure) -> Item:
    """A reading as it was typed where that is kept, since it is finer than a tape is read."""
    cell = made.of(Measure.DEPTH, nm)
    return Item(one_line(typed), cell.value) if typed else cell


def _tests(state: JobState, made: Figure) -> Record:
    rows = []
    for number_, (entry, test) in enumerate(_ring_tests(state), start=1):
        fall_nm, time_s = fallen(test.readings)
        ring = f"{test.method.replace('_', ' ')} {made.figures.depth(test.inner_nm)} inside"
        driven = f", driven {made.figures.depth(test.driven_nm)}" if test.driven_nm else ""
        rows.append(
            [
                counted(number_),
                Item(plain_day(entry.day, made.figures.is_us), entry.day),
                said(f"{test.surface_id} {test.where}".strip() + f", {test.when} the work"),
                said(ring + driven),
                _rate(fall_nm, time_s, made.figures),
                said(_worked(fall_nm, time_s, made.figures)),
            ]
        )
    unit = "in_per_h" if made.figures.is_us else "mm_per_h"
    fields = [
        Field("test", "test", 6, is_number=True),
        Field("day", "day", 23),
        Field("where", "where"),
        Field("ring", "ring", 21),
        Field("rate", f"rate, {unit.replace('_per_', '/')}", 13, unit, is_number=True),
        Field("arithmetic", "worked out", 25),
    ]
    note = (
        "Rate: water that left the ring over the time it took, refills taken out. A ring wets a "
        "small place, and a single ring also feeds the ground beside it: one test is a sign, "
        "not a rate of the whole surface."
    )
    return record("infiltration", "Infiltration tests", fields, rows, note=note)


def _ring_tests(state: JobState) -> list[tuple[Entry, InfiltrationTest]]:
    return [
        (entry, entry.body)
        for entry in current_of(state, "infiltration_test")
        if isinstance(entry.body, InfiltrationTest)
    ]


def fallen(readings: tuple[LevelReading, ...]) -> tuple[int, int]:
    """Water that left a ring in all, in nm, and over how many seconds; a refill starts anew."""
    fall_nm, level_nm = 0, _level_after(readings[0])
    for reading in readings[1:]:
        fall_nm += level_nm - reading.level_nm
        level_nm = _level_after(reading)
    return fall_nm, readings[-1].after_s - readings[0].after_s


def _level_after(reading: LevelReading) -> int:
    refilled = reading.refilled_to_nm
    return reading.level_nm if refilled is None else refilled


def _rate(fall_nm: int, time_s: int, figures: Figures) -> Item:
    if time_s <= 0:
        return Item("-", None)
    per_h = Fraction(fall_nm * _S_PER_H, time_s)
    value = number(Measure.DEPTH, per_h, figures.is_us)
    return Item("-" if value is None else f"{value:.1f}", value)


def _worked(fall_nm: int, time_s: int, figures: Figures) -> str:
    """The arithmetic with its figures, so that it can be done again by hand."""
    unit = unit_of(Measure.DEPTH, figures.is_us)
    fall = number(Measure.DEPTH, fall_nm, figures.is_us) or 0.0
    return f"{fall:.3f} {unit} / {time_s} s x 3600"


def _readings(state: JobState, made: Figure) -> Record:
    """Every reading of every ring, for whoever wants to work it out another way."""
    rows = [
        [
            counted(test_number),
            counted(reading.after_s),
            _as_read(reading.level_nm, reading.level_typed, made),
            made.of(Measure.DEPTH, reading.refilled_to_nm),
        ]
        for test_number, (_, test) in enumerate(_ring_tests(state), start=1)
        for reading in test.readings
    ]
    fields = [
        Field("test", "test", 8, is_number=True),
        Field("after", "after, s", 16, "s", is_number=True),
        made.field("level", Measure.DEPTH, "level", 18),
        made.field("refilled_to", Measure.DEPTH, "filled up to", 24),
    ]
    return record("ring_readings", "Readings of the rings", fields, rows)


def _top_ups(state: JobState, made: Figure) -> Record:
    rows = []
    for entry in current_of(state, "sand_top_up"):
        body = entry.body
        if not isinstance(body, SandTopUp):
            continue
        measure, amount = (Measure.MASS, body.mass_ug)
        if body.volume_pl is not None:
            measure, amount = Measure.VOLUME, body.volume_pl
        is_us = made.figures.is_us
        rows.append(
            [
                Item(plain_day(entry.day, is_us), entry.day),
                said(f"{body.surface_id} {line_names(body.line_ids) or 'all over'}"),
                said(body.material_id),
                Item(bare(measure, amount, made.figures), number(measure, amount, is_us)),
                Item(printed_unit(measure, made.figures), unit_of(measure, is_us)),
                made.of(Measure.DEPTH, body.settled_nm),
                said(body.note),
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
    return record("top_ups", "Sand topped up", fields, rows)


def _repairs(state: JobState, made: Figure) -> Record:
    rows = []
    for entry in current_of(state, "repair"):
        body = entry.body
        if not isinstance(body, Repair):
            continue
        station = "" if body.station_nm is None else made.figures.station(body.station_nm)
        parts = (body.surface_id, body.line_id, body.collector_id, station)
        rows.append(
            [
                Item(plain_day(entry.day, made.figures.is_us), entry.day),
                said(" ".join(part for part in parts if part)),
                said(body.done.replace("_", " ")),
                said(body.why),
                said(body.note),
                said(entry.author),
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
    return record("repairs", "Repairs and flushing", fields, rows)
