"""Ways of holding a tablet, and a look round that gathers what is wrong at each part."""

from __future__ import annotations

from typing import Any

from tests.tree_walk import faults

HOLDS = [
    *((name, turned, "en") for name in ("8in", "10in", "10in-coarse") for turned in (False, True)),
    *((name, turned, "es") for name in ("8in", "10in") for turned in (False, True)),
]
"""Tablet, whether it is held upright, language."""


class LookRound:
    """Goes from part to part and gathers what is wrong at each."""

    hand: Any

    def __init__(self, hand: Any) -> None:
        self.hand = hand
        self.found: list[str] = []

    def look(self, where: str) -> None:
        """Look at the page, or at the pad that lies over it."""
        self.hand.settle()
        seen = self.hand.page.sheet or self.hand.shell
        self.found += [f"{where}: {fault}" for fault in faults(seen)]
