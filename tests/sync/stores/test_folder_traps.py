"""What lies in a folder that a stranger filled: links, pipes, names in other letters."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from sync.stores.errors import NotInStoreError, StoreNameTakenError, StoreRefusedError
from sync.stores.folder import FolderStore

SAND = b"sand and gravel"


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


def check_refused(store: FolderStore, words: str) -> None:
    """Neither read nor write goes to where ``j/a`` leads."""
    with pytest.raises(StoreRefusedError, match=words):
        store.read("j/a", 99)
    with pytest.raises(StoreRefusedError, match=words):
        store.write("j/a", SAND)


def test_link_to_a_folder_elsewhere_is_not_followed(root: Path, store: FolderStore) -> None:
    """A stick can't have the tablet's own files read, listed or written."""
    elsewhere = root.with_name("elsewhere")
    elsewhere.mkdir()
    (elsewhere / "a").write_bytes(b"private")
    (root / "j").symlink_to(elsewhere)
    check_refused(store, "a link in it leads elsewhere")

    assert store.list("") == []
    assert (elsewhere / "a").read_bytes() == b"private"


def test_link_to_a_file_elsewhere_is_not_followed(root: Path, store: FolderStore) -> None:
    """Nor a single file, by a link under the name of one of ours."""
    private = root.with_name("private")
    private.write_bytes(b"private")
    (root / "j").mkdir()
    (root / "j" / "a").symlink_to(private)
    check_refused(store, "a link stands where a file is wanted")

    assert store.list("") == []
    assert private.read_bytes() == b"private"


def test_pipe_is_not_waited_for(root: Path, store: FolderStore) -> None:
    """A named pipe, from which nothing may ever come, is no file."""
    (root / "j").mkdir()
    os.mkfifo(root / "j" / "a")

    assert store.list("") == []
    with pytest.raises(NotInStoreError):
        store.read("j/a", 99)
    with pytest.raises(StoreRefusedError):
        store.write("j/a", SAND)


@pytest.mark.parametrize("met", ["j/SEG/a", "J/seg/a", "j/seg/A"])
def test_name_that_differs_by_case_is_noticed(met: str, root: Path, store: FolderStore) -> None:
    """On a stick that folds case the two would be one, so the second is refused everywhere."""
    path = root / met
    path.parent.mkdir(parents=True)
    path.write_bytes(b"other")
    with pytest.raises(StoreNameTakenError) as clash:
        store.write("j/seg/a", SAND)

    assert str(clash.value.context["taken"]) in met.split("/")
    assert path.read_bytes() == b"other"


@pytest.mark.parametrize("met", ["k/SEG/a", "K/seg/a", "k/seg/A"])
def test_stick_that_folds_case_overwrites_nothing(met: str, exfat_stick: Path) -> None:
    """On a real one, where the other name leads to the same file, it is left as it is."""
    root = exfat_stick / met.replace("/", "-").casefold() / met.encode().hex()
    path = root / met
    path.parent.mkdir(parents=True)
    path.write_bytes(b"other")
    assert (root / met.casefold()).read_bytes() == b"other", "this stick does not fold case"
    with pytest.raises(StoreNameTakenError):
        FolderStore(root).write(met.casefold(), SAND)

    assert path.read_bytes() == b"other"


def test_file_in_place_of_a_folder_is_told(root: Path, store: FolderStore) -> None:
    """A file that bears the name of a job is not pushed aside."""
    (root / "j").write_bytes(b"notes")
    with pytest.raises(StoreRefusedError, match="where a folder is wanted"):
        store.write("j/a", SAND)

    assert store.list("j") == []
    assert (root / "j").read_bytes() == b"notes"
