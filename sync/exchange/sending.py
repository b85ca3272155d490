"""Sending of files that this device has and a store lacks; each is proved by reading it back."""

from __future__ import annotations

import hashlib
from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Final

from sync.exchange.coverage import count_covered
from sync.exchange.exchange_log import ExchangeLog
from sync.exchange.job_folder import JobFolder
from sync.exchange.listing import SEGMENTS, JobListing
from sync.exchange.progress import ProgressReporter
from sync.segments.file_name import SegmentName
from sync.segments.limits import PACKED_BYTES
from sync.stores.contract import ListedFile, Store
from sync.stores.errors import (
    NotInStoreError,
    NotStoredError,
    StoreNameTakenError,
    TooLargeError,
)

ELSEWHERE: Final = 9  # folders to go on to when other bytes stand under a name


@dataclass(slots=True)
class SendResult:
    """Result of sending files to a store."""

    files: int = 0
    names: list[str] = field(default_factory=list)  # of those, without their folders
    rows: int = 0  # entries in the segments among them
    to_send: int = 0  # entries that the store was seen to lack
    notes: list[str] = field(default_factory=list)  # of files that the store did not take


def wanted_segments(
    store: Store,
    shown: JobListing,
    place: JobFolder,
    log: ExchangeLog,
    *,
    proves_all: bool = False,
) -> list[SegmentName]:
    """Return every kept segment that the store does not show, or shows with another size.

    ``proves_all`` reads back also what the store shows rightly by size.
    """
    names = [name for name in sorted(place.names()) if _is_passed_on(name, log)]
    return [
        name
        for name in names
        if not _is_shown(store, shown.segments.get(name, ()), place, name, proves_all)
    ]


def send_segments(
    store: Store,
    wanted: Sequence[SegmentName],
    place: JobFolder,
    log: ExchangeLog,
    key: str,
    steps: ProgressReporter,
    sent: SendResult,
) -> None:
    """Write segments that a store lacks, and put right those that it has spoilt.

    ``sent`` is told of each as it is proven there, so that it holds true also when it ends early.

    Raises
    ------
    sync.stores.errors.StoreError
        If the store stopped answering; what was written before stands.
    """
    gone: list[SegmentName] = []
    for number, name in enumerate(wanted):
        steps.next_step("send", number, len(wanted))
        data = place.read(name)
        if hashlib.sha256(data).hexdigest() != name.digest:
            log.damaged.add(str(name))
            continue
        if write_and_verify(store, f"{key}/{SEGMENTS}", str(name), data, sent):
            gone.append(name)
            sent.rows = count_covered(gone)


def write_and_verify(store: Store, folder: str, name: str, data: bytes, sent: SendResult) -> bool:
    """Write a file and prove it by reading it back; where other bytes stand, go elsewhere.

    Returns whether it is there.
    """
    note = ""
    for again in ("", *(f"again-{number}/" for number in range(1, ELSEWHERE + 1))):
        path = f"{folder}/{again}{name}"
        try:
            store.write(path, data)
            if store.read(path, len(data)) == data:
                sent.files += 1
                sent.names.append(name)
                return True
        except (StoreNameTakenError, NotStoredError, NotInStoreError, TooLargeError) as fault:
            note = note or str(fault)
    if note:
        sent.notes.append(note)
    return False


def _is_passed_on(name: SegmentName, log: ExchangeLog) -> bool:
    aside = log.aside.get(str(name))
    return aside is None or not aside.is_final


def _is_shown(
    store: Store, files: Sequence[ListedFile], place: JobFolder, name: SegmentName, proves: bool
) -> bool:
    size = place.size(name)
    whole = [file for file in files if file.size == size]
    if not proves:
        return bool(whole)
    return any(_is_whole(store, file, name) for file in whole)


def _is_whole(store: Store, file: ListedFile, name: SegmentName) -> bool:
    try:
        data = store.read(file.name, PACKED_BYTES)
    except (NotInStoreError, TooLargeError):
        return False
    return hashlib.sha256(data).hexdigest() == name.digest
