"""A watched program: files are published into a folder, and acknowledged one by one."""

from __future__ import annotations

import json
import os
import stat
import sys
from collections.abc import Callable
from pathlib import Path

from sync.stores.errors import StoreError
from sync.stores.folder import FolderStore
from tests.power.inside import Recorder
from tests.power.parcels import parcel

sync_file = os.fsync


def weaken(mode: str) -> None:
    """Leave out a sync, as a careless program does: that of the "file" or of the "folder"."""
    is_left_out: Callable[[int], bool] = {"file": stat.S_ISREG, "folder": stat.S_ISDIR}[mode]

    def sync(handle: int) -> None:
        if not is_left_out(os.fstat(handle).st_mode):
            sync_file(handle)

    os.fsync = sync  # type: ignore[assignment]


def leave_a_piece(place: Path, data: bytes) -> None:
    """Put the beginning of a file under its final name, as a copy that was cut off does."""
    place.parent.mkdir(exist_ok=True)
    place.write_bytes(data[: len(data) // 2])


def publish_all(store: FolderStore, count: int, recorder: Recorder) -> None:
    """Publish so many files; some names hold a piece already, some files come twice."""
    for number in range(count):
        name, data = parcel(number)
        if number % 5 == 1:
            leave_a_piece(store.root / name, data)
        if number % 5 == 2:  # a program was killed before it could acknowledge
            leave_a_piece(store.root / name, data + data)
        store.write(name, data)
        recorder.tell(name)


def publish_through_faults(folder: Path, cases: list[list[str | int | bool]]) -> None:
    """Publish a file under each fault, and try again until it is taken."""
    recorder = Recorder()
    store = FolderStore(folder)
    store.write(*parcel(9999))
    for number, (what, nth, error, lasts) in enumerate(cases):
        name, data = parcel(number)
        recorder.plan_fault(str(what), int(nth), str(error), bool(lasts))
        refusals = 0
        while True:
            try:
                store.write(name, data)
            except StoreError:
                refusals += 1
            else:
                recorder.tell(name)
                break
            if refusals == 3:
                recorder.end_faults()
        recorder.end_faults()
        print(refusals)


def main(folder: Path, mode: str, words: str) -> None:
    """Publish through faults given as JSON, or so many files, as well as may be or weakened."""
    if mode == "faults":
        publish_through_faults(folder, json.loads(words))
        return
    if mode != "as it is":
        weaken(mode)
    publish_all(FolderStore(folder), int(words), Recorder())


if __name__ == "__main__":
    main(Path(sys.argv[1]), sys.argv[2], sys.argv[3])
