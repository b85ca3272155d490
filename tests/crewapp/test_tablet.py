"""The tablet's own folder: settings, whose stream it writes, files put in place whole."""

from __future__ import annotations

import json
import shutil
from pathlib import Path

import pytest

from crewapp.tablet import NotKeptError, Settings, Tablet, write_whole


@pytest.fixture
def tablet(tmp_path: Path) -> Tablet:
    """A new tablet."""
    return Tablet(tmp_path / "tablet")


def test_settings_come_back(tablet: Tablet) -> None:
    """What was set is set the next time."""
    settings = Settings(author="Ана", language="es", left_handed=True, screen_factor_permille=900)

    tablet.keep_settings(settings)

    assert tablet.settings() == settings


@pytest.mark.parametrize(
    "text",
    ["", "{", "[]", "7", '{"left_handed": "yes", "author": 7}', '{"unknown": 1}', "\ufeff{}"],
)
def test_settings_that_cannot_be_read_count_as_not_set(tablet: Tablet, text: str) -> None:
    """A spoilt settings file never keeps the app from starting."""
    tablet.folder.mkdir()
    (tablet.folder / "settings.json").write_text(text, encoding="utf-8")

    assert tablet.settings() == Settings()


def test_good_settings_survive_beside_a_bad_one(tablet: Tablet) -> None:
    """One setting of the wrong kind is dropped, the others hold."""
    tablet.folder.mkdir()
    told = {"author": "Ana", "screen_factor_permille": "big", "left_handed": True}
    (tablet.folder / "settings.json").write_text(json.dumps(told), encoding="utf-8")

    assert tablet.settings() == Settings(author="Ana", left_handed=True)


def test_stream_stays_with_the_tablet(tablet: Tablet) -> None:
    """One install writes one stream, however often it is asked."""
    assert tablet.stream() == tablet.stream()


def test_copied_tablet_starts_a_stream_of_its_own(tablet: Tablet, tmp_path: Path) -> None:
    """A folder restored on another tablet comes without its anchor, and writes as a new one."""
    first = tablet.stream()
    copy = tmp_path / "copy"
    shutil.copytree(tablet.folder, copy)

    assert Tablet(copy).stream() != first
    assert tablet.stream() == first


def test_folder_can_be_named(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """CREWAPP_HOME names another folder than the user's own."""
    monkeypatch.setenv("CREWAPP_HOME", str(tmp_path / "x"))
    named = Tablet.here()
    monkeypatch.delenv("CREWAPP_HOME")

    assert named.books == tmp_path / "x" / "books"
    assert named.drafts == tmp_path / "x" / "drafts"
    assert Tablet.here().folder != named.folder


def test_file_is_put_in_place_whole(tmp_path: Path) -> None:
    """The file holds the new bytes, and nothing is left beside it."""
    path = tmp_path / "deep" / "x.json"
    write_whole(path, b"one")
    write_whole(path, b"two")

    assert path.read_bytes() == b"two"
    assert [one.name for one in path.parent.iterdir()] == ["x.json"]


def test_refused_file_leaves_the_one_before(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """When the storage fails at the last step, the file of before stands."""
    path = tmp_path / "x.json"
    write_whole(path, b"one")

    def refuse(*_: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("os.fsync", refuse)
    with pytest.raises(NotKeptError, match="what was inked is safe"):
        write_whole(path, b"two")
    assert path.read_bytes() == b"one"
