"""A tablet's code typed letter by letter: whole ones are taken, slips refused at once."""

from __future__ import annotations

import pytest

from crewapp.kit.input.code_pad import LETTERS, SLIP, WHOLE, TypedCode
from models.entries.tablet_code import code_of

CODE = code_of("3d5c0e1f" * 4)
PLAIN = CODE.replace("-", "")


def typed(letters: str) -> TypedCode:
    """Type letters one by one."""
    told = TypedCode()
    for letter in letters:
        told = told.add_letter(letter)
    return told


def test_whole_code_is_taken_in_groups() -> None:
    """Sixteen letters that fit give the code as it is shown."""
    assert typed(PLAIN).code == CODE
    assert typed(PLAIN).groups == CODE.replace("-", " ")


@pytest.mark.parametrize("at", range(WHOLE))
def test_any_letter_misread_is_refused(at: int) -> None:
    """At whichever place: no code, and the reason stands there."""
    other = LETTERS[(LETTERS.index(PLAIN[at]) + 1) % len(LETTERS)]
    told = typed(PLAIN[:at] + other + PLAIN[at + 1 :])

    assert (told.code, told.refused) == ("", SLIP)


def test_half_a_code_is_no_slip() -> None:
    """While letters are still to come nothing is refused; taking one back works."""
    told = typed(PLAIN[:7])

    assert (told.code, told.refused) == ("", "")
    assert told.drop_letter().letters == PLAIN[:6]
    assert told.groups.count("\u00b7") == WHOLE - 7


def test_seventeenth_letter_changes_nothing() -> None:
    """Nor does a letter that no code has."""
    assert typed(PLAIN + "0") == typed(PLAIN)
    assert typed("IOU") == TypedCode()


def test_typed_letters_survive_a_kill() -> None:
    """What was kept is gone on with, judged again."""
    assert TypedCode.resume(PLAIN).code == CODE
    assert TypedCode.resume(PLAIN[:-1] + "?") == TypedCode(PLAIN[:-1])
