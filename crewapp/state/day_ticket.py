"""A locate ticket: its number and the days it is good for, as they stand on it."""

from __future__ import annotations

from datetime import date

from crewapp.state.day import DayFace
from crewapp.state.day_fields import TICKET_DAYS, date_field, date_options
from crewapp.state.forms import Answers, Form, Option, Step, Way, typed_of
from crewapp.state.slit_fields import ticket_field
from crewapp.wording import say


def ticket_form(face: DayFace) -> Form:
    """Return the questions about a ticket; dates come as chips or by the pad."""
    first, last = (date_field(name, face.today) for name in (say("Good from"), say("Good until")))
    places = tuple(Option(place.name, place.text) for place in face.places)
    number = ticket_field(say("Number of the ticket"))
    figure = Way.FIGURE
    return Form(
        name="ticket",
        title=say("Locate ticket"),
        action="planning:set_up",
        steps=(
            Step("ticket", say("Number"), number.name, figure, (), True, spec=number),
            Step(
                "from",
                say("Good from"),
                say("First day it allows digging"),
                figure,
                date_options(face.today, (0, 1, 2, 3)),
                True,
                spec=first,
            ),
            Step(
                "until",
                say("Good until"),
                say("Last day it allows digging"),
                figure,
                date_options(face.today, TICKET_DAYS),
                True,
                spec=last,
            ),
            Step(
                "surfaces",
                say("Covers"),
                say("Which ground? None: the whole site"),
                Way.SEVERAL,
                places,
            ),
        ),
        fields=_fields,
        back="tickets",
    )


def _fields(answers: Answers) -> dict[str, object]:
    return {
        "kind": "locate_ticket",
        "ticket": typed_of(answers, "ticket"),
        "valid_from": _iso(answers, "from"),
        "expires_on": _iso(answers, "until"),
        "surfaces": tuple(answers.get("surfaces") or ()),
    }


def _iso(answers: Answers, field: str) -> str:
    return date.fromordinal(int(answers[field]["value"])).isoformat()
