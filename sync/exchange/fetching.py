"""Fetching of segments that a store lists and this device lacks; each is checked and saved."""

from __future__ import annotations

from collections.abc import Callable
from typing import Final

from models.errors import CrewError
from sync.exchange.errors import TooManyPendingError
from sync.exchange.exchange_log import ExchangeLog
from sync.exchange.job_folder import JobFolder
from sync.exchange.listing import JobListing
from sync.exchange.progress import ProgressReporter
from sync.segments.errors import SegmentBytesError, SegmentError, SegmentTooNewError
from sync.segments.file_name import SegmentName
from sync.segments.limits import PACKED_BYTES
from sync.segments.reader import open_segment, require_bytes
from sync.stores.contract import ListedFile, Store
from sync.stores.errors import NotInStoreError, StoreUnreachableError, TooLargeError

WAITING_BYTES: Final = 512 * 1024 * 1024  # a season of twenty tablets is a tenth of it


IsKnown = Callable[[str], bool]


def fetch(
    store: Store,
    shown: JobListing,
    place: JobFolder,
    log: ExchangeLog,
    key: str,
    steps: ProgressReporter,
    is_known: IsKnown,
    on_kept: Callable[[], None],
) -> None:
    """Save every sound segment that is not here yet; ``on_kept`` is called for each at once.

    A file that is half, altered or forged is noted as set aside, and the rest goes on. What
    strangers may fill this device with is bounded; streams that ``is_known`` tells to be on
    the job's list come all the same.

    Raises
    ------
    sync.stores.errors.StoreError
        If the store stopped answering; what came before is kept.
    LocalStorageError
        If there is no room here.
    """
    here = {name for name in place.names() if str(name) not in log.damaged}
    wanted = [name for name in sorted(shown.segments) if name not in here]
    wanted = [name for name in wanted if not log.is_refused(name)]
    waiting = sum(place.size(name) for name in here if str(name) not in log.taken)
    for number, name in enumerate(wanted):
        steps.next_step("fetch", number, len(wanted))
        is_full = waiting > WAITING_BYTES
        if is_full and not is_known(name.stream):
            log.reject(name, TooManyPendingError(name=name.text, limit=WAITING_BYTES))
            continue
        data = _read_sound(store, name, shown.segments[name], log)
        if data is not None and _is_sound(name, data, key, log, is_full):
            place.save_segment(name, data)
            log.damaged.discard(str(name))
            waiting += len(data)
            on_kept()


def _read_sound(
    store: Store, name: SegmentName, files: list[ListedFile], log: ExchangeLog
) -> bytes | None:
    """Return the bytes that the name was made of, from whichever file has them."""
    why: CrewError | None = None
    for file in files:
        try:
            data = store.read(file.name, PACKED_BYTES)
            require_bytes(name, data)
        except StoreUnreachableError:
            raise
        except (NotInStoreError, TooLargeError, SegmentError) as fault:
            why = fault
        else:
            return data
    if why is not None:
        log.reject(name, why)
    return None


def _is_sound(name: SegmentName, data: bytes, key: str, log: ExchangeLog, is_full: bool) -> bool:
    """Whether a segment is worth keeping: sound, or of a later version that has room."""
    try:
        open_segment(name, data, key)
    except SegmentTooNewError:
        if is_full:  # nobody signed for it in a way that can be read here
            log.reject(name, TooManyPendingError(name=name.text, limit=WAITING_BYTES))
        return not is_full
    except SegmentBytesError:
        return False
    except SegmentError as fault:
        log.reject(name, fault, is_final=True)
        return False
    return True
