"""What a check says, and the words an entry may hold, are said in every language."""

from __future__ import annotations

import json
import typing
from collections.abc import Iterator
from string import Formatter

import pytest

from crewapp.words import translate as wording
from models.audit.registry import RULES
from models.checks.finding import AnyCheck
from models.checks.registry import BY_ID
from models.entries.kinds import KINDS

CODES = [code for code in wording.LANGUAGES if code != "en"]


def facts(text: str) -> list[tuple[str, str]]:
    """Return the facts of a text, each with how it is shown: ``depth_nm`` as ``depth``."""
    parts = Formatter().parse(text)
    return sorted((name, spec or "") for _, name, spec, _ in parts if name is not None)


def texts(check: AnyCheck) -> list[str]:
    """Return all that a check says to a person."""
    own = (
        check.message,
        *check.messages.values(),
        check.cure,
        *check.cures.values(),
        check.why,
        check.problem,
    )
    return [text for text in dict.fromkeys(own) if text]


def words_in(kind: object) -> Iterator[str]:
    """Return the words that a field lets one choose from."""
    for part in typing.get_args(kind):
        if typing.get_origin(kind) is typing.Literal:
            if isinstance(part, str):
                yield part.replace("_", " ")
        else:
            yield from words_in(part)


def lacking(wanted: list[str], code: str) -> str:
    """Return what is not translated, as lines ready for a language's file."""
    has = wording.table(code)
    lines = [f'  {json.dumps(t, ensure_ascii=False)}: "",' for t in wanted if not has.get(t)]
    return "\n".join(lines)


@pytest.mark.parametrize("code", CODES)
def test_every_check_is_translated(code: str) -> None:
    """Fault, cure, reason and problem: nobody is told to stop in words he can't read."""
    assert lacking([text for check in BY_ID.values() for text in texts(check)], code) == ""


@pytest.mark.parametrize("code", CODES)
def test_every_rule_of_the_plan_audit_is_translated(code: str) -> None:
    """What is met and what would be accepted, with the same figures shown the same way."""
    said = [
        text
        for rule in RULES
        for saying in rule.sayings.values()
        for text in (saying.what, saying.accepted)
    ]
    has = wording.table(code)

    assert lacking([*dict.fromkeys(said), "Accepted: {accepted}."], code) == ""
    assert [text for text in said if facts(has[text]) != facts(text)] == []


@pytest.mark.parametrize("code", CODES)
def test_translated_checks_show_the_same_facts_the_same_way(code: str) -> None:
    """A depth stays a depth, in the job's units."""
    has = wording.table(code)
    wrong = [
        (check.id, text)
        for check in BY_ID.values()
        for text in texts(check)
        if facts(has.get(text, text)) != facts(text)
    ]

    assert wrong == []


@pytest.mark.parametrize("code", CODES)
def test_every_word_of_an_entry_is_translated(code: str) -> None:
    """Kinds, and what may be chosen in their fields."""
    kinds = [kind.replace("_", " ") for kind in KINDS]
    chosen = [
        word
        for body in KINDS.values()
        for field in body.model_fields.values()
        for word in words_in(field.annotation)
    ]

    assert lacking(list(dict.fromkeys(kinds + chosen)), code) == ""
