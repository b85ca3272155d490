"""Passwords for stores: from the surroundings, or from a file that only its owner may read.

They stand neither in the text that says where a store is, nor in a book, nor in any sentence.
"""

from __future__ import annotations

import contextlib
import json
import os
import stat
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any, Final

from sync.stores.address import StoreAddress
from sync.stores.errors import StoreRefusedError

FILE: Final = "store-passwords.json"
USER_NAMED: Final = "CREWAPP_STORE_USER"
PASSWORD_NAMED: Final = "CREWAPP_STORE_PASSWORD"


@dataclass(frozen=True, slots=True)
class Secret:
    """User and password for a store; printing does not reveal the password."""

    user: str
    password: str = field(repr=False)


class SecretsExposedError(StoreRefusedError):
    """The file of passwords can be read by others on this device."""

    code = "store.secrets_seen"
    sentence = (
        "Cannot use the passwords in {path}: others on this device may read them too. "
        "Nothing was sent. Close the file to them, with: chmod 600 {path}. Then change a "
        "password that may have been read."
    )


class SecretsUnreadableError(StoreRefusedError):
    """The file of passwords is not what ``keep_secret`` writes."""

    code = "store.secrets_unread"
    sentence = (
        "Cannot read the passwords in {path}: {why}. An object would be read that gives for "
        "each store an object with user and password. Take the file away and give them again."
    )


def find_secret(where: StoreAddress, home: Path) -> Secret | None:
    """Return what lets us in at a store; the file in the tablet's folder goes first.

    Raises
    ------
    SecretsExposedError
        If that file is open to others.
    SecretsUnreadableError
        If it can't be read.
    """
    kept = _read(home / FILE).get(str(where))
    if kept is not None:
        return Secret(kept["user"], kept["password"])
    password = os.environ.get(PASSWORD_NAMED)
    if not password:
        return None
    return Secret(os.environ.get(USER_NAMED, "") or where.user, password)


def keep_secret(where: StoreAddress, home: Path, secret: Secret) -> None:
    """Write down what lets us in at a store, in a file for its owner alone.

    Raises
    ------
    SecretsExposedError
        If the file is there and open to others.
    SecretsUnreadableError
        If it is there and can't be read.
    """
    path, fresh = home / FILE, home / f".{FILE}.new"
    kept = _read(path) | {str(where): {"user": secret.user, "password": secret.password}}
    with contextlib.suppress(FileNotFoundError):
        fresh.unlink()  # one left by a cut might have been opened by others since
    handle = os.open(fresh, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600)
    with os.fdopen(handle, "w", encoding="utf-8") as out:
        json.dump(kept, out, indent=1, sort_keys=True)
        out.flush()
        os.fsync(out.fileno())
    fresh.replace(path)


def require_private(path: Path) -> None:
    """See to it that a file of secrets is its owner's alone; where modes mean nothing, pass.

    Raises
    ------
    SecretsExposedError
        If others may read or write it.
    """
    if os.name == "posix" and stat.S_IMODE(path.stat().st_mode) & 0o077:
        raise SecretsExposedError(path=path)


def _read(path: Path) -> dict[str, dict[str, str]]:
    """Return the secrets of each store; none if there is no such file."""
    try:
        text = path.read_text(encoding="utf-8")
    except FileNotFoundError:
        return {}
    except (OSError, UnicodeDecodeError):
        raise SecretsUnreadableError(path=path, why="it does not open, or is no text") from None
    require_private(path)
    try:
        told: Any = json.loads(text)
    except ValueError:  # its message would show a piece of the file
        raise SecretsUnreadableError(path=path, why="it is no JSON") from None
    if not isinstance(told, dict) or not all(_is_kept(one) for one in told.values()):
        raise SecretsUnreadableError(path=path, why="it holds something else")
    return told


def _is_kept(one: object) -> bool:
    """Tell whether a value of the file is a user with a password."""
    if not isinstance(one, dict) or set(one) != {"user", "password"}:
        return False
    return all(isinstance(text, str) for text in one.values())
