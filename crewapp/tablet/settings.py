"""The tablet itself: where it keeps things, who it is, how it is set."""

from __future__ import annotations

import json
import os
import sys
from contextlib import suppress
from dataclasses import asdict, dataclass, replace
from pathlib import Path
from typing import Any

from crewapp.tablet.atomic_files import NotSavedError as NotSavedError
from crewapp.tablet.atomic_files import write_atomically as write_atomically
from crewapp.tablet.keys import TabletKeys

RENEWED = "renewed-code"


@dataclass(frozen=True, slots=True)
class Settings:
    """Settings of this tablet; none of them is part of any record."""

    author: str = ""
    tablet_name: str = ""
    language: str = "en"
    unit_system: str = "us"
    left_handed: bool = False
    screen_factor_permille: int = 1000
    last_book: str = ""
    store: str = ""  # where jobs are exchanged, as sync.stores.address writes it; never a secret


@dataclass(frozen=True, slots=True)
class Tablet:
    """The folder of one install: books, drafts, settings, its stream's anchor."""

    folder: Path

    @classmethod
    def of_user(cls) -> Tablet:
        """Return the tablet of this user; ``CREWAPP_HOME`` names another folder."""
        named = os.environ.get("CREWAPP_HOME")
        return cls(Path(named) if named else _user_folder())

    @property
    def books(self) -> Path:
        """Folder of the books."""
        return self.folder / "books"

    @property
    def drafts(self) -> Path:
        """Folder of half-typed input."""
        return self.folder / "drafts"

    @property
    def heads(self) -> Path:
        """Folder that tells how far this tablet's entries of each book have come."""
        return self.folder / "heads"

    def stream(self) -> str:
        """Return the stream that this install writes; made at first need, with its key."""
        from models.book.stream import find_stream

        found = find_stream(self.folder / "stream.json", self.anchor, self._new_key)
        if found.replaces is not None:
            self._note_renewal(found.id)
        # Without its key it could never be sent: what was written under it stays, here.
        return found.id if self.keys.path_of(found.id).exists() else self.renew_stream()

    def renew_stream(self) -> str:
        """Start a new stream: another tablet wrote, or writes, under the one of before."""
        from models.book.stream import start_stream

        started = start_stream(self.folder / "stream.json", self.anchor, self._new_key)
        self._note_renewal(started)
        return started

    def take_renewal(self) -> str:
        """Return, once, the code under which a restored or copied tablet goes on; "" if none."""
        note = self.folder / RENEWED
        try:
            code = note.read_text(encoding="ascii").strip()
            note.unlink()
        except (OSError, UnicodeDecodeError):
            return ""
        return code

    def _note_renewal(self, stream: str) -> None:
        from models.entries.tablet_code import code_of

        with suppress(NotSavedError):  # the Exchange page tells it too
            write_atomically(self.folder / RENEWED, code_of(stream).encode())

    @property
    def keys(self) -> TabletKeys:
        """The keys of this install's streams, past ones among them."""
        return TabletKeys(self.folder / "keys")

    def _new_key(self) -> str:
        return self.keys.make()

    @property
    def anchor(self) -> Path:
        """File that backups leave out, by which a copied tablet knows that it is one."""
        if self.folder != _user_folder():
            return self.folder.with_name(f"{self.folder.name}.anchor") / "anchor.json"
        state = os.environ.get("XDG_STATE_HOME", Path.home() / ".local" / "state")
        return Path(state) / "crewapp" / "anchor.json"

    def settings(self) -> Settings:
        """Read the settings; what can't be read counts as not set."""
        try:
            told: Any = json.loads((self.folder / "settings.json").read_text(encoding="utf-8"))
        except (OSError, ValueError):
            return Settings()
        if not isinstance(told, dict):
            return Settings()
        plain = asdict(Settings())
        kept = {k: v for k, v in told.items() if k in plain and type(v) is type(plain[k])}
        return replace(Settings(), **kept)

    def keep_settings(self, settings: Settings) -> None:
        """Write the settings, whole or not at all.

        Raises
        ------
        NotSavedError
            If the storage refuses; the settings before still hold.
        """
        write_atomically(
            self.folder / "settings.json",
            json.dumps(asdict(settings), indent=1, ensure_ascii=False).encode(),
        )


def _user_folder() -> Path:
    home = Path.home()
    if sys.platform == "win32":
        return Path(os.environ.get("APPDATA", home)) / "crewapp"
    if sys.platform == "darwin":
        return home / "Library" / "Application Support" / "crewapp"
    return Path(os.environ.get("XDG_DATA_HOME", home / ".local" / "share")) / "crewapp"
