"""Every part of the Flags screen keeps to the rules of hand and eye, on every tablet."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from crewapp.commands.flags import AnswerFlag
from crewapp.words import translate as wording
from tests.crewapp.pages.day_hand import DayHand, cut_deep, cut_shallow, hit_stop, open_day
from tests.crewapp.pages.look_round import HOLDS
from tests.kivy_env import profile_named
from tests.tree_walk import faults

if TYPE_CHECKING:
    from tests.uidriver import UI

WHY = (
    "Ground did not allow better, the owner saw it on Monday and will have it sanded again in fall"
)


@pytest.fixture(params=HOLDS, ids=str)
def hand(request: pytest.FixtureRequest, ui: UI, tmp_path: Path) -> Iterator[DayHand]:
    """Flags of each weight, one of them answered, on one tablet held one way."""
    name, is_turned, language = request.param
    ui.hold(profile_named(name, is_turned))
    wording.set_language(language)
    made = open_day(ui, tmp_path, language)
    cut_shallow(made)
    key = cut_deep(made)
    hit_stop(made)
    made.on("flags", key=key)
    figures = made.page.told.card.figures
    made.do(AnswerFlag(key=key, figures=figures, answer="accept", why=WHY))
    yield made
    made.close()
    wording.set_language("en")


def test_list_keeps_the_rules(hand: DayHand) -> None:
    """Open and answered flags, each with its sentence."""
    hand.page.turn_to("list")
    hand.settle()

    assert faults(hand.shell) == []


def test_every_flag_keeps_the_rules(hand: DayHand) -> None:
    """Each flag in full, the entries it rests on, and the reason of each answer."""
    found = []
    for row in (*hand.page.told.open, *hand.page.told.answered):
        hand.page.open_flag(row.key)
        hand.settle()
        found += [f"{row.key}: {wrong}" for wrong in faults(hand.shell)]
        hand.page.turn_to("entries")
        hand.settle()
        found += [f"{row.key} rests on: {wrong}" for wrong in faults(hand.shell)]
    first = hand.page.told.open[0].key
    for answer in ("accept", "rework", "waive"):
        hand.page.open_flag(first)
        hand.settle()
        hand.page.filling.begin(f"{answer}/{first}")
        hand.settle()
        found += [f"{answer}: {wrong}" for wrong in faults(hand.shell)]

    assert found == []
