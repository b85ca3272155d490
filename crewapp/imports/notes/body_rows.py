"""Rows of typed-up notes, made from the marks at the fields of a body."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from crewapp.imports.notes.after_cells import moment
from crewapp.imports.notes.cells import (
    Cell,
    Reader,
    RowKind,
    a_day,
    arc_seconds,
    choice,
    count,
    minutes,
    names,
    read_quantity,
    refuse_unlikely_slit,
    text,
    time_of_day,
    without_typed_text,
    yes_no,
)
from models.entries.body import Body
from models.entries.shows import MEASURED, MarkedField, Quantity, marked_fields

_READERS: dict[Quantity, Callable[[str], Reader]] = {
    Quantity.NAME: text,
    Quantity.WORDS: text,
    Quantity.NAMES: names,
    Quantity.YES_NO: yes_no,
    Quantity.MINUTES: minutes,
    Quantity.TIME_OF_DAY: time_of_day,
    Quantity.DAY: a_day,
    Quantity.COUNT: count,
    Quantity.ARC_SECONDS: arc_seconds,
}


def row_of(
    word: str,
    body: type[Body],
    *,
    after: Mapping[str, Cell] | None = None,
    instead: Mapping[str, Cell] | None = None,
    fixed: tuple[tuple[str, Any], ...] = (),
) -> RowKind:
    """The row that a word of notes stands for: a column for each field that has one there.

    ``after`` gives cells that read more than one field, each by the field it stands behind,
    ``instead`` a cell that reads a field in another way.
    """
    set_already = {name for name, _ in fixed}
    marked = [
        field
        for field in marked_fields(body)
        if field.shows.in_notes and field.shows.notes_column and field.name not in set_already
    ]
    cells: list[Cell] = []
    for field in sorted(marked, key=lambda one: one.shows.order):
        cells.append((instead or {}).get(field.name) or _cell(field))
        if after and field.name in after:
            cells.append(after[field.name])
    return RowKind(word, body.kind, tuple(cells), fixed)


def _cell(field: MarkedField) -> Cell:
    return Cell(field.shows.notes_column, _reader(field), needed=field.is_needed)


def _reader(field: MarkedField) -> Reader:
    shows = field.shows
    if shows.quantity is Quantity.MOMENT:
        return moment(field.name, shows.notes_column)
    if shows.quantity is Quantity.CHOICE:
        return choice(field.name, *field.options)
    if shows.quantity not in MEASURED:
        return _READERS[shows.quantity](field.name)
    reader = read_quantity(field.name.rsplit("_", 1)[0], shows.quantity.value)
    if shows.within is not None:
        reader = refuse_unlikely_slit(reader, field.name, *shows.within)
    return reader if field.typed else without_typed_text(reader)
