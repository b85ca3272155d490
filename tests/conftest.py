"""Settles Kivy's surroundings before anything imports it, and gives the ``ui``."""

from __future__ import annotations

import os
from collections.abc import Iterator
from typing import TYPE_CHECKING

import pytest
from hypothesis import settings

from tests.kivy_env import PROFILES, configure, settle

settle()
if "CI" not in os.environ:  # there hypothesis has a profile of its own
    settings.register_profile("unhurried", deadline=None)  # no test measures time
    settings.load_profile("unhurried")

if TYPE_CHECKING:
    from tests.uidriver import UI


@pytest.fixture(scope="session")
def _window() -> UI:
    """One window for the whole run; Kivy can have no second."""
    configure(PROFILES["10in-coarse"])
    from tests.uidriver import UI

    return UI()


@pytest.fixture
def ui(_window: UI) -> Iterator[UI]:
    """A clean glass: a 10 inch tablet held wide until ``ui.hold`` says otherwise."""
    _window.hold(PROFILES["10in-coarse"])
    yield _window
    _window.close()
