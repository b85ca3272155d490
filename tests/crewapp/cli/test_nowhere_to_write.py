"""Papers and hand-overs into a folder that takes nothing: a sentence, exit 2, nothing left."""

from __future__ import annotations

import errno
import os
import shutil
from collections.abc import Callable, Iterator
from contextlib import suppress
from pathlib import Path

import pytest

from crewapp.cli.main import BAD_INPUT, FINE, main
from tests.small_disk import small_disk

PLAN = Path(__file__).parents[3] / "fixtures" / "plans" / "small.json"
WRITES: dict[str, tuple[str, ...]] = {
    "hand-over": ("handover", "make", "BOOK", "--out", "FOLDER/job.crew"),
    "day sheet": ("sheet", "BOOK", "--out", "FOLDER/new/papers"),
    "take-off": ("plan", "takeoff", "BOOK", "--out", "FOLDER/new/papers"),
    "stake-out": ("plan", "stakeout", "BOOK", "--out", "FOLDER/new/papers"),
    "as-built": ("asbuilt", "BOOK", "--out", "FOLDER/new/papers"),
    "report": ("office", "report", "--db", "OFFICE", "--html", "FOLDER/report.html"),
}
"""Commands that make files, and where."""


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder with a book, its tablet, and an office that took it in."""
    folder = tmp_path_factory.mktemp("made")
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("CREWAPP_HOME", str(folder / "home"))
        assert main(["plan", str(folder / "small.book"), str(PLAN)]) == FINE
        taken = ["office", "take", "--db", str(folder / "office.db"), "--files"]
        assert main([*taken, str(folder / "small.book")]) == FINE
    return folder


@pytest.fixture
def write(
    made: Path,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> Callable[[str, Path], tuple[int, str]]:
    """Run one of the commands into a folder; its exit code and what it says."""
    shutil.copytree(made, tmp_path / "site")
    monkeypatch.setenv("CREWAPP_HOME", str(tmp_path / "site" / "home"))

    def run(name: str, folder: Path) -> tuple[int, str]:
        words = [
            word.replace("FOLDER", str(folder))
            .replace("BOOK", str(tmp_path / "site" / "small.book"))
            .replace("OFFICE", str(tmp_path / "site" / "office.db"))
            for word in WRITES[name]
        ]
        capsys.readouterr()
        code = main(words)
        return code, capsys.readouterr().err

    return run


Write = Callable[[str, Path], tuple[int, str]]


@pytest.mark.parametrize("name", WRITES)
def test_a_file_in_the_place_of_the_folder_is_told(write: Write, tmp_path: Path, name: str) -> None:
    """What lies there is as it was."""
    place = tmp_path / "file"
    place.write_text("a shopping list")
    code, told = write(name, place)

    assert code == BAD_INPUT
    assert "file" in told or "Not a directory" in told
    assert "Traceback" not in told
    assert place.read_text() == "a shopping list"


@pytest.fixture
def full_disk(tmp_path: Path) -> Iterator[Path]:
    """A disk without one byte of room."""
    with small_disk(tmp_path / "stick", 1) as place:
        with (place / "photos").open("wb", buffering=0) as file, suppress(OSError):
            while file.write(bytes(4096)):
                pass
        assert shutil.disk_usage(place).free == 0
        yield place


@pytest.mark.parametrize("name", WRITES)
def test_a_full_disk_is_told_and_nothing_is_left(write: Write, full_disk: Path, name: str) -> None:
    """Neither half a file nor the folders that were made for it."""
    code, told = write(name, full_disk)

    assert code == BAD_INPUT
    assert "No space left" in told
    assert [path.name for path in full_disk.iterdir()] == ["photos"]


# A paper can be made anew, so its name need not outlast a power cut: that step is the hand-over's.
@pytest.mark.parametrize("refusal", [errno.EACCES, errno.EROFS, errno.ENOSPC])
@pytest.mark.parametrize(
    ("name", "step"), [*((name, "bytes") for name in WRITES), ("hand-over", "name")]
)
def test_storage_that_refuses_the_last_step_leaves_nothing(
    write: Write,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    name: str,
    refusal: int,
    step: str,
) -> None:
    """Bytes or a name went in and could not be made lasting: what was written is taken away."""
    place = tmp_path / "stick"
    place.mkdir()
    really = os.fsync

    def refuse(handle: int) -> None:
        where = Path(os.readlink(f"/proc/self/fd/{handle}"))
        if where.is_relative_to(place) and where.is_dir() == (step == "name"):
            raise OSError(refusal, os.strerror(refusal))
        really(handle)

    monkeypatch.setattr(os, "fsync", refuse)
    code, told = write(name, place)

    assert code == BAD_INPUT
    assert os.strerror(refusal) in told
    assert list(place.iterdir()) == []


def test_a_hand_over_is_made_beside_no_folder_and_onto_none(write: Write, tmp_path: Path) -> None:
    """A stick that is not in, and a folder given for the file, are told by name."""
    code, told = write("hand-over", tmp_path / "stick")
    assert code == BAD_INPUT
    assert f"there is no folder {tmp_path / 'stick'}" in told

    (tmp_path / "stick" / "job.crew").mkdir(parents=True)
    code, told = write("hand-over", tmp_path / "stick")
    assert code == BAD_INPUT
    assert "that is a folder" in told


def test_a_hand_over_of_a_book_on_a_locked_disk_says_so(
    write: Write, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Its entries are sealed beside the book first; the sentence is of the hand-over."""
    really = os.fsync

    def refuse(handle: int) -> None:
        if ".book.sync" in os.readlink(f"/proc/self/fd/{handle}"):
            raise OSError(errno.EROFS, os.strerror(errno.EROFS))
        really(handle)

    monkeypatch.setattr(os, "fsync", refuse)
    shutil.rmtree(tmp_path / "site" / "small.book.sync", ignore_errors=True)
    code, told = write("hand-over", tmp_path)

    assert code == BAD_INPUT
    assert "The hand-over job.crew was not made" in told
    assert "beside small.book" in told
    assert not list(tmp_path.glob("*.crew*"))
