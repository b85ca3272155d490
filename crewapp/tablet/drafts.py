"""Half-typed input, kept so that it survives a kill."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

from crewapp.tablet.settings import NotSavedError, write_atomically


class Drafts:
    """Half-typed input of screens, a small file each; an unreadable one counts as no draft.

    ``trouble`` is told, once, that the storage keeps nothing more: what is typed
    still stands on the screen, and no tap may fail for it.
    """

    def __init__(self, folder: Path, trouble: Callable[[str], None] = lambda text: None) -> None:
        self._folder = folder
        self._trouble = trouble
        self._is_failing = False
        self._kept: dict[str, dict[str, Any]] = {}

    def read(self, screen: str) -> dict[str, Any]:
        """Return what was half-typed on a screen."""
        if screen not in self._kept:
            self._kept[screen] = self._load(screen)
        return dict(self._kept[screen])

    def keep(self, screen: str, typed: dict[str, Any]) -> None:
        """Keep what is half-typed; nothing is written when nothing changed."""
        if typed != self.read(screen):
            self._kept[screen] = dict(typed)
            data = json.dumps(typed, ensure_ascii=False).encode()
            self._write(self._folder / f"{screen}.json", data)

    def _write(self, path: Path, data: bytes) -> None:
        try:
            write_atomically(path, data, is_lasting=False)  # at each key: it is to outlast a kill
        except NotSavedError as fault:
            if not self._is_failing:
                self._trouble(str(fault))
            self._is_failing = True
        else:
            self._is_failing = False

    def clear(self, screen: str) -> None:
        """Forget a draft: it was inked or given up."""
        self.keep(screen, {})

    def _load(self, screen: str) -> dict[str, Any]:
        try:
            told = json.loads((self._folder / f"{screen}.json").read_text(encoding="utf-8"))
        except (OSError, ValueError):
            return {}
        return told if isinstance(told, dict) else {}
