"""Every widget obeys the rules of the hand on three tablets, held both ways."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.kivy_env import PROFILES, profile_named

if TYPE_CHECKING:
    from tests.uidriver import UI

PAGES = ("entry", "states", "marks", "rows", "drawing", "pad", "asked", "odd", "station", "card")


def test_every_page_is_walked() -> None:
    """A page added to the gallery is added here."""
    from crewapp.kit.gallery.pages import PAGES as MAKERS

    assert set(MAKERS) == set(PAGES)


@pytest.mark.parametrize("is_turned", [False, True], ids=["wide", "upright"])
@pytest.mark.parametrize("profile", sorted(PROFILES))
@pytest.mark.parametrize("page", PAGES)
def test_page_obeys_the_hand(ui: UI, page: str, profile: str, is_turned: bool) -> None:
    """Nothing is too small, too near, cut off, or on top of something else."""
    from crewapp.kit.gallery.pages import PAGES as MAKERS
    from tests.tree_walk import faults

    ui.hold(profile_named(profile, is_turned))
    root = ui.show(MAKERS[page]())

    assert faults(root) == []


@pytest.mark.parametrize("is_turned", [False, True], ids=["wide", "upright"])
@pytest.mark.parametrize("page", PAGES)
def test_spanish_page_obeys_the_hand(ui: UI, page: str, is_turned: bool) -> None:
    """Longer words fit too, on the smallest tablet."""
    from crewapp.kit.gallery.pages import PAGES as MAKERS
    from crewapp.words import translate as wording
    from tests.tree_walk import faults

    ui.hold(profile_named("8in", is_turned))
    wording.set_language("es")
    try:
        root = ui.show(MAKERS[page]())
    finally:
        wording.set_language("en")

    assert faults(root) == []
