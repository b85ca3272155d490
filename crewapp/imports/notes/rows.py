"""The kinds of row that typed-up field notes may hold, and their columns."""

from __future__ import annotations

from crewapp.imports.notes.after_rows import AFTER_ROWS
from crewapp.imports.notes.body_rows import row_of
from crewapp.imports.notes.cells import (
    Cell,
    RowKind,
    a_day,
    amount,
    bare,
    choice,
    grade,
    measured,
    minutes,
    text,
    time_of_day,
    yes_no,
)
from crewapp.imports.notes.instrument_rows import INSTRUMENT_ROWS
from models.entries.bodies.passes import (
    PassCut,
    PipeLaid,
    Probe,
    SandPlaced,
    TurfStrip,
    WateredIn,
)
from models.plan.collector import LAYER_ORDER

ALWAYS = ("day", "entry")
"""Columns that every row fills."""


_COLLECTOR = Cell("collector", text("collector_id"), needed=True)
_SETUP = Cell("setup", text("setup_id"), needed=True)
_FROM = Cell("from", bare(measured("from", "station")), needed=True)
_TO = Cell("to", bare(measured("to", "station")), needed=True)
_MATERIAL = Cell("material", text("material_id"), needed=True)
_NOTE = Cell("note", text("note"))
_MOISTURE = Cell("moisture", choice("moisture", "dry", "damp", "wet"))
_RUN = Cell("run", minutes("run_min"), needed=True)
_IDLE = Cell("idle", minutes("idle_min"))
_DOWN = Cell("down", minutes("down_min"))
_SAND_AMOUNT = Cell("amount", amount("mass", "volume"), needed=True)

ROWS: tuple[RowKind, ...] = (
    row_of("pass", PassCut),
    row_of("probe", Probe),
    row_of("turf", TurfStrip),
    row_of("sand", SandPlaced, after={"material_id": _SAND_AMOUNT}),
    row_of("watered", WateredIn),
    row_of("pipe", PipeLaid),
    RowKind(
        "delivery",
        "delivery",
        (
            _MATERIAL,
            Cell("ticket", text("ticket")),
            Cell("amount", amount("mass", "volume", "length"), needed=True),
            Cell("coil", text("coil_id")),
            _MOISTURE,
            _NOTE,
        ),
    ),
    RowKind(
        "spoil",
        "spoil",
        (
            Cell("surface", text("surface_id")),
            Cell("amount", measured("volume", "volume"), needed=True),
            Cell("where", text("to")),
        ),
    ),
    RowKind(
        "setup",
        "setup",
        (
            _SETUP,
            Cell("collector", text("collector_id")),
            Cell("point", text("on_point"), needed=True),
            Cell("reading", measured("backsight", "level")),
            Cell("grade", grade),
            Cell("station", bare(measured("at_station", "station"))),
            Cell("instrument", text("instrument_id")),
        ),
    ),
    RowKind(
        "turning point",
        "turning_point",
        (
            _SETUP,
            Cell("point", text("point_id"), needed=True),
            Cell("reading", measured("foresight", "level"), needed=True),
        ),
    ),
    RowKind(
        "check shot",
        "check_shot",
        (
            _SETUP,
            Cell("point", text("on_point"), needed=True),
            Cell("reading", measured("reading", "level"), needed=True),
        ),
    ),
    RowKind(
        "shot",
        "grade_shot",
        (
            _SETUP,
            _COLLECTOR,
            Cell("station", measured("station", "station"), needed=True),
            Cell(
                "on",
                choice("on", "trench_floor", "bedding", "invert", "obvert", "ground", "hub"),
                needed=True,
            ),
            Cell("reading", measured("reading", "level"), needed=True),
        ),
    ),
    RowKind(
        "layer",
        "layer_check",
        (
            _COLLECTOR,
            _FROM,
            _TO,
            Cell("layer", choice("layer", *LAYER_ORDER), needed=True),
            Cell("thickness", measured("thickness", "depth")),
            Cell("continuous", yes_no("continuous")),
            _NOTE,
        ),
    ),
    RowKind(
        "hold point",
        "hold_point",
        (_COLLECTOR, _FROM, _TO, Cell("by", text("released_by"), needed=True), _NOTE),
    ),
    RowKind(
        "protection",
        "trench_protection",
        (
            _COLLECTOR,
            _FROM,
            _TO,
            Cell("depth", measured("depth", "depth"), needed=True),
            Cell(
                "step",
                choice(
                    "protection", "sloped", "shored", "shield", "nobody_enters", "judged_stable"
                ),
                needed=True,
            ),
            Cell("by", text("judged_by"), needed=True),
        ),
    ),
    RowKind(
        "utility",
        "utility",
        (
            Cell("step", choice("event", "found", "hit"), needed=True),
            Cell("what", text("what"), needed=True),
            Cell("where", text("where"), needed=True),
            Cell("depth", measured("depth", "depth")),
            Cell("note", text("action")),
        ),
    ),
    RowKind(
        "crew",
        "hours",
        (Cell("who", text("who"), needed=True), _RUN, _IDLE, _DOWN, _NOTE),
        (("of", "person"),),
    ),
    RowKind(
        "machine",
        "hours",
        (Cell("who", text("who"), needed=True), _RUN, _IDLE, _DOWN, _NOTE),
        (("of", "machine"),),
    ),
    RowKind(
        "weather",
        "weather",
        (
            Cell(
                "sky", choice("sky", "clear", "cloud", "rain", "storm", "fog", "snow"), needed=True
            ),
            Cell(
                "ground",
                choice("ground", "dry", "firm", "soft", "wet", "standing_water"),
                needed=True,
            ),
            Cell("rain", measured("rain", "depth")),
            Cell("note", text("wind")),
        ),
    ),
    RowKind(
        "delay",
        "delay",
        (
            Cell("what", text("cause"), needed=True),
            Cell("start", time_of_day("start_min")),
            Cell("lost", minutes("lost_min"), needed=True),
            _NOTE,
        ),
    ),
    RowKind(
        "note",
        "note",
        (Cell("note", text("text"), needed=True), Cell("owner", yes_no("needs_owner"))),
    ),
    RowKind(
        "locate ticket",
        "locate_ticket",
        (
            Cell("ticket", text("ticket"), needed=True),
            Cell("where", text("covers")),
            Cell("valid from", a_day("valid_from"), needed=True),
            Cell("expires on", a_day("expires_on"), needed=True),
        ),
    ),
    RowKind(
        "benchmark",
        "benchmark",
        (
            Cell("point", text("benchmark_id"), needed=True),
            Cell("reading", measured("elevation", "level"), needed=True),
            Cell("where", text("where")),
        ),
    ),
    *INSTRUMENT_ROWS,
    *AFTER_ROWS,
)

BY_WORD: dict[str, RowKind] = {row.word: row for row in ROWS}

COLUMNS: tuple[str, ...] = (
    *ALWAYS,
    *dict.fromkeys(cell.column for row in ROWS for cell in row.cells),
)
"""Every column that typed-up notes may have, in the order they are met."""
