"""The private keys of this tablet's streams: in its folder, for its owner alone, nowhere else."""

from __future__ import annotations

import re
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from crewapp.tablet.atomic_files import write_atomically
from models.book.file.fsync_folder import make_folder_durably

if TYPE_CHECKING:
    from sync.trust.keys import Signer


_STREAM = re.compile(r"[0-9a-f]{32}")


@dataclass(frozen=True, slots=True)
class TabletKeys:
    """A key ring whose keys are files: one a stream, also of streams that were given up.

    The keys of past streams stay, to send what was written under them.
    """

    folder: Path

    def path_of(self, stream: str) -> Path:
        """Return where the key of a stream is kept."""
        return self.folder / f"{stream}.key"

    def make(self) -> str:
        """Make and keep a new key; return the id of its stream.

        Raises
        ------
        NotSavedError
            If the storage refuses.
        """
        from sync.trust.keys import Signer

        signer = Signer.new()
        make_folder_durably(self.folder, mode=0o700)
        write_atomically(self.path_of(signer.stream), signer.secret_text().encode(), is_secret=True)
        return signer.stream

    def signer(self, stream: str) -> Signer | None:
        """Return the signer of a stream, or None if its key is not on this tablet.

        Raises
        ------
        KeyUnreadableError
            If the key is there and damaged.
        """
        from sync.trust.keys import DEMO, Signer

        if stream == DEMO.stream:
            return DEMO
        if not _STREAM.fullmatch(stream):
            return None  # such as that of a book made by hand; and no file name
        try:
            text = self.path_of(stream).read_text(encoding="ascii")
        except (OSError, UnicodeDecodeError):
            return None
        return Signer.read(text, stream)
