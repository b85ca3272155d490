"""Passwords of stores: kept for their owner alone, found, and never shown."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from sync.stores.address import parse_store_address
from sync.stores.secrets import (
    FILE,
    PASSWORD_NAMED,
    USER_NAMED,
    Secret,
    SecretsExposedError,
    SecretsUnreadableError,
    find_secret,
    keep_secret,
)

YARD = parse_store_address("davs://crew@yard.example/turf")
BUCKET = parse_store_address("s3://turf/x?endpoint=https://yard.example")
SHARP = Secret("crew", "Qx7-sharp")


def test_kept_secret_is_found(tmp_path: Path) -> None:
    """Each store has its own, and the file is its owner's alone from its first byte on."""
    keep_secret(YARD, tmp_path, SHARP)
    keep_secret(BUCKET, tmp_path, Secret("AKIA", "Blunt"))

    assert find_secret(YARD, tmp_path) == SHARP
    assert find_secret(BUCKET, tmp_path) == Secret("AKIA", "Blunt")
    assert [path.name for path in tmp_path.iterdir()] == [FILE]
    assert (tmp_path / FILE).stat().st_mode & 0o777 == 0o600


def test_secret_of_the_surroundings_comes_second(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The environment gives a password where the file has none, and a user if it names one."""
    monkeypatch.delenv(PASSWORD_NAMED, raising=False)
    monkeypatch.delenv(USER_NAMED, raising=False)
    assert find_secret(YARD, tmp_path) is None
    monkeypatch.setenv(PASSWORD_NAMED, "Loud")
    assert find_secret(YARD, tmp_path) == Secret("crew", "Loud")
    monkeypatch.setenv(USER_NAMED, "foreman")
    assert find_secret(YARD, tmp_path) == Secret("foreman", "Loud")
    keep_secret(YARD, tmp_path, SHARP)
    assert find_secret(YARD, tmp_path) == SHARP


@pytest.mark.parametrize("mode", [0o644, 0o640, 0o604, 0o620, 0o666])
def test_file_open_to_others_is_not_used(mode: int, tmp_path: Path) -> None:
    """Neither read from nor written to, and the sentence says how to close it."""
    keep_secret(YARD, tmp_path, SHARP)
    (tmp_path / FILE).chmod(mode)
    with pytest.raises(SecretsExposedError, match="chmod 600"):
        find_secret(YARD, tmp_path)
    with pytest.raises(SecretsExposedError):
        keep_secret(YARD, tmp_path, SHARP)


@pytest.mark.parametrize(
    "text",
    [
        '{"davs://x": {"user": "crew", "password": "Qx7-sharp"',
        '["Qx7-sharp"]',
        '{"davs://x": "Qx7-sharp"}',
        '{"davs://x": {"user": "crew"}}',
        '{"davs://x": {"user": 1, "password": "Qx7-sharp"}}',
    ],
)
def test_file_that_is_something_else_is_told_without_its_words(text: str, tmp_path: Path) -> None:
    """What can't be read is refused, kept as it is and not repeated."""
    (tmp_path / FILE).write_text(text, encoding="utf-8")
    (tmp_path / FILE).chmod(0o600)
    with pytest.raises(SecretsUnreadableError) as met:
        find_secret(YARD, tmp_path)

    assert "sharp" not in str(met.value) + repr(met.value.context)
    assert (tmp_path / FILE).read_text(encoding="utf-8") == text


def test_secret_is_not_printed() -> None:
    """A secret that ends up in a log by mistake shows its user alone."""
    assert "sharp" not in repr(SHARP) + str([SHARP])
    assert "crew" in repr(SHARP)


def test_half_written_file_of_a_cut_is_written_anew(tmp_path: Path) -> None:
    """What a cut left beside the file, even open to all, is not written into."""
    left = tmp_path / f".{FILE}.new"
    left.write_text("{", encoding="utf-8")
    left.chmod(0o666)
    keep_secret(YARD, tmp_path, SHARP)

    assert json.loads((tmp_path / FILE).read_text("utf-8"))[str(YARD)]["user"] == "crew"
    assert (tmp_path / FILE).stat().st_mode & 0o777 == 0o600
