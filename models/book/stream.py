"""Stream that this install writes to, and how a copied tablet notices that it is a copy.

A stream is one install of the app on one tablet. Its id is kept in the app's settings,
which a backup may carry to another tablet; the anchor is kept where no backup goes. If
the two no longer belong together, this install is a copy and starts a stream of its own:
numbers of one stream given out by two tablets would be two entries with one place.
"""

from __future__ import annotations

import hashlib
import json
import os
import secrets
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from models.book.errors import AnchorError
from models.book.file.fsync_folder import fsync_folder, make_folder_durably

_ID_BYTES = 16


@dataclass(frozen=True, slots=True)
class Stream:
    """The stream to write to, and the one that it takes over from."""

    id: str
    replaces: str | None = None  # the id met on a copied or restored install

    @property
    def is_new(self) -> bool:
        """Whether the stream was started just now because the anchor did not fit."""
        return self.replaces is not None


def random_id() -> str:
    """Return an id for a stream that has no key."""
    return secrets.token_hex(_ID_BYTES)


def find_stream(id_file: Path, anchor_file: Path, new_id: Callable[[], str] = random_id) -> Stream:
    """Return this install's stream, started anew if id and anchor do not belong together.

    Parameters
    ----------
    id_file : Path
        Where the id is kept; may be part of a backup.
    anchor_file : Path
        Where the anchor is kept: outside the folder of the books and outside backups.
    new_id : callable
        Gives the id of a new stream; what the id stands for is kept before it is returned.

    Raises
    ------
    AnchorError
        If one of the files can be neither read nor written.
    """
    told = _read(id_file)
    anchor = _read(anchor_file)
    id, seal = told.get("stream", ""), told.get("seal", "")
    if id and seal == _seal(id, anchor.get("anchor", "")):
        return Stream(id)
    return Stream(start_stream(id_file, anchor_file, new_id), id or None)


def start_stream(id_file: Path, anchor_file: Path, new_id: Callable[[], str] = random_id) -> str:
    """Start a new stream in place of whichever this install had; return its id.

    Raises
    ------
    AnchorError
        If one of the files can't be written.
    """
    id, anchor = new_id(), secrets.token_hex(_ID_BYTES)
    # The anchor first: cut off in between, the old id no longer fits, and that is safe.
    _write(anchor_file, {"anchor": anchor})
    _write(id_file, {"stream": id, "seal": _seal(id, anchor)})
    return id


def _seal(id: str, anchor: str) -> str:
    return hashlib.sha256(f"{id}:{anchor}".encode()).hexdigest() if anchor else ""


def _read(file: Path) -> dict[str, str]:
    try:
        told = json.loads(file.read_bytes())
    except FileNotFoundError:
        return {}
    except OSError as fault:
        raise AnchorError(path=file, why=str(fault.strerror)) from fault
    except ValueError:
        return {}  # cut short or overwritten: as good as lost
    return told if isinstance(told, dict) else {}


def _write(file: Path, told: dict[str, str]) -> None:
    part = file.with_name(file.name + ".part")
    try:
        make_folder_durably(file.parent)
        with part.open("w", encoding="utf-8") as out:
            json.dump(told, out)
            out.flush()
            os.fsync(out.fileno())
        part.replace(file)
        fsync_folder(file.parent)  # before anything is written under it
    except OSError as fault:
        raise AnchorError(path=file, why=str(fault.strerror)) from fault
