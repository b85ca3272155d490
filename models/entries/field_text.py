"""Text of a body's fields in the job's units, from the marks at the fields."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Any

from models.entries.body import Body
from models.entries.shows import MarkedField, Quantity, marked_fields
from models.units import show_duration, show_time_of_day
from models.units.job_units import Figures


def field_words(field: MarkedField, value: Any, figures: Figures) -> str:
    """Return what a field says, in the job's units; "" where it says nothing."""
    if value is None or value == field.default:
        return ""
    return _WORDS.get(field.shows.quantity, _plain)(value, figures)


def _plain(value: Any, _: Figures) -> str:
    return str(value)


_WORDS: dict[Quantity, Callable[[Any, Figures], str]] = {
    Quantity.NAMES: lambda names, _: ", ".join(names),
    Quantity.CHOICE: lambda choice, _: choice.replace("_", " "),
    Quantity.YES_NO: lambda is_so, _: "yes" if is_so else "no",
    Quantity.DEPTH: lambda nm, figures: figures.depth(nm),
    Quantity.LENGTH: lambda nm, figures: figures.length(nm),
    Quantity.STATION: lambda nm, figures: figures.station(nm),
    Quantity.LEVEL: lambda nm, figures: figures.level(nm),
    Quantity.VOLUME: lambda pl, figures: figures.volume(pl),
    Quantity.MASS: lambda ug, figures: figures.mass(ug),
    Quantity.MINUTES: lambda minutes, _: show_duration(minutes),
    Quantity.TIME_OF_DAY: lambda minutes, figures: show_time_of_day(minutes, halves=figures.is_us),
    Quantity.ARC_SECONDS: lambda tenths, _: f"{tenths / 10:g}",
    Quantity.DAY: lambda day, figures: figures.day(day),
}


def text_pieces(body: Body, figures: Figures) -> list[str]:
    """Pieces of a body's one line of text on paper, beside what that names anyway."""
    return [
        field.shows.said.format(value=words)
        for field, words in _fields_in_words(body, figures)
        if field.shows.said
    ]


def line_pieces(body: Body, figures: Figures) -> list[tuple[str, str]]:
    """Pieces of a body's one line of text on the glass: the text to translate, and its value."""
    return [
        (field.shows.line, words)
        for field, words in _fields_in_words(body, figures)
        if field.shows.line
    ]


def late_pieces(body: Body, figures: Figures) -> list[str]:
    """Pieces of fields that came to a body in use, for papers whose columns are full."""
    return [
        field.shows.said.format(value=words)
        for field, words in _fields_in_words(body, figures)
        if field.is_late and field.shows.on_sheet and field.shows.said
    ]


def _fields_in_words(body: Body, figures: Figures) -> Iterator[tuple[MarkedField, str]]:
    """Yield the fields that say something, in the order of the body."""
    for field in marked_fields(type(body)):
        words = field_words(field, field.value_in(body), figures)
        if words:
            yield field, words
