"""No entry, whatever it holds, stops a fold, a check, a sheet, a face or a command.

The suite takes two entries of every kind; run in full every field of every
kind is put to its extremes, some nine thousand entries, which takes most of an hour. A batch
that fails is halved until the entry is found.
"""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

import pytest

from models.entries.kinds import KINDS
from tests.house.poison import Poison, every_poison, one_a_kind, samples
from tests.house.poisoned_book import poisoned, unnamed, worked
from tests.in_full import IN_FULL

BATCH = 100


def chosen(demo: Path) -> list[list[Poison]]:
    """The entries to be tried, in batches."""
    good = samples([demo / "larkfield.book", demo / "larkfield-finished.book"])
    assert set(good) == set(KINDS), "a kind has no good body to spoil"
    found = every_poison(good) if IN_FULL else one_a_kind(good)
    assert {one.kind for one in found} >= set(KINDS)
    size = BATCH if IN_FULL else len(found)
    return [found[start : start + size] for start in range(0, len(found), size)]


def wrong_with(demo: Path, folder: Path, batch: Sequence[Poison]) -> list[str]:
    """What goes wrong with a batch, each half by itself until single entries are left."""
    site = poisoned(demo / "larkfield.book", folder, batch)
    found = [*worked(site), *unnamed(site)]
    if not found or len(batch) == 1:
        return [f"{one.kind}, {one.about}: {fault}" for one in batch[:1] for fault in found]
    half = len(batch) // 2
    halves = [
        *wrong_with(demo, folder.with_name(f"{folder.name}a"), batch[:half]),
        *wrong_with(demo, folder.with_name(f"{folder.name}b"), batch[half:]),
    ]
    return halves or [f"only together: {fault}" for fault in found]


def test_no_entry_stops_anything(
    demo_folder: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Every command ends with 0 or 1, every face is read, and what can't be read is named."""
    monkeypatch.setenv("CREWAPP_HOME", str(tmp_path / "home"))
    monkeypatch.setenv("CREWAPP_DEBUG", "1")
    wrong: list[str] = []
    for number, batch in enumerate(chosen(demo_folder)):
        wrong += wrong_with(demo_folder, tmp_path / str(number), batch)

    assert wrong == []
