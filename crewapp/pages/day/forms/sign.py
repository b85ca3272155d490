"""Questions of a signature: who signs, and what it states. Received is not agreed."""

from __future__ import annotations

from crewapp.commands.day import SignDay
from crewapp.kit.input.forms import AnswerKind, Form, Option, Step
from crewapp.pages.day.view import DayView
from crewapp.words.translate import say, translate_later

ROLES = {"true_record": "foreman", "received": "owner", "agreed": "owner"}
SIGNS = {
    "true_record": (translate_later("Foreman"), translate_later("a true record")),
    "received": (translate_later("Owner"), translate_later("received")),
    "agreed": (translate_later("Owner"), translate_later("agreed")),
}


def sign_form(meaning: str, view: DayView) -> Form | None:
    """Return the question about the name of who signs."""
    if meaning not in ROLES:
        return None
    who, says = SIGNS[meaning]
    step = Step(
        "name",
        say("Name"),
        say("Who signs?"),
        AnswerKind.CHOOSE,
        tuple(Option(name, name) for name in signers(meaning, view)),
        True,
        can_write=True,
    )
    return Form(
        name=f"sign/{meaning}",
        title=say("{who}: {says}", who=say(who), says=say(says)),
        steps=(step,),
        command=lambda answers: SignDay(
            day=view.day,
            role=ROLES[meaning],
            name=str(answers["name"])[:80],
            meaning=meaning,
            strokes=(),  # drawn once the name is known
        ),
        at_once=True,
        back="sign",
    )


def signers(meaning: str, view: DayView) -> tuple[str, ...]:
    """Return names to tap: the crew for the record, the owner for the rest."""
    if ROLES[meaning] == "foreman":
        crew = sorted(view.people, key=lambda person: person.name != view.author)
        named = [person.text.partition(",")[0] for person in crew]
        is_crew = any(person.name == view.author for person in crew)
        return tuple(named if is_crew or not view.author else [view.author, *named])
    return (view.owner,) if view.owner else ()
