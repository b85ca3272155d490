"""A locate ticket: its number and the days it is good for, as they stand on it."""

from __future__ import annotations

from datetime import date

from crewapp.commands.plan.plan_entries import AddTicket
from crewapp.kit.input.day_fields import TICKET_DAYS, date_field, date_options
from crewapp.kit.input.forms import AnswerKind, Answers, Form, Option, Step, typed_of
from crewapp.kit.input.work_fields import ticket_field, ticket_letters
from crewapp.pages.day.view import DayView
from crewapp.words.translate import say

SITE = "*"
"""Answer for ground that is marked everywhere; no surface bears this name."""


def ticket_form(view: DayView) -> Form:
    """Return the questions about a ticket; dates come as chips or by the pad."""
    first, last = (
        date_field(name, view.today, view.figures.is_us)
        for name in (say("Good from"), say("Good until"))
    )
    number = ticket_field(say("Number of the ticket"), _letters(view))
    figure = AnswerKind.FIGURE
    return Form(
        name="ticket",
        title=say("Locate ticket"),
        steps=(
            Step("ticket", say("Number"), number.name, figure, (), True, spec=number),
            Step(
                "from",
                say("Good from"),
                say("First day it allows digging"),
                figure,
                date_options(view.today, (-3, -2, -1, 0, 1, 2), view.figures.is_us),
                True,
                spec=first,
            ),
            Step(
                "until",
                say("Good until"),
                say("Last day it allows digging"),
                figure,
                date_options(view.today, TICKET_DAYS, view.figures.is_us),
                True,
                spec=last,
            ),
            _ground(view),
        ),
        command=_add_ticket,
        back="tickets",
    )


def _letters(view: DayView) -> str:
    """The letters of the ticket that lasts longest, to begin the next one with."""
    return ticket_letters(view.tickets[0].key) if view.tickets else ""


def _ground(view: DayView) -> Step:
    """Ask for the ground: never taken as the whole site because nothing was tapped."""
    places = tuple(Option(place.name, place.text) for place in view.places)
    site = Option(SITE, say("the whole site"))
    question = say("Which ground is marked?")
    return Step("surfaces", say("Covers"), question, AnswerKind.SEVERAL, (site, *places), True)


def _add_ticket(answers: Answers) -> AddTicket:
    chosen = answers.get("surfaces") or ()
    return AddTicket(
        ticket=typed_of(answers, "ticket"),
        valid_from=_iso(answers, "from"),
        expires_on=_iso(answers, "until"),
        surfaces=() if SITE in chosen else tuple(chosen),
    )


def _iso(answers: Answers, field: str) -> str:
    return date.fromordinal(int(answers[field]["value"])).isoformat()
