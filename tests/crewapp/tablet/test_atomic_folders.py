"""A folder is made beside its place: whole, as it was, or not there."""

from __future__ import annotations

import os
import signal
from pathlib import Path

import pytest

from crewapp.tablet.atomic_folders import MAKING, atomic_folder


def content(folder: Path) -> dict[str, str]:
    """Return what lies in a folder, by name."""
    return {
        path.relative_to(folder).as_posix(): path.read_text()
        for path in folder.rglob("*")
        if path.is_file()
    }


def make(folder: Path, *names: str) -> None:
    """Make a folder of files, each holding its name."""
    with atomic_folder(folder) as fresh:
        for name in names:
            (fresh / name).parent.mkdir(exist_ok=True)
            (fresh / name).write_text(name)


@pytest.fixture(params=["moved", "worked in"])
def folder(request: pytest.FixtureRequest, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder that can be moved, and one that somebody stands in."""
    place = tmp_path / "out"
    if request.param == "worked in":
        place.mkdir()
        monkeypatch.chdir(place)
    return place


def test_new_one_takes_the_place_of_all_that_was_there(folder: Path) -> None:
    """Made twice: nothing of the first is left, inside or beside."""
    make(folder, "one", "sub/two")
    make(folder, "three")

    assert content(folder) == {"three": "three"}
    assert [path.name for path in folder.parent.iterdir()] == ["out"]


def test_folder_that_somebody_stands_in_stays_the_same_folder(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Whoever works in it sees the new files without leaving it."""
    make(tmp_path / "out", "one")
    monkeypatch.chdir(tmp_path / "out")
    number = (tmp_path / "out").stat().st_ino
    make(Path(), "two")

    assert content(Path()) == {"two": "two"}
    assert (tmp_path / "out").stat().st_ino == number


def test_cut_off_it_changes_nothing(folder: Path) -> None:
    """An exception in the middle: what was there stands, nothing lies beside."""
    make(folder, "one")

    def make_half() -> None:
        with atomic_folder(folder) as fresh:
            (fresh / "half").write_text("half")
            assert content(folder).get("one") == "one"
            raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        make_half()

    assert content(folder) == {"one": "one"}
    assert [path.name for path in folder.parent.iterdir()] == ["out"]


def test_killed_it_is_made_whole_the_next_time(folder: Path) -> None:
    """What a kill left beside or inside is neither taken for the folder nor kept."""
    make(folder, "one")
    for left in (folder / MAKING, folder.with_name(f".out{MAKING}")):
        (left / "whole").mkdir(parents=True)
        (left / "whole" / "half").write_text("half")
    make(folder, "two")
    make(folder, "two")

    assert content(folder) == {"two": "two"}


@pytest.mark.parametrize("refused_at", range(1, 4))
def test_refused_it_is_put_back(
    folder: Path, monkeypatch: pytest.MonkeyPatch, refused_at: int
) -> None:
    """A disk that refuses any one of the moves: what was there stands."""
    make(folder, "one", "two")
    rename, moves = Path.rename, list[Path]()

    def failing(self: Path, to: Path) -> Path:
        moves.append(self)
        if len(moves) == refused_at:
            raise OSError(28, "No space left on device")
        return rename(self, to)

    monkeypatch.setattr(Path, "rename", failing)
    try:
        make(folder, "three")
    except OSError:
        assert content(folder) == {"one": "one", "two": "two"}
    else:
        assert content(folder) == {"three": "three"}
        assert len(moves) < refused_at


def test_ctrl_c_waits_while_names_change(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Pressed between two moves it is felt after the last one, and the folder is whole."""
    make(folder, "one")
    rename = Path.rename

    def pressed(self: Path, to: Path) -> Path:
        os.kill(os.getpid(), signal.SIGINT)
        return rename(self, to)

    monkeypatch.setattr(Path, "rename", pressed)
    with pytest.raises(KeyboardInterrupt):
        make(folder, "two")

    assert content(folder) == {"two": "two"}
