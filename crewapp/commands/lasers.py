"""Commands of lasers and levels, and their peg tests."""

from __future__ import annotations

from dataclasses import dataclass

from crewapp.commands.command import Command


@dataclass(frozen=True, slots=True, kw_only=True)
class AddInstrument(Command):
    """Put a laser or level on the job's list; without a step its rod is read as is usual."""

    instrument_id: str
    what: str
    rod_step_nm: int = 0
    calibrated_days_ago: int | None = None
    serial: str = ""
    plane_asec10: int | None = None
    peg_limit_millionths: int | None = None
    peg_every_days: int = 30


@dataclass(frozen=True, slots=True, kw_only=True)
class LogInstrumentEvent(Command):
    """Log that an instrument was dropped, serviced, calibrated, or what else befell it."""

    instrument_id: str
    what: str
    note: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class LogPegTest(Command):
    """Log a two-peg test: four readings and the two distances of the second setup."""

    instrument_id: str
    mid_a_nm: int
    mid_b_nm: int
    end_a_nm: int
    end_b_nm: int
    to_a_nm: int
    to_b_nm: int
    mid_a_typed: str = ""
    mid_b_typed: str = ""
    end_a_typed: str = ""
    end_b_typed: str = ""
    to_a_typed: str = ""
    to_b_typed: str = ""
    note: str = ""
