"""Columns of a paper's table made from the marks at the fields of a body."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from typing import Generic, NamedTuple, TypeVar

from models.entries.body import Body
from models.entries.shows import MarkedField, Quantity, marked_fields
from sync.papers.tables.cells import Cell, Column, Sheet, Table, table
from sync.papers.wording.measures import Measure

Line = TypeVar("Line")
_MEASURES = {
    Quantity.DEPTH: Measure.DEPTH,
    Quantity.LENGTH: Measure.LENGTH,
    Quantity.STATION: Measure.LENGTH,
    Quantity.LEVEL: Measure.LEVEL,
    Quantity.VOLUME: Measure.VOLUME,
    Quantity.MASS: Measure.MASS,
}
_IN_MINUTES = frozenset({Quantity.MINUTES, Quantity.TIME_OF_DAY})


class TableColumn(NamedTuple, Generic[Line]):
    """A column and the cell that a line has in it."""

    column: Column
    cell: Callable[[Line], Cell]


def column_of(name: str, cell: Callable[[Line], Cell]) -> TableColumn[Line]:
    """A column of words, counts or names."""
    return TableColumn(Column(name), cell)


def body_table(
    name: str,
    made: Sheet,
    model: type[Body],
    lines: Iterable[tuple[Line, Body]],
    *,
    first: Sequence[TableColumn[Line]] = (),
    after: Mapping[str, Sequence[TableColumn[Line]]],
) -> Table:
    """A row a line: ``first``, the fields of its body that a sheet shows, what was worked out.

    ``after`` gives the columns that stand behind a field's. A field that came to a body in
    use has a column only where a line says something of it, so that other tables stay as
    they were.
    """
    told = list(lines)
    cells: list[TableColumn[tuple[Line, Body]]] = [_of_line(one) for one in first]
    for field in marked_fields(model):
        if (
            field.shows.column
            and field.shows.on_sheet
            and _has_place(field, [body for _, body in told])
        ):
            cells.append(_of_field(field, made))
        cells += [_of_line(one) for one in after.get(field.name, ())]
    rows = [[one.cell(line) for one in cells] for line in told]
    return table(name, [one.column for one in cells], rows)


def _has_place(field: MarkedField, bodies: Sequence[Body]) -> bool:
    if not (field.shows.column and field.shows.on_sheet):
        return False
    return not field.is_late or any(field.value_in(body) != field.default for body in bodies)


def _of_line(one: TableColumn[Line]) -> TableColumn[tuple[Line, Body]]:
    return TableColumn(one.column, lambda told: one.cell(told[0]))


def _of_field(field: MarkedField, made: Sheet) -> TableColumn[tuple[Line, Body]]:
    """A field's own column, a number in the job's unit where it is measured."""
    name, quantity = field.shows.column, field.shows.quantity
    if quantity in _MEASURES:
        measure = _MEASURES[quantity]
        return TableColumn(
            made.column(name, measure), lambda told: made.of(measure, field.value_in(told[1]))
        )
    unit = "min" if quantity in _IN_MINUTES else ""
    return TableColumn(Column(name, unit), lambda told: _plain(quantity, field.value_in(told[1])))


def _plain(quantity: Quantity, value: object) -> Cell:
    """A value that is no measure, as a table holds it."""
    if quantity is Quantity.YES_NO:
        return None if value is None else "yes" if value else "no"
    if isinstance(value, tuple):
        return " ".join(map(str, value))
    if value is None or isinstance(value, int):
        return value
    return str(value).replace("_", " ") if quantity is Quantity.CHOICE else str(value)
