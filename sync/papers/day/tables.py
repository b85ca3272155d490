"""Tables of a day sheet: one for each section of the printed page."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

from models.units import show_duration
from sync.papers.day.facts.day import CAUTIONS, HOW_TO_PROVE, DaySheet
from sync.papers.day.work_tables import grade_shots, passes, pieces, probes
from sync.papers.tables.body_columns import with_late_columns
from sync.papers.tables.cells import Cell, CellMaker, Column, Table, table
from sync.papers.wording.measures import Measure, left_and_over, number, unit_of, within_limits
from sync.papers.wording.missing_sections import MissingSections


def day_tables(day: DaySheet) -> tuple[Table, ...]:
    """Every table of the sheet, summary first."""
    made = CellMaker(day.figures)
    builders: tuple[tuple[str, Callable[[], Table]], ...] = (
        ("summary", lambda: _summary(day)),
        ("quantities", lambda: _quantities(day)),
        ("quality", lambda: _quality(day, made)),
        ("grades", lambda: _grades(day)),
        ("passes", lambda: passes(day, made)),
        ("pieces", lambda: pieces(day, made)),
        ("probes", lambda: probes(day, made)),
        ("grade_shots", lambda: grade_shots(day, made)),
        ("loads", lambda: _loads(day)),
        ("balance", lambda: _balance(day)),
        ("hours", lambda: _hours(day)),
        ("flags", lambda: _flags(day)),
        ("struck", lambda: _struck(day)),
        ("photos", lambda: _photos(day)),
        ("signatures", lambda: _signatures(day)),
        ("entries", lambda: _entries(day)),
    )
    found = [_made(name, build) for name, build in builders]
    told: list[list[Cell]] = [[text] for text in day.unmade]
    return (*found, *([table("unmade", ["said"], told)] if told else ()))


def _made(name: str, build: Callable[[], Table]) -> Table:
    """A table, or the sentence that it could not be made under its name."""
    made = MissingSections()
    found = made.make_or_notice(name, None, build)
    return found or table(name, ["said"], [[text] for text in made.told])


def _summary(day: DaySheet) -> Table:
    head, bar = day.head, day.bar
    facts: list[list[Cell]] = [
        ["job", head.job],
        ["job_id", head.job_id],
        ["site", head.site],
        ["owner", head.owner],
        ["contractor", head.contractor],
        ["day", head.day],
        ["sheet_number", head.number],
        ["revision", head.revision],
        ["closed", "yes" if head.is_closed else "no"],
        ["status", bar.standing.value],
        ["status_reason", bar.why],
        ["done", bar.done_words],
        ["forecast", bar.finish],
        ["forecast_basis", bar.basis],
        ["check_code", head.code],
        ["how_to_prove", HOW_TO_PROVE],
    ]
    said: list[list[Cell]] = [[f"needs you: {need.kind}", need.said] for need in day.needs]
    said += [[one.label, f"{one.value} ({one.remark})"] for one in day.numbers]
    said += [[f"tomorrow: {plan.what.lower()}", plan.said] for plan in day.tomorrow]
    if day.holding_more:
        said.append(["holds more", day.holding_more])
    said += [["caution", text] for text in CAUTIONS]
    return table("summary", ["fact", "value"], [*facts, *said])


def _quantities(day: DaySheet) -> Table:
    rows: list[list[Cell]] = []
    for one in day.quantities:
        amounts = (one.today, one.to_date, *left_and_over(one.left), one.plan)
        shown: list[Cell] = [number(one.measure, each, day.figures.is_us) for each in amounts]
        rows.append([one.item, unit_of(one.measure, day.figures.is_us), *shown])
    return table("quantities", ["item", "unit", "today", "to_date", "left", "over", "plan"], rows)


def _quality(day: DaySheet, made: CellMaker) -> Table:
    rows: list[list[Cell]] = [
        [
            one.where,
            one.what,
            one.lot.n,
            made.depth(one.lot.least_nm),
            number(Measure.DEPTH, one.lot.mean_nm, day.figures.is_us),
            made.depth(one.lot.most_nm),
            one.lot.inside,
            within_limits(one.lot.percent_within)[1],
            made.depth(one.low_nm),
            made.depth(one.high_nm),
        ]
        for one in day.quality
    ]
    names = ("least", "mean", "most"), ("limit_low", "limit_high")
    first, last = ([made.column(name, Measure.DEPTH) for name in group] for group in names)
    within: list[Column | str] = ["in_tolerance", "percent_within_limits"]
    return table("quality", ["where", "what", "n", *first, *within, *last], rows)


def _grades(day: DaySheet) -> Table:
    is_us = day.figures.is_us
    rows: list[list[Cell]] = [
        [
            one.collector_id,
            one.shot_today,
            one.n,
            one.inside,
            number(Measure.OFF, one.lowest_nm, is_us),
            number(Measure.OFF, one.highest_nm, is_us),
            None if one.grade is None else _percent(one.grade),
            _percent(one.design_grade),
            number(Measure.OFF, -one.low_nm, is_us),
            number(Measure.OFF, one.high_nm, is_us),
        ]
        for one in day.grades
    ]
    off = unit_of(Measure.OFF, is_us)
    columns: list[Column | str] = ["collector", "shot_today", "n", "in_tolerance"]
    columns += [Column("lowest_off", off), Column("highest_off", off)]
    columns += [Column("grade", "percent"), Column("design_grade", "percent")]
    columns += [Column("limit_low", off), Column("limit_high", off)]
    return table("grades", columns, rows)


def _percent(grade: Fraction) -> float:
    return float(round(grade * 100, 4))


def _loads(day: DaySheet) -> Table:
    rows: list[list[Cell]] = [
        [
            one.at,
            one.way,
            one.what,
            one.ticket,
            number(one.measure, one.amount, day.figures.is_us),
            unit_of(one.measure, day.figures.is_us),
            one.amount_typed,
            one.note,
            one.author,
        ]
        for one in day.loads
    ]
    columns: list[Column | str] = ["time", "way", "what", "ticket", "amount", "unit"]
    loads = table("loads", [*columns, "amount_typed", "note", "by"], rows)
    return with_late_columns(loads, CellMaker(day.figures), [one.body for one in day.loads])


def _balance(day: DaySheet) -> Table:
    rows: list[list[Cell]] = []
    for one in day.balances:
        amounts = (one.delivered, one.used, *left_and_over(one.on_hand))
        shown: list[Cell] = [number(one.measure, each, day.figures.is_us) for each in amounts]
        rows.append([one.material_id, unit_of(one.measure, day.figures.is_us), *shown])
    return table("balance", ["material", "unit", "delivered", "used", "on_hand", "over"], rows)


def _hours(day: DaySheet) -> Table:
    minutes: list[Column | str] = [Column(name, "min") for name in ("run", "idle", "down")]
    rows: list[list[Cell]] = [
        [
            one.of,
            one.who,
            one.run_min,
            one.idle_min,
            one.down_min,
            show_duration(one.run_min),
            one.note,
        ]
        for one in day.hours
    ]
    hours = table("hours", ["of", "who", *minutes, "run_words", "note"], rows)
    return with_late_columns(hours, CellMaker(day.figures), [one.body for one in day.hours])


def _flags(day: DaySheet) -> Table:
    rows: list[list[Cell]] = [
        [one.severity.value, one.day, one.said, one.cure, one.answer or "open", one.by, one.why]
        for one in day.flags
    ]
    return table("flags", ["weight", "day", "flag", "cure", "answer", "by", "why"], rows)


def _struck(day: DaySheet) -> Table:
    rows: list[list[Cell]] = [
        [one.at, one.kind, one.said, one.reason, one.by, one.instead] for one in day.struck
    ]
    return table("struck", ["time", "kind", "struck", "reason", "by", "stands_instead"], rows)


def _photos(day: DaySheet) -> Table:
    rows: list[list[Cell]] = [
        [one.number, one.caption, one.where, one.sha256] for one in day.photos
    ]
    return table("photos", ["number", "caption", "where", "sha256"], rows)


def _signatures(day: DaySheet) -> Table:
    rows: list[list[Cell]] = [
        [
            one.role,
            one.name,
            one.says,
            one.at,
            len(one.strokes),
            one.check_code,
            "yes" if one.is_current else "no",
        ]
        for one in day.signatures
    ]
    columns: list[Column | str] = ["role", "name", "says", "signed_at", "strokes", "check_code"]
    return table("signatures", [*columns, "over_present_entries"], rows)


def _entries(day: DaySheet) -> Table:
    rows: list[list[Cell]] = [
        [
            one.at,
            one.title,
            one.said,
            one.author,
            "struck" if one.is_struck else "stands",
            one.entry_id,
        ]
        for one in day.entries
    ]
    return table("entries", ["time", "kind", "said", "by", "standing", "entry"], rows)
