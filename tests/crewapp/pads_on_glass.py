"""The pads of the app, each for a field that the app asks for, telling what they took."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from tests.crewapp import watched

if TYPE_CHECKING:
    from crewapp.kit.input.keypad_value import FieldSpec

FOOT_NM = 304_800_000


def took(*facts: object) -> None:
    """Say that a part took something."""
    watched.tell("took", *facts)


def figures() -> Any:
    """Return the units of a job in feet and inches."""
    from models.units.job_units import Figures

    return Figures()


def asked(spec: FieldSpec, **more: Any) -> Any:
    """Return the app's own sheet with the pad for a field."""
    from crewapp.pages.frame.pad_sheet import PadQuestion, PadSheet

    sheet = PadSheet(PadQuestion(spec, **more))
    sheet.bind(
        on_figure=lambda _, value, text, ending: took("figure", text, ending),
        on_leave=lambda _: took("left"),
    )
    return sheet


def inch_pad() -> Any:
    """The pad of a depth, with its eighths."""
    from crewapp.kit.gallery.pages import DEPTH

    return asked(DEPTH)


def percent_pad() -> Any:
    """The pad of a grade: percent, or a ratio."""
    from crewapp.pages.grade.fields import grade_field

    return asked(grade_field(figures()))


def signed_pad() -> Any:
    """The pad of a temperature, with its minus."""
    from crewapp.kit.input.day_fields import temperature_field

    return asked(temperature_field(figures(), "Air"))


def rod_pad() -> Any:
    """The pad of a rod reading by itself."""
    from crewapp.pages.grade.fields import rod_field

    return asked(rod_field(figures(), "Backsight"))


def station_pad() -> Any:
    """The pad of a station on a collector."""
    from crewapp.pages.grade.fields import station_field

    return asked(station_field(figures(), "Station", 0, 300 * FOOT_NM))


def clock_pad() -> Any:
    """The pad of a time of day, zeros in front."""
    from crewapp.kit.input.day_fields import clock_field

    return asked(clock_field("From", is_us=True))


def ticket_pad() -> Any:
    """The pad of a ticket: letters and digits."""
    from crewapp.kit.input.work_fields import ticket_field

    return asked(ticket_field("Ticket", "TQ-"))


def ending_pad() -> Any:
    """A pad that ends with a choice."""
    from crewapp.kit.input.work_fields import weight_field

    endings = (("dry", "Dry"), ("wet", "Wet"))
    return asked(weight_field(figures(), "Sand"), endings=endings, asks="How is the sand?")


def shot_pad() -> Any:
    """The pad that stays up from shot to shot."""
    from crewapp.kit.input.keypad_value import KeypadState
    from crewapp.pages.frame.pad_sheet import PadQuestion
    from crewapp.pages.grade.fields import rod_field
    from crewapp.pages.grade.shot_sheet import ShotSheet

    sheet = ShotSheet(PadQuestion(rod_field(figures(), "Rod reading")))
    pad = sheet.pad
    pad.place_text, pad.step_text, pad.can_undo = "0+50 invert", "10 ft", True

    def entered(_: object, value: int, text: str, ending: str) -> None:
        took("figure", text)
        pad.keypad = KeypadState(pad.keypad.spec)

    sheet.bind(on_figure=entered)
    pad.bind(
        on_step=lambda _, ways: took("step", ways),
        on_where=lambda _: took("where"),
        on_undo=lambda _: took("undo"),
    )
    return sheet


def code_pad() -> Any:
    """The letters of a tablet's code."""
    from crewapp.kit.input.code_pad import TypedCode
    from crewapp.pages.frame.code_sheet import CodeSheet

    sheet = CodeSheet(TypedCode())
    sheet.bind(on_typed=lambda _, letters: took("typed", letters), on_leave=lambda _: took("left"))
    return sheet


PADS = (
    *(inch_pad, percent_pad, signed_pad, rod_pad, station_pad, clock_pad, ticket_pad),
    *(ending_pad, shot_pad, code_pad),
)
