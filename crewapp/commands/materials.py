"""Commands of tests of sand: sieves, box and jar."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from crewapp.commands.command import Command


@dataclass(frozen=True, slots=True, kw_only=True)
class LogSieveTest(Command):
    """Log a sieve sheet: openings in um (0 is the pan) with what each held, largest first."""

    material_id: str
    held: Sequence[tuple[int, int]]
    edition: str = ""
    laboratory: str = ""
    note: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class TakeSieveSheet(Command):
    """Log the sieve sheet that a CSV file holds; its name is kept as whose sheet it is."""

    material_id: str
    path: str
    edition: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class LogBoxWeighing(Command):
    """Log a box of known volume, filled loose and weighed, less the box itself."""

    material_id: str
    volume_pl: int
    mass_ug: int
    volume_typed: str = ""
    mass_typed: str = ""
    moisture: str = "dry"


@dataclass(frozen=True, slots=True, kw_only=True)
class LogBulking(Command):
    """Log the height of moist sand in a jar, and of the same sand flooded."""

    material_id: str
    moist_nm: int
    flooded_nm: int
    moist_typed: str = ""
    flooded_typed: str = ""
