"""Tables of the job as a whole: its heading, quantities against the plan, days of work."""

from __future__ import annotations

from models.entries.bodies.job import Benchmark
from models.entries.kind_names import BENCHMARK
from models.queries.schedule.worked_days import worked_days
from models.state.check_code import check_code
from models.state.job_state import JobState
from models.units.job_units import Figures
from sync.papers.asbuilt.records.heading import PLACES_ARE, STATEMENT, UNSOUND, Heading
from sync.papers.day.facts.crew import signatures_of
from sync.papers.day.facts.day import sheet_number
from sync.papers.day.facts.quantities import quantities_of
from sync.papers.tables.record_table import (
    Field,
    MeasureCells,
    Record,
    RecordCell,
    count_cell,
    make_record,
    text_cell,
)
from sync.papers.wording.measures import (
    Measure,
    number,
    number_text,
    percent,
    plain_day,
    printed_unit,
    unit_of,
)

EVER = "9999-12-31"
"""A day after every other: what was done to date is then all that was done."""


def job_record(head: Heading) -> Record:
    """The heading as a table of facts; on paper it stands on the first sheet instead."""
    facts = [
        ("job", head.job),
        ("job_id", head.job_id),
        ("site", head.site),
        ("owner", head.owner),
        ("contractor", head.contractor),
        ("days_of_work", head.worked),
        ("datum", head.datum),
        ("plan_coordinates", head.plane),
        ("statement", STATEMENT),
        ("places", PLACES_ARE),
        ("check_code", head.code),
        ("entries", f"{head.entries}"),
        *([] if head.is_sound else [("book", UNSOUND)]),
    ]
    fields = [Field("fact"), Field("value")]
    return make_record(
        "job", "Job", fields, [[text_cell(name), text_cell(value)] for name, value in facts]
    )


def quantity_record(state: JobState, figures: Figures) -> Record:
    """Planned, placed and the difference, item by item."""
    rows = []
    for one in quantities_of(state, EVER):
        unit = RecordCell(printed_unit(one.measure, figures), unit_of(one.measure, figures.is_us))
        more = None if one.plan is None else one.to_date - one.plan
        shares = "-" if not one.plan else percent(one.to_date, one.plan)
        amounts = [one.plan, one.to_date, more]
        cells = [
            RecordCell(
                number_text(one.measure, each, figures), number(one.measure, each, figures.is_us)
            )
            for each in amounts
        ]
        rows.append([text_cell(one.item), unit, *cells, text_cell(shares)])
    fields = [
        Field("item", "item"),
        Field("unit", "unit", 8),
        Field("planned", "planned", 17, is_number=True),
        Field("placed", "placed", 17, is_number=True),
        Field("difference", "difference", 17, is_number=True),
        Field("share", "placed", 12, is_number=True),
    ]
    note = "Difference is placed less planned: below nothing where less was done than planned."
    return make_record(
        "quantities", "Quantities, planned and placed", fields, rows, "Nothing planned.", note
    )


def day_record(state: JobState, figures: Figures) -> Record:
    """Days on which ground was worked, each with its sheet, code and who signed."""
    rows = []
    for day in worked_days(state):
        code = check_code(state, day)
        signed = [
            f"{box.name} ({box.role}){'' if box.is_current else ', entries written since'}"
            for box in signatures_of(state, figures, day, code)
        ]
        state_of = "closed" if state.is_closed(day) else "not closed"
        words = "; ".join(signed) or "not signed"
        rows.append(
            [
                RecordCell(plain_day(day, figures.is_us), day),
                count_cell(sheet_number(state, day)),
                text_cell(code),
                text_cell(f"{state_of}; {words}"),
            ]
        )
    fields = [
        Field("day", "day", 26),
        Field("sheet", "sheet", 8, is_number=True),
        Field("check_code", "check code of the day", 37),
        Field("signed", "signed"),
    ]
    return make_record(
        "days", "Days of work and their sheets", fields, rows, "No ground worked yet."
    )


def benchmark_record(state: JobState, made: MeasureCells) -> Record:
    """Points that heights hang from."""
    rows = []
    for name in state.every_name(BENCHMARK):
        mark = state.latest(BENCHMARK, name)
        if isinstance(mark, Benchmark):
            level = made.of(Measure.LEVEL, mark.elevation_nm)
            rows.append([text_cell(name), level, text_cell(mark.where)])
    fields = [
        Field("benchmark", "benchmark", 18),
        made.field("elevation", Measure.LEVEL, "elevation", 18),
        Field("where", "where"),
    ]
    return make_record("benchmarks", "Benchmarks", fields, rows)
