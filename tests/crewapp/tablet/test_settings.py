"""The tablet: its settings, its stream, and files that are whole or not there."""

from __future__ import annotations

import json
import shutil
from pathlib import Path

import pytest

from crewapp.tablet.settings import NotSavedError, Settings, Tablet, write_atomically


def test_settings_come_back_as_they_were_kept(tmp_path: Path) -> None:
    """Each setting is read back as it was written."""
    told = Settings("Wren", "cab", "es", "metric", True, 994, "/books/a.book")
    Tablet(tmp_path).keep_settings(told)

    assert Tablet(tmp_path).settings() == told


@pytest.mark.parametrize(
    "rubbish", ["", "[]", "null", '{"language": 3, "left_handed": 1, "unknown": "x"}']
)
def test_rubbish_counts_as_not_set(tmp_path: Path, rubbish: str) -> None:
    """A setting of another kind, or of a newer version, does no harm."""
    (tmp_path / "settings.json").write_text(rubbish, encoding="utf-8")

    assert Tablet(tmp_path).settings() == Settings()


def test_setting_that_can_be_read_is_kept_beside_rubbish(tmp_path: Path) -> None:
    """One bad field does not take the others with it."""
    told = json.dumps({"author": "Wren", "language": 3})
    (tmp_path / "settings.json").write_text(told, encoding="utf-8")

    assert Tablet(tmp_path).settings().author == "Wren"


def test_stream_stays_the_same(tmp_path: Path) -> None:
    """One install writes one stream, however often it is started."""
    tablet = Tablet(tmp_path / "home")

    assert tablet.stream() == Tablet(tmp_path / "home").stream()


def test_copied_tablet_writes_a_stream_of_its_own(tmp_path: Path) -> None:
    """A backup put back on a second tablet must not reuse the first one's numbers."""
    first = Tablet(tmp_path / "home")
    stream = first.stream()
    shutil.copytree(tmp_path / "home", tmp_path / "copy")

    assert Tablet(tmp_path / "copy").stream() != stream


def test_home_can_be_named(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """For tests, and for a tablet with a card."""
    monkeypatch.setenv("CREWAPP_HOME", str(tmp_path))

    assert Tablet.of_user().books == tmp_path / "books"


def test_file_is_whole_or_as_before(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A writing cut short leaves the old file, and the sentence says why."""
    path = tmp_path / "a.json"
    write_atomically(path, b"old")

    def refuse(_: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("os.fsync", refuse)
    with pytest.raises(NotSavedError, match="No space left"):
        write_atomically(path, b"new and longer")

    assert path.read_bytes() == b"old"


def test_key_is_for_its_owner_alone_and_never_beside_a_book(tmp_path: Path) -> None:
    """It signs what this tablet sends, and is in no file that leaves it."""
    tablet = Tablet(tmp_path / "home")
    stream = tablet.stream()
    signer = tablet.keys.signer(stream)

    assert signer is not None
    assert signer.stream == stream
    path = tablet.keys.path_of(stream)
    assert path.stat().st_mode & 0o077 == 0
    assert path.parent.stat().st_mode & 0o077 == 0
    assert signer.secret_text().strip() not in (tmp_path / "home" / "stream.json").read_text()


def test_renewed_tablet_keeps_its_old_key(tmp_path: Path) -> None:
    """What was written under it may still have to be sent."""
    tablet = Tablet(tmp_path / "home")
    old = tablet.stream()
    new = tablet.renew_stream()

    assert new != old
    assert tablet.stream() == new
    assert tablet.keys.signer(old) is not None


def test_lost_key_means_a_new_stream(tmp_path: Path) -> None:
    """Nothing could be signed any more under the old one."""
    tablet = Tablet(tmp_path / "home")
    old = tablet.stream()
    tablet.keys.path_of(old).unlink()

    assert tablet.stream() != old
    assert tablet.keys.signer("../../etc/passwd") is None
