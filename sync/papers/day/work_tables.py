"""Tables of the work itself: passes, probes, grade shots."""

from __future__ import annotations

from models.entries.bodies.passes import PassCut, Probe
from sync.papers.day.facts.day import DaySheet
from sync.papers.day.facts.slits import PassLine, ProbeLine
from sync.papers.tables.body_columns import TableColumn, body_table, column_of, with_late_columns
from sync.papers.tables.cells import Cell, CellMaker, Column, Table, table
from sync.papers.wording.measures import Measure, number


def passes(day: DaySheet, made: CellMaker) -> Table:
    """Table of the passes of a day: as written, and what was worked out of them."""
    length, volume, mass = Measure.LENGTH, Measure.VOLUME, Measure.MASS
    cut: TableColumn[PassLine] = TableColumn(
        made.column("cut_today", length), lambda one: made.length(one.cut_nm)
    )
    sand: list[TableColumn[PassLine]] = [
        TableColumn(made.column("sand_due", volume), lambda one: made.of(volume, one.due_pl)),
        TableColumn(made.column("sand_placed", volume), lambda one: made.of(volume, one.sand_pl)),
        TableColumn(made.column("sand_placed", mass), lambda one: made.of(mass, one.sand_ug)),
        column_of("probes", lambda one: len(one.probes_that_count())),
    ]
    return body_table(
        "passes",
        made,
        PassCut,
        [(one, one.body) for one in day.passes],
        first=[column_of("time", lambda one: one.at)],
        after={
            "length_typed": [cut],
            "run_min": sand,
            "note": [column_of("by", lambda one: one.author)],
        },
    )


def pieces(day: DaySheet, made: CellMaker) -> Table:
    """Table of the pieces that the passes of a day cut, with what each counts for."""
    length = Measure.LENGTH
    counts = ("done", "again", "beyond", "off_plan")
    columns: list[Column | str] = ["pass", "line", "leg"]
    columns += [made.column(name, length) for name in ("from", "to", "length")]
    columns += ["rests_on", *(made.column(name, length) for name in counts)]
    rows: list[list[Cell]] = [
        [
            cut.body.pass_id,
            one.piece.line_id,
            one.piece.leg or None,
            made.length(one.piece.from_nm),
            made.length(one.piece.to_nm),
            made.length(one.piece.length_nm),
            RESTS_ON[one.piece.by],
            *(made.length(length_nm) for length_nm in one.share),
        ]
        for cut in day.passes
        if cut.is_cut_today
        for one in cut.pieces
    ]
    return table("pieces", columns, rows)


RESTS_ON = {
    "measured": "measured",
    "drive": "length of the drive",
    "plan": "stakes of the plan",
    "old": "one length for every leg",
}
"""What the length of a piece rests on, in words."""


def probes(day: DaySheet, made: CellMaker) -> Table:
    """Table of the depth readings of a day: as written, and how they were judged."""
    limits: list[TableColumn[ProbeLine]] = [
        TableColumn(made.column("limit_low", Measure.DEPTH), lambda one: made.depth(one.low_nm)),
        TableColumn(made.column("limit_high", Measure.DEPTH), lambda one: made.depth(one.high_nm)),
    ]
    judged: list[TableColumn[ProbeLine]] = [
        column_of("verdict", lambda one: one.verdict.value),
        column_of("counts", lambda one: "yes" if one.is_newest else "no, read again"),
        column_of("by", lambda one: one.author),
    ]
    return body_table(
        "probes",
        made,
        Probe,
        [(one, one.body) for cut in day.passes for one in cut.probes],
        first=[column_of("time", lambda one: one.at)],
        after={"width_typed": [*limits, *judged]},
    )


def grade_shots(day: DaySheet, made: CellMaker) -> Table:
    """Table of the grade shots of a day, reduced, a row each."""
    is_us, figures = made.is_us, day.figures
    rows: list[list[Cell]] = [
        [
            one.at,
            one.collector_id,
            figures.station(one.station_nm),
            made.length(one.station_nm),
            one.on.replace("_", " "),
            number(Measure.LEVEL, one.reading_nm, is_us),
            one.reading_typed,
            number(Measure.LEVEL, one.elevation_nm, is_us),
            number(Measure.LEVEL, one.design_nm, is_us),
            number(Measure.OFF, one.off_nm, is_us),
            one.verdict.value,
            one.setup_id,
            one.author,
        ]
        for one in day.shots
    ]
    columns: list[Column | str] = ["time", "collector", "station"]
    columns += [made.column("station", Measure.LENGTH), "on"]
    columns += [made.column("rod", Measure.LEVEL), "rod_typed"]
    columns += [made.column(name, Measure.LEVEL) for name in ("elevation", "design")]
    columns += [made.column("off", Measure.OFF), "verdict", "setup", "by"]
    shots = table("grade shots", columns, rows)
    return with_late_columns(shots, made, [one.body for one in day.shots])
