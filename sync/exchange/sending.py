"""Files that this device has and a store does not show are written there, and proved."""

from __future__ import annotations

import hashlib
from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Final

from sync.exchange.ledger import Ledger
from sync.exchange.place import Place
from sync.exchange.shown import SEGMENTS, Shown
from sync.exchange.steps import Steps
from sync.segments.limits import PACKED_BYTES
from sync.segments.name import SegmentName
from sync.stores.errors import (
    NotInStoreError,
    NotKeptInStoreError,
    TakenInStoreError,
    TooLargeError,
)
from sync.stores.store import Listed, Store

ELSEWHERE: Final = 9  # folders to go on to when other bytes stand under a name


@dataclass(slots=True)
class Sent:
    """What came of it."""

    files: int = 0
    names: list[str] = field(default_factory=list)  # of those, without their folders
    notes: list[str] = field(default_factory=list)  # of files that the store did not take


def send_segments(
    store: Store,
    shown: Shown,
    place: Place,
    ledger: Ledger,
    key: str,
    steps: Steps,
    *,
    proves_all: bool = False,
) -> Sent:
    """Write every kept segment that the store does not show, or shows with another size.

    ``proves_all`` reads back also what the store shows rightly by size, and puts right what
    it has spoilt.

    Raises
    ------
    sync.stores.errors.StoreError
        If the store stopped answering; what was written before stands.
    """
    names = [name for name in sorted(place.names()) if _is_passed_on(name, ledger)]
    wanted = [
        name
        for name in names
        if not _is_shown(store, shown.segments.get(name, ()), place, name, proves_all)
    ]
    sent = Sent()
    for number, name in enumerate(wanted):
        steps.go("send", number, len(wanted))
        data = place.read(name)
        if hashlib.sha256(data).hexdigest() != name.digest:
            ledger.damaged.add(str(name))
            continue
        put(store, f"{key}/{SEGMENTS}", str(name), data, sent)
    return sent


def put(store: Store, folder: str, name: str, data: bytes, sent: Sent) -> None:
    """Write a file and prove it by reading it back; where other bytes stand, go elsewhere."""
    note = ""
    for again in ("", *(f"again-{number}/" for number in range(1, ELSEWHERE + 1))):
        path = f"{folder}/{again}{name}"
        try:
            store.write(path, data)
            if store.read(path, len(data)) == data:
                sent.files += 1
                sent.names.append(name)
                return
        except (TakenInStoreError, NotKeptInStoreError, NotInStoreError, TooLargeError) as fault:
            note = note or str(fault)
    if note:
        sent.notes.append(note)


def _is_passed_on(name: SegmentName, ledger: Ledger) -> bool:
    aside = ledger.aside.get(str(name))
    return aside is None or not aside.is_final


def _is_shown(
    store: Store, files: Sequence[Listed], place: Place, name: SegmentName, proves: bool
) -> bool:
    size = place.size(name)
    whole = [file for file in files if file.size == size]
    if not proves:
        return bool(whole)
    return any(_is_whole(store, file, name) for file in whole)


def _is_whole(store: Store, file: Listed, name: SegmentName) -> bool:
    try:
        data = store.read(file.name, PACKED_BYTES)
    except (NotInStoreError, TooLargeError):
        return False
    return hashlib.sha256(data).hexdigest() == name.digest
