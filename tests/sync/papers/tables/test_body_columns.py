"""Tables of bodies: a field that came to a body in use has a column where a row fills it."""

from __future__ import annotations

from typing import Annotated, ClassVar

import pytest

from models.entries.bodies.day import Hours
from models.entries.bodies.levels import GradeShot
from models.entries.bodies.loads import Delivery
from models.entries.body import Body
from models.entries.kinds import KINDS
from models.entries.shows import Quantity, Shows
from models.plan.field_types import Span
from sync.papers.day.facts.day import DaySheet, gather_day
from sync.papers.day.tables import day_tables
from tests.sync.papers.day_writer import FT
from tests.sync.papers.sample_day import US_DAY, us_book

BREAK = Shows(label="Break", quantity=Quantity.MINUTES, column="break")
HAUL = Shows(label="Haul", quantity=Quantity.LENGTH, column="haul")
ROD = Shows(label="Rod held by", quantity=Quantity.NAME, column="rod_by")


class LongerHours(Hours):
    """Hours with a break."""

    left_out: ClassVar[frozenset[str]] = frozenset({"break_min"})
    break_min: Annotated[int, BREAK] = 0


class LongerDelivery(Delivery):
    """A delivery with how far it was hauled."""

    left_out: ClassVar[frozenset[str]] = frozenset({"haul_nm"})
    haul_nm: Annotated[Span | None, HAUL] = None


class LongerShot(GradeShot):
    """A grade shot with who held the rod."""

    left_out: ClassVar[frozenset[str]] = frozenset({"rod_by"})
    rod_by: Annotated[str, ROD] = ""


GROWN: dict[str, tuple[str, type[Body]]] = {
    "hours": ("hours", LongerHours),
    "loads": ("delivery", LongerDelivery),
    "grade shots": ("grade_shot", LongerShot),
}
FILLED = {
    "hours": ({"of": "person", "who": "Ash", "run_min": 60, "break_min": 30}, "break_min", 30),
    "loads": ({"material_id": "slit sand", "mass_ug": 10**12, "haul_nm": 40 * FT}, "haul_ft", 40.0),
    "grade shots": (
        {
            "setup_id": "L1",
            "collector_id": "C1",
            "station_nm": 0,
            "on": "invert",
            "reading_nm": 5 * FT,
            "rod_by": "Ash",
        },
        "rod_by",
        "Ash",
    ),
}


@pytest.mark.parametrize("name", GROWN)
def test_filled_field_has_a_column(name: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """Behind the columns that were there, which stay as they are; without it there is none."""
    kind, model = GROWN[name]
    fields, header, value = FILLED[name]
    before = {one.name: one for one in day_tables(_sheet())}[name]
    monkeypatch.setitem(KINDS, kind, model)
    untouched = {one.name: one for one in day_tables(_sheet())}[name]
    book = us_book()
    book.write(kind, **fields)
    grown = {one.name: one for one in day_tables(gather_day(book.state, book.board(), US_DAY))}[
        name
    ]

    assert untouched == before
    assert grown.columns[:-1] == before.columns
    assert grown.columns[-1].header == header
    assert value in [row[-1] for row in grown.rows]


def _sheet() -> DaySheet:
    book = us_book()
    return gather_day(book.state, book.board(), US_DAY)
