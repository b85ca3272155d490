"""Which stream an install writes to, and what a copied tablet does."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from models.book.errors import AnchorError
from models.book.stream import find_stream


@pytest.fixture
def files(tmp_path: Path) -> tuple[Path, Path]:
    """Where id and anchor lie: in two folders, of which one is backed up."""
    return tmp_path / "settings" / "stream.json", tmp_path / "nobackup" / "anchor.json"


def test_first_start_makes_a_stream_and_keeps_it(files: tuple[Path, Path]) -> None:
    """The id is 128 random bits in hex and stays from start to start."""
    first = find_stream(*files)

    assert len(first.id) == 32
    assert int(first.id, 16) >= 0
    assert not first.is_new
    assert find_stream(*files) == first


def test_restored_or_cloned_install_starts_its_own(
    files: tuple[Path, Path], tmp_path: Path
) -> None:
    """The id came along without its anchor: a new stream, and the old one is named."""
    old = find_stream(*files)
    there = tmp_path / "other" / "stream.json"
    there.parent.mkdir()
    shutil.copyfile(files[0], there)

    new = find_stream(there, tmp_path / "other-nobackup" / "anchor.json")

    assert new.id != old.id
    assert new.replaces == old.id
    assert new.is_new
    assert find_stream(*files) == old


def test_clone_with_an_anchor_of_its_own_starts_its_own(
    files: tuple[Path, Path], tmp_path: Path
) -> None:
    """A tablet that was in use and gets another's settings notices that they are not its own."""
    old = find_stream(*files)
    other = (tmp_path / "b" / "stream.json", tmp_path / "b" / "anchor.json")
    find_stream(*other)
    shutil.copyfile(files[0], other[0])

    assert find_stream(*other).replaces == old.id


@pytest.mark.parametrize("content", [b"", b"{", b"[1]", b"\xff\xfe", b'{"anchor": "0"}'])
@pytest.mark.parametrize("which", [0, 1])
def test_broken_files_start_a_new_stream(
    files: tuple[Path, Path], which: int, content: bytes
) -> None:
    """Half a file is as good as none: never two installs with one stream."""
    old = find_stream(*files)
    files[which].write_bytes(content)

    new = find_stream(*files)

    assert new.id != old.id
    assert find_stream(*files).id == new.id


def test_folder_in_the_way_is_said(files: tuple[Path, Path]) -> None:
    """What cannot be used is told in a sentence, with no stream begun."""
    files[1].mkdir(parents=True)

    with pytest.raises(AnchorError) as caught:
        find_stream(*files)
    assert caught.value.context["path"] == files[1]
    assert not files[0].exists()


def test_place_that_cannot_be_written_is_said(tmp_path: Path) -> None:
    """A file where the folder should be is told too."""
    (tmp_path / "settings").touch()

    with pytest.raises(AnchorError):
        find_stream(tmp_path / "settings" / "stream.json", tmp_path / "anchor.json")
