"""Ways of holding a tablet, and a look round that gathers what is wrong at each part."""

from __future__ import annotations

from typing import Any

from tests.in_full import IN_FULL
from tests.tree_walk import faults

_ALL = [
    *((name, turned, "en") for name in ("8in", "10in", "10in-coarse") for turned in (False, True)),
    *((name, turned, "es") for name in ("8in", "10in") for turned in (False, True)),
]
_SOME = [
    *(("8in", turned, language) for turned in (False, True) for language in ("en", "es")),
    *(("10in", False, "en"), ("10in-coarse", True, "en"), ("10in-coarse", False, "es")),
]
HOLDS = _ALL if IN_FULL else _SOME
"""Tablet, whether it is held upright, language.

The small tablet every way: what fits there fits the others. Of the large ones, which are alike in
millimetres, each way and language once; all of them where tests run in full.
"""


class LookRound:
    """Goes from part to part and gathers what is wrong at each."""

    driver: Any

    def __init__(self, driver: Any) -> None:
        self.driver = driver
        self.found: list[str] = []

    def look(self, where: str) -> None:
        """Look at the page, or at the pad that lies over it."""
        self.driver.settle()
        seen = self.driver.page.sheet or self.driver.shell
        self.found += [f"{where}: {fault}" for fault in faults(seen)]
