"""Rows of typed-up notes for lasers and levels: which there are, what befell them, peg tests."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

from crewapp.imports.notes.cells import (
    Cell,
    CellError,
    RowKind,
    a_day,
    choice,
    count,
    read_quantity,
    text,
    without_typed_text,
)
from models.units.job_units import Figures

_INSTRUMENT = Cell("instrument", text("instrument_id"), needed=True)
_NOTE = Cell("note", text("note"))
_LARGEST_ASEC10 = 36_000
"""A degree: no plane is stated worse."""


def arc_seconds(typed: str, _: Figures) -> dict[str, Any]:
    """Read a stated error in arc seconds, to the tenth."""
    forms = "arc seconds to the tenth, such as 10 or 7.5"
    try:
        tenths = Fraction(typed.strip()) * 10
    except (ValueError, ZeroDivisionError):
        raise CellError("is no number of arc seconds", forms) from None
    if tenths.denominator != 1 or not 0 <= tenths <= _LARGEST_ASEC10:
        raise CellError("can't be the error of a plane", forms)
    return {"plane_asec10": int(tenths)}


INSTRUMENT_ROWS: tuple[RowKind, ...] = (
    RowKind(
        "instrument",
        "instrument",
        (
            _INSTRUMENT,
            Cell(
                "what",
                choice("what", "rotating_laser", "pipe_laser", "automatic_level", "digital_level"),
                needed=True,
            ),
            Cell("read to", without_typed_text(read_quantity("rod_step", "level")), needed=True),
            Cell("serial", text("serial")),
            Cell("arc seconds", arc_seconds),
            Cell("peg limit", count("peg_limit_millionths")),
            Cell("peg days", count("peg_every_days")),
            Cell("calibrated on", a_day("calibrated_on")),
        ),
    ),
    RowKind(
        "instrument event",
        "instrument_event",
        (
            _INSTRUMENT,
            Cell("step", choice("what", "dropped", "serviced", "calibrated", "other"), needed=True),
            _NOTE,
        ),
    ),
    RowKind(
        "peg test",
        "peg_test",
        (
            _INSTRUMENT,
            Cell("midway a", read_quantity("mid_a", "level"), needed=True),
            Cell("midway b", read_quantity("mid_b", "level"), needed=True),
            Cell("end a", read_quantity("end_a", "level"), needed=True),
            Cell("end b", read_quantity("end_b", "level"), needed=True),
            Cell("to a", read_quantity("to_a", "length"), needed=True),
            Cell("to b", read_quantity("to_b", "length"), needed=True),
            _NOTE,
        ),
    ),
)
