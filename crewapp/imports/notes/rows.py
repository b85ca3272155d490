"""The kinds of row that typed-up field notes may hold, and their columns."""

from __future__ import annotations

from crewapp.imports.notes.after_rows import AFTER_ROWS
from crewapp.imports.notes.body_rows import row_of
from crewapp.imports.notes.cells import (
    Cell,
    RowKind,
    amount,
    choice,
    grade,
    lines_of_pass,
)
from models.entries.bodies.blades import BladeSet
from models.entries.bodies.collector_work import HoldPoint, LayerCheck, TrenchProtection, UtilityMet
from models.entries.bodies.day import Delay, Hours, Note, Weather
from models.entries.bodies.instruments import Instrument, InstrumentEvent, PegTest
from models.entries.bodies.job import Benchmark, LocateTicket
from models.entries.bodies.levels import CheckShot, GradeShot, LaserSetup, TurningPoint
from models.entries.bodies.loads import Delivery, SpoilAway
from models.entries.bodies.passes import (
    PassCut,
    PipeLaid,
    Probe,
    SandPlaced,
    TurfStrip,
    WateredIn,
)

ALWAYS = ("day", "entry")
"""Columns that every row fills."""


_SAND_AMOUNT = Cell("amount", amount("mass", "volume"), needed=True)
_LOAD_AMOUNT = Cell("amount", amount("mass", "volume", "length"), needed=True)
_PROTECTION = Cell(
    "step",
    choice("protection", "sloped", "shored", "shield", "nobody_enters", "judged_stable"),
    needed=True,
)

ROWS: tuple[RowKind, ...] = (
    row_of("pass", PassCut, instead={"line_ids": Cell("lines", lines_of_pass, needed=True)}),
    row_of("probe", Probe),
    row_of("turf", TurfStrip),
    row_of("sand", SandPlaced, after={"material_id": _SAND_AMOUNT}),
    row_of("watered", WateredIn),
    row_of("pipe", PipeLaid),
    row_of("delivery", Delivery, after={"ticket": _LOAD_AMOUNT}),
    row_of("spoil", SpoilAway),
    row_of("setup", LaserSetup, after={"backsight_nm": Cell("grade", grade)}),
    row_of("turning point", TurningPoint),
    row_of("check shot", CheckShot),
    row_of("shot", GradeShot),
    row_of("layer", LayerCheck),
    row_of("hold point", HoldPoint),
    row_of("protection", TrenchProtection, instead={"protection": _PROTECTION}),
    row_of("utility", UtilityMet),
    row_of("crew", Hours, fixed=(("of", "person"),)),
    row_of("machine", Hours, fixed=(("of", "machine"),)),
    row_of("weather", Weather),
    row_of("delay", Delay),
    row_of("note", Note),
    row_of("blade", BladeSet),
    row_of("locate ticket", LocateTicket),
    row_of("benchmark", Benchmark),
    row_of("instrument", Instrument),
    row_of("instrument event", InstrumentEvent),
    row_of("peg test", PegTest),
    *AFTER_ROWS,
)

BY_WORD: dict[str, RowKind] = {row.word: row for row in ROWS}

COLUMNS: tuple[str, ...] = (
    *ALWAYS,
    *dict.fromkeys(cell.column for row in ROWS for cell in row.cells),
)
"""Every column that typed-up notes may have, in the order they are met."""
