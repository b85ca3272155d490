"""Marks at the fields of a body: label, quantity, columns, text and question of each.

Typed-up notes, the tables of papers, the lines of text and the questions of forms take a
field's column, words and limits from here, so that a field is added in one place. A mark
stands inside ``Annotated``; pydantic passes it over. Nothing here loads the bodies.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING, Any, Final, Literal, NamedTuple, get_args, get_origin

from models.units import NM_PER, LengthUnit

if TYPE_CHECKING:
    from models.plan.record import Record

DEEPEST_NM: Final = 60 * NM_PER[LengthUnit.IN]
"""Deepest and widest that anything of a slit is: a point slipped in what is more."""


class Quantity(StrEnum):
    """Kind of value in a field, by which the field is read, printed and entered."""

    NAME = "name"
    NAMES = "names"
    WORDS = "words"
    CHOICE = "choice"
    YES_NO = "yes or no"
    DEPTH = "depth"
    LENGTH = "length"
    STATION = "station"
    LEVEL = "level"
    VOLUME = "volume"
    MASS = "mass"
    MINUTES = "minutes"
    TIME_OF_DAY = "time of day"
    DAY = "day"
    MOMENT = "moment"
    TEMPERATURE = "temperature"
    READINGS = "readings"
    COUNT = "count"
    ARC_SECONDS = "arc seconds"


MEASURED: Final = frozenset(
    {
        Quantity.DEPTH,
        Quantity.LENGTH,
        Quantity.STATION,
        Quantity.LEVEL,
        Quantity.VOLUME,
        Quantity.MASS,
    }
)
"""Quantities with a unit, whose text as typed stands in a field beside them."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Shows:
    """Mark of a field: its label, quantity, columns, text and question.

    Parameters
    ----------
    label : str
        What it is called where it is asked for, such as ``Operator``.
    quantity : Quantity
        What kind of thing it holds.
    column : str
        Its column in the tables of papers, and in typed-up notes unless ``notes`` names one;
        "" for a field that has none in either.
    notes : str
        Its column in typed-up notes, where that is called otherwise there.
    in_notes, on_sheet : bool
        Whether typed-up notes and the tables of papers have it.
    order : int
        Place among the columns of notes; those of one number stand as in the body.
    line, said : str
        Its piece of the one-line text on the glass, and on paper, such as ``by {value}``;
        it stands where the field says something. "" where the text has it already, or not.
    asks : str
        Question by which a form asks for it; "" if no form does so by itself.
    choices : str
        Kind of entry whose names are offered as answers, such as ``person``.
    within : tuple of int, optional
        Least and most that it may be.
    """

    label: str
    quantity: Quantity
    column: str = ""
    notes: str = ""
    in_notes: bool = True
    on_sheet: bool = True
    order: int = 0
    line: str = ""
    said: str = ""
    asks: str = ""
    choices: str = ""
    within: tuple[int, int] | None = None

    @property
    def notes_column(self) -> str:
        """Column of the field in typed-up notes."""
        return self.notes or self.column


class MarkedField(NamedTuple):
    """Field of a body with its mark."""

    name: str
    shows: Shows
    is_needed: bool
    default: Any
    options: tuple[str, ...]  # of a choice
    typed: str  # field that holds its text as typed, "" if none does
    is_late: bool  # it came to a body in use, so it has a place only where it says something

    @property
    def texts(self) -> tuple[str, ...]:
        """Texts of the field on the glass, to be translated."""
        shows = self.shows
        options = [one.replace("_", " ") for one in self.options] if shows.asks else []
        asked = (shows.label, shows.asks, *options) if shows.asks else ()
        return tuple(text for text in (*asked, shows.line) if text)

    def value_in(self, record: Record) -> Any:
        """Value of the field in a record."""
        return record.__dict__[self.name]


def marked_fields(model: type[Record]) -> Iterator[MarkedField]:
    """Yield the fields of a record that have a mark, in the order of the record."""
    for name, field in model.model_fields.items():
        shows = next((one for one in field.metadata if isinstance(one, Shows)), None)
        if shows is None:
            continue
        typed = f"{name.rsplit('_', 1)[0]}_typed"
        yield MarkedField(
            name,
            shows,
            field.is_required(),
            None if field.is_required() else field.get_default(),
            _options(field.annotation),
            typed if shows.quantity in MEASURED and typed in model.model_fields else "",
            name in model.left_out,
        )


def _options(annotation: Any) -> tuple[str, ...]:
    """Choices of a field that takes one of a few words, or none."""
    for one in (annotation, *get_args(annotation)):
        if get_origin(one) is Literal:
            return get_args(one)
    return ()
