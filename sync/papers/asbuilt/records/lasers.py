"""Tables of the lasers and levels that the job was shot with, and of their peg tests."""

from __future__ import annotations

from models.entries.bodies.instruments import Instrument, InstrumentEvent
from models.entries.index import EntryKind
from models.entries.kind_names import INSTRUMENT, INSTRUMENT_EVENT, PEG_TEST
from models.queries.levelling.peg_tests import JudgedTest, peg_tests_of
from models.state.job_state import JobState
from models.units.job_units import Figures
from sync.papers.day.facts.lasers import error_words
from sync.papers.day.facts.slits import current_of
from sync.papers.tables.record_table import (
    Field,
    MeasureCells,
    Record,
    RecordCell,
    Row,
    make_record,
    text_cell,
)
from sync.papers.wording.entry_text import body_text, moment_of
from sync.papers.wording.measures import Measure, printed_unit

_MILLION = 1_000_000


def laser_records(state: JobState, made: MeasureCells) -> tuple[Record, ...]:
    """The instruments and their peg tests; nothing on a job that lists no instrument."""
    if not state.every_name(INSTRUMENT):
        return ()
    return instrument_record(state, made.figures), peg_record(state, made)


_KINDS: tuple[EntryKind[Instrument | InstrumentEvent], ...] = (INSTRUMENT, INSTRUMENT_EVENT)


def instrument_record(state: JobState, figures: Figures) -> Record:
    """Every laser and level with what befell it, in the order of the book."""
    rows = [
        [
            text_cell(entry.body.instrument_id),
            text_cell(body_text(entry.body, figures)),
            text_cell(f"{entry.author}, {moment_of(entry, figures)}"),
        ]
        for kind in _KINDS
        for entry in current_of(state, kind)
    ]
    fields = [
        Field("instrument", "laser", 24),
        Field("about", "about"),
        Field("by", "by, when", 38),
    ]
    return make_record("instruments", "Lasers and levels", fields, rows)


def peg_record(state: JobState, made: MeasureCells) -> Record:
    """Every peg test with its readings, the error it shows, and whether that may be."""
    tests = [test for name in state.every_name(PEG_TEST) for test in peg_tests_of(state, name)]
    level, length = (printed_unit(one, made.figures) for one in (Measure.LEVEL, Measure.LENGTH))
    fields = [
        Field("instrument", "laser", 15),
        Field("day", "day", 21),
        Field("midway", f"midway A, B {level}", 19),
        Field("end", f"then A, B {level}", 19),
        Field("distances", f"to A, B {length}", 20),
        Field("shows", "the line of sight"),
        *(made.field(name, Measure.LEVEL, "", 0) for name in ("midway_a", "midway_b")),
        *(made.field(name, Measure.LEVEL, "", 0) for name in ("end_a", "end_b")),
        *(made.field(name, Measure.LENGTH, "", 0) for name in ("to_a", "to_b")),
        Field("error_millionths", is_number=True),
        Field("by"),
    ]
    note = "Two pegs, read from midway and then from close to B. A rising line reads too high."
    return make_record(
        "peg_tests", "Peg tests", fields, [_row(one, made) for one in tests], note=note
    )


def _row(test: JudgedTest, made: MeasureCells) -> Row:
    seen, figures = test.test, made.figures
    verdict = "may stand" if test.is_good else f"OUT, {figures.sight_error(test.limit)} allowed"
    millionths = round(float(test.error * _MILLION), 3)
    mid = [made.of(Measure.LEVEL, one) for one in (seen.mid_a_nm, seen.mid_b_nm)]
    end = [made.of(Measure.LEVEL, one) for one in (seen.end_a_nm, seen.end_b_nm)]
    far = [made.of(Measure.LENGTH, one) for one in (seen.to_a_nm, seen.to_b_nm)]
    return Row(
        (
            text_cell(seen.instrument_id),
            text_cell(figures.day(test.entry.day)),
            _pair(mid),
            _pair(end),
            _pair(far),
            text_cell(f"{error_words(test, figures)}: {verdict}"),
            *mid,
            *end,
            *far,
            RecordCell(f"{millionths:g}", millionths),
            text_cell(f"{test.entry.author}, {moment_of(test.entry, figures)}"),
        ),
        is_heavy=not test.is_good,
    )


def _pair(items: list[RecordCell]) -> RecordCell:
    """Two figures in one cell of the paper; the workbook has each in a column of its own."""
    return text_cell(", ".join(item.shown for item in items))
