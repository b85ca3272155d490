"""Rows of typed-up notes for what comes beside and after the work: tests, ties, rain, repairs."""

from __future__ import annotations

from crewapp.imports.notes.after_cells import ring_readings, with_unit
from crewapp.imports.notes.body_rows import row_of
from crewapp.imports.notes.cells import Cell, RowKind, amount, read_quantity
from models.entries.bodies.after_rain import InfiltrationTest, Rain, Repair, SandTopUp, SurfaceSeen
from models.entries.bodies.collector_work import OutletSeen
from models.entries.bodies.material_tests import BoxWeighing, BulkingTest
from models.entries.bodies.planning import PermanentPoint, Tie

_A_BOX, _A_MASS = "a volume such as 1 ft3, 28.3 L", "a mass such as 98 lb, 44.5 kg"
_BOX = {
    "volume_pl": Cell("volume", with_unit(read_quantity("volume", "volume"), _A_BOX), needed=True),
    "mass_ug": Cell("mass", with_unit(read_quantity("mass", "mass"), _A_MASS), needed=True),
}
_SAND_AMOUNT = Cell("amount", amount("mass", "volume"), needed=True)
_READINGS = Cell("readings", ring_readings("readings"), needed=True)

AFTER_ROWS: tuple[RowKind, ...] = (
    row_of("rain", Rain),
    row_of("surface seen", SurfaceSeen),
    row_of("ring test", InfiltrationTest, instead={"readings": _READINGS}),
    row_of("top-up", SandTopUp, after={"material_id": _SAND_AMOUNT}),
    row_of("repair", Repair),
    row_of("outlet seen", OutletSeen),
    row_of("permanent point", PermanentPoint),
    row_of("tie", Tie),
    row_of("box weighing", BoxWeighing, instead=_BOX),
    row_of("bulking", BulkingTest),
)
