"""The record is the whole truth: replayed, it gives the folder that the program left."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.power.conftest import Record
from tests.power.recording import Recording
from tests.power.replay import Disk, NoRuleError

KNOWN = ["write_in_every_way", "name_in_every_way"]


def replayed(recording: Recording) -> Disk:
    """Follow a recording to its end."""
    disk = Disk()
    for deed in recording.deeds:
        disk.do(deed)
    return disk


def listed(folder: Path) -> dict[str, bytes | None]:
    """Return a folder as it is on the disk."""
    paths = {str(path.relative_to(folder)): path for path in folder.rglob("*")}
    return {name: path.read_bytes() if path.is_file() else None for name, path in paths.items()}


@pytest.mark.parametrize(
    ("module", "words"),
    [
        ("busy_child", KNOWN),
        ("inking_child", ["as it is", "150"]),
        ("inking_child", ["delete", "9"]),
    ],
    ids=["every way", "book", "book without a log"],
)
def test_replayed_to_its_end_it_is_the_folder(watch: Record, module: str, words: list[str]) -> None:
    """Nothing is missed: names and bytes are those that the program left behind."""
    recording = watch(module, *words)

    assert replayed(recording).now() == listed(recording.folder)
    assert len(listed(recording.folder)) > 2


def test_acknowledgements_stand_where_they_were_given(watch: Record) -> None:
    """What was done before an acknowledgement is written down before it."""
    recording = watch("busy_child", *KNOWN)
    places = {deed.name: n for n, deed in enumerate(recording.deeds) if deed.what == "A"}

    assert list(places) == KNOWN
    first = recording.deeds[: places[KNOWN[0]]]
    assert any(deed.first == b"anew" for deed in first)
    assert not any(deed.first == b"deep" for deed in first)


@pytest.mark.parametrize("way", ["map_a_file", "copy_a_file", "double_a_handle", "bring_a_file_in"])
def test_what_cannot_be_followed_is_owned_up_to(watch: Record, way: str) -> None:
    """A program that changes its folder behind the recorder's back proves nothing."""
    recording = watch("busy_child", way)

    with pytest.raises(NoRuleError):
        replayed(recording)
