"""A folder as a store: durable in its steps, whole or not at all, and never led elsewhere."""

from __future__ import annotations

import errno
import hashlib
import os
import random
import stat
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path

import pytest

from sync.stores.errors import (
    NotStoredError,
    StoreError,
    StoreRefusedError,
    StoreUnreachableError,
)
from sync.stores.folder import FolderStore
from tests.house.tree import ROOT
from tests.small_disk import small_disk

SEED = 20_261_125
SAND = b"sand and gravel"

# Writes files named by their hash until it is killed, and says of each when it is kept.
WRITER = """
import hashlib, os, sys
from pathlib import Path
from sync.stores.folder import FolderStore

store = FolderStore(Path(sys.argv[1]))
while True:
    data = os.urandom(300_000)
    name = f"j/seg/{hashlib.sha256(data).hexdigest()}"
    store.write(name, data)
    print(name, flush=True)
"""


@pytest.fixture
def root(tmp_path: Path) -> Path:
    """The folder of a store."""
    root = tmp_path / "stick"
    root.mkdir()
    return root


@pytest.fixture
def store(root: Path) -> FolderStore:
    """The store in it."""
    return FolderStore(root)


def test_steps_are_made_durable_in_order(
    root: Path, store: FolderStore, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Each new folder is on the disk before what goes into it, the bytes before their name."""
    steps: list[str] = []
    sync, link = os.fsync, os.link

    def told_sync(handle: int) -> None:
        path = Path(os.readlink(f"/proc/self/fd/{handle}"))
        is_folder = stat.S_ISDIR(os.fstat(handle).st_mode)
        steps.append(f"sync {path.relative_to(root)}" if is_folder else "sync the bytes")
        sync(handle)

    def told_link(fresh: Path, place: Path) -> None:
        steps.append(f"name {place.relative_to(root)}")
        link(fresh, place)

    monkeypatch.setattr(os, "fsync", told_sync)
    monkeypatch.setattr(os, "link", told_link)
    store.write("j/seg/a", SAND)

    assert steps == ["sync .", "sync j", "sync the bytes", "name j/seg/a", "sync j/seg"]


def test_stick_without_links_is_written(
    root: Path, store: FolderStore, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Where a file can't have two names for a moment, it is renamed."""

    def no_links(fresh: Path, place: Path) -> None:
        raise PermissionError(errno.EPERM, "no links here")

    monkeypatch.setattr(os, "link", no_links)
    store.write("j/a", SAND)

    assert [path.name for path in (root / "j").iterdir()] == ["a"]
    assert store.read("j/a", 99) == SAND


def test_other_that_comes_in_the_last_moment_stays(
    root: Path, store: FolderStore, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Other bytes that take the name between the look and the renaming are not overwritten."""
    link = os.link

    def raced(fresh: Path, place: Path) -> None:
        place.write_bytes(b"other")
        link(fresh, place)

    monkeypatch.setattr(os, "link", raced)
    with pytest.raises(NotStoredError):
        store.write("j/a", SAND)

    assert [path.name for path in (root / "j").iterdir()] == ["a"]
    assert (root / "j" / "a").read_bytes() == b"other"


@pytest.mark.parametrize(
    ("number", "error", "words"),
    [
        (errno.ENOSPC, StoreRefusedError, "Make room on it"),
        (errno.EDQUOT, StoreRefusedError, "Make room on it"),
        (errno.EROFS, StoreRefusedError, "it can only be read"),
        (errno.EACCES, StoreRefusedError, "this user may not"),
        (errno.EIO, StoreUnreachableError, "reading from or writing to it fails"),
        (errno.ESTALE, StoreUnreachableError, "the share is not there any more"),
        (errno.ENODEV, StoreUnreachableError, "the device is not there any more"),
        (errno.EBUSY, StoreRefusedError, "no more than that it failed"),
    ],
)
def test_fault_of_the_disk_is_a_sentence(
    number: int,
    error: type[StoreError],
    words: str,
    root: Path,
    store: FolderStore,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """Nothing is left of a write that failed, and the same write works afterwards."""

    def failing(handle: int) -> None:
        raise OSError(number, "told by the system")

    (root / "j").mkdir()
    with monkeypatch.context() as patched:
        patched.setattr(os, "fsync", failing)
        with pytest.raises(error, match=words):
            store.write("j/a", SAND)
    assert list((root / "j").iterdir()) == []

    store.write("j/a", SAND)
    assert store.read("j/a", 99) == SAND


def test_full_stick_keeps_what_it_has(tmp_path: Path) -> None:
    """A real full disk: what does not go in leaves nothing, the others stay, a smaller fits."""
    with small_disk(tmp_path / "disk", 1):
        store = FolderStore(tmp_path / "disk")
        store.write("j/first", bytes(700_000))
        with pytest.raises(StoreRefusedError, match="it is full"):
            store.write("j/second", bytes(700_000))

        assert [path.name for path in (tmp_path / "disk" / "j").iterdir()] == ["first"]
        store.write("j/third", bytes(100_000))
        assert [one.name for one in store.list("")] == ["j/first", "j/third"]


def test_stick_that_is_pulled_out_is_told(root: Path, store: FolderStore) -> None:
    """A folder that is not there is not made, which would fill the tablet in place of the stick."""
    store.write("j/a", SAND)
    away = root.rename(root.with_name("away"))
    for verb in verbs(store):
        with pytest.raises(StoreUnreachableError, match="its folder is not there"):
            verb()
    assert not root.exists()

    away.rename(root)
    assert store.read("j/a", 99) == SAND


def verbs(store: FolderStore) -> list[Callable[[], object]]:
    """Return each verb on the file ``j/a``, not yet called."""
    return [
        lambda: store.list("j"),
        lambda: store.read("j/a", 99),
        lambda: store.write("j/a", SAND),
    ]


def test_writer_killed_at_any_moment_leaves_whole_files(root: Path, store: FolderStore) -> None:
    """After each SIGKILL all files that show are whole, and all that were told kept are there."""
    chance = random.Random(SEED)
    kept: list[str] = []
    for _ in range(15):
        with subprocess.Popen(
            [sys.executable, "-c", WRITER, str(root)], cwd=ROOT, stdout=subprocess.PIPE, text=True
        ) as writer:
            assert writer.stdout is not None
            kept.append(writer.stdout.readline().strip())
            time.sleep(chance.uniform(0, 0.05))
            writer.kill()
            kept += writer.stdout.read().split()
        names = [one.name for one in store.list("j/seg")]
        for name in names:
            digest = hashlib.sha256(store.read(name, 300_000)).hexdigest()
            assert name == f"j/seg/{digest}"
        assert set(kept) <= set(names)
