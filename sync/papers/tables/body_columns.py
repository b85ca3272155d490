"""Columns of a paper's table made from the marks at the fields of a body."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from typing import Generic, NamedTuple, TypeVar

from models.entries.body import Body
from models.entries.shows import MarkedField, Quantity, marked_fields
from sync.papers.tables.cells import Cell, CellMaker, Column, Table, table
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
    made: CellMaker,
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
    bodies = [body for _, body in told]
    columns: list[tuple[Column, list[Cell]]] = [_of_lines(one, told) for one in first]
    for field in marked_fields(model):
        if _has_place(field, bodies):
            column = _of_field(field, made)
            columns.append((column.column, [column.cell(body) for body in bodies]))
        columns += [_of_lines(one, told) for one in after.get(field.name, ())]
    rows = [[cells[number] for _, cells in columns] for number in range(len(told))]
    return table(name, [column for column, _ in columns], rows)


def _of_lines(
    one: TableColumn[Line], told: Sequence[tuple[Line, Body]]
) -> tuple[Column, list[Cell]]:
    return one.column, [one.cell(line) for line, _ in told]


def with_late_columns(made: Table, sheet: CellMaker, bodies: Sequence[Body]) -> Table:
    """Add to a table of bodies, a row each, the fields that came to a body in use.

    Each has a column behind the others where a row says something of it.
    """
    fields = {
        (field.shows.column, field.name): _of_field(field, sheet).column
        for model in dict.fromkeys(map(type, bodies))
        for field in marked_fields(model)
        if field.is_late and _has_place(field, [one for one in bodies if type(one) is model])
    }
    if not fields:
        return made
    added = table(
        made.name, list(fields.values()), [_late_cells(fields, sheet, one) for one in bodies]
    )
    rows = (row + more for row, more in zip(made.rows, added.rows, strict=True))
    return Table(made.name, made.columns + added.columns, tuple(rows))


def _late_cells(names: Iterable[tuple[str, str]], sheet: CellMaker, body: Body) -> list[Cell]:
    """Cells of a body in the columns of some fields; empty for a field that it has not."""
    fields = {(field.shows.column, field.name): field for field in marked_fields(type(body))}
    found: list[Cell] = []
    for name in names:
        field = fields.get(name)
        found.append(_of_field(field, sheet).cell(body) if field is not None else None)
    return found


def _has_place(field: MarkedField, bodies: Sequence[Body]) -> bool:
    if not (field.shows.column and field.shows.on_sheet):
        return False
    return not field.is_late or any(field.value_in(body) != field.default for body in bodies)


def _of_field(field: MarkedField, made: CellMaker) -> TableColumn[Body]:
    """A field's own column, a number in the job's unit where it is measured."""
    name, quantity = field.shows.column, field.shows.quantity
    if quantity in _MEASURES:
        measure = _MEASURES[quantity]
        column = made.column(name, measure)
        return TableColumn(column, lambda body: made.of(measure, field.value_in(body)))
    unit = "min" if quantity in _IN_MINUTES else ""
    return TableColumn(Column(name, unit), lambda body: _plain(quantity, field.value_in(body)))


def _plain(quantity: Quantity, value: object) -> Cell:
    """A value that is no measure, as a table holds it."""
    if quantity is Quantity.YES_NO:
        return None if value is None else "yes" if value else "no"
    if isinstance(value, tuple):
        return " ".join(map(str, value))
    if value is None or isinstance(value, int):
        return value
    return str(value).replace("_", " ") if quantity is Quantity.CHOICE else str(value)
