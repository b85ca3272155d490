"""Tables of the work itself: passes, probes, grade shots."""

from __future__ import annotations

from sync.papers.day.facts.day import DaySheet
from sync.papers.tables.cells import Cell, Column, Sheet, Table, table
from sync.papers.wording.measures import Measure, number


def passes(day: DaySheet, made: Sheet) -> Table:
    """Table of the passes of a day, a row each."""
    rows: list[list[Cell]] = [
        [
            one.at,
            one.pass_id,
            one.surface_id,
            " ".join(one.line_ids),
            one.machine_id,
            made.length(one.length_nm),
            one.length_typed,
            made.length(one.cut_nm),
            made.depth(one.shift_nm),
            one.run_min,
            made.of(Measure.VOLUME, one.due_pl),
            made.of(Measure.VOLUME, one.sand_pl),
            made.of(Measure.MASS, one.sand_ug),
            len(one.counted()),
            one.note,
            one.author,
        ]
        for one in day.passes
    ]
    columns: list[Column | str] = ["time", "pass", "surface", "lines", "machine"]
    columns += [made.column("length", Measure.LENGTH), "length_typed"]
    columns += [made.column("cut_today", Measure.LENGTH), made.column("shift", Measure.DEPTH)]
    columns += [Column("run", "min"), made.column("sand_due", Measure.VOLUME)]
    columns += [made.column("sand_placed", Measure.VOLUME)]
    columns += [made.column("sand_placed", Measure.MASS), "probes", "note", "by"]
    return table("passes", columns, rows)


def probes(day: DaySheet, made: Sheet) -> Table:
    """Table of the depth readings of a day, a row each."""
    rows: list[list[Cell]] = [
        [
            one.at,
            one.pass_id,
            one.line_id,
            made.length(one.along_nm),
            made.depth(one.depth_nm),
            one.depth_typed,
            made.depth(one.width_nm),
            one.width_typed,
            made.depth(one.low_nm),
            made.depth(one.high_nm),
            one.verdict.value,
            "yes" if one.is_newest else "no, read again",
            one.author,
        ]
        for cut in day.passes
        for one in cut.probes
    ]
    columns: list[Column | str] = ["time", "pass", "line", made.column("along", Measure.LENGTH)]
    columns += [made.column("depth", Measure.DEPTH), "depth_typed"]
    columns += [made.column("width", Measure.DEPTH), "width_typed"]
    columns += [made.column(name, Measure.DEPTH) for name in ("limit_low", "limit_high")]
    return table("probes", [*columns, "verdict", "counts", "by"], rows)


def grade_shots(day: DaySheet, made: Sheet) -> Table:
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
    return table("grade shots", columns, rows)
