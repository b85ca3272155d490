"""The pad for tickets keeps the rules of the hand, digits and letters, on every tablet."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from crewapp.kit.input.keypad_value import KeypadState
from tests.kivy_env import profile_named
from tests.tree_walk import faults

if TYPE_CHECKING:
    from tests.uidriver import UI

LONGEST = "TQ-ABCDEFG4012"


@pytest.mark.parametrize("turned", [False, True], ids=["wide", "high"])
@pytest.mark.parametrize("name", ["8in", "10in-coarse"])
def test_letters_fit_the_hand(ui: UI, name: str, turned: bool) -> None:
    """The longest name stays seen whole; letters, digits and the letters offered can be hit."""
    from crewapp.kit.input.work_fields import ticket_field
    from crewapp.pages.frame.pad_sheet import PadQuestion, PadSheet

    ui.hold(profile_named(name, turned))
    sheet = PadSheet(PadQuestion(ticket_field("Ticket", "TQ-"), "sand"))
    ui.show(sheet)
    found: list[str] = []
    for typed in ("", LONGEST[:3], LONGEST):
        for is_lettering in (False, True):
            sheet.pad.keypad = KeypadState.resume(sheet.pad.keypad.spec, typed)
            sheet.pad.is_lettering = is_lettering
            ui.pump(3)
            found += [f"{typed!r}: {fault}" for fault in faults(sheet)]

    assert found == []
