"""Storage that fails under the running program, and power that goes while it does."""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path

import pytest

from models.book.store import Book
from sync.stores.folder import FolderStore
from tests.power.conftest import Record
from tests.power.failing_child import TAPS_IN_ALL
from tests.power.faults import choose_faults
from tests.power.judging import BOOK, STREAM, judge_all, judge_book, narrow
from tests.power.judging_files import judge_bytes
from tests.power.parcels import parcel
from tests.power.recording import Recording, quick_folder, record
from tests.power.replay import cut

FARTHEST = 18


@pytest.fixture(scope="module")
def faulted(recorder: Path, images: int) -> Iterator[Recording]:
    """A program that inked through faults: a third as many as there are power cuts to look at."""
    faults = choose_faults(min(images // 3, FARTHEST * 16), FARTHEST, seed=20_260_514)
    with quick_folder() as folder:
        yield record(recorder, folder, "tests.power.failing_child", json.dumps(faults))


def taps_by_case(recording: Recording) -> dict[str, list[list[str]]]:
    """Return the ids of every acknowledged tap of every case."""
    taps: dict[str, list[list[str]]] = {}
    for deed in recording.deeds:
        if deed.what == "A":
            case, *ids = deed.name.split()
            taps.setdefault(case, []).append(ids)
    return taps


def test_taps_through_failing_storage_are_there_once(faulted: Recording) -> None:
    """The app goes on after every fault: each tap is inked, once, and the chain is whole."""
    cases = taps_by_case(faulted)

    assert len(cases) >= 40
    for case, taps in cases.items():
        assert len(taps) == TAPS_IN_ALL
        with Book.open(faulted.folder / case / BOOK, stream=STREAM, reserve_bytes=10) as book:
            ids = {row.id for row in book.rows()}
            assert book.verify().is_sound
        assert {id for tap in taps for id in tap} < ids
        assert len(ids) == 1 + sum(map(len, taps))  # the job's own entry comes first


def test_faults_are_met(faulted: Recording) -> None:
    """Control: the storage did fail, and taps raised for it."""
    raised = [int(line) for line in faulted.printed.split()]

    assert sum(count > 0 for count in raised) > len(raised) // 5
    assert any(deed.what == "E" for deed in faulted.deeds)


def test_power_cut_after_a_fault_loses_no_tap(faulted: Recording, images: int) -> None:
    """A sync that failed is not made up for by the next: taps acknowledged since then are there."""
    verdict = judge_all(narrow(cut(faulted.deeds, images, seed=20_260_515)), judge_book)

    assert verdict.images > images * 0.9
    assert verdict.damaged == []
    assert (verdict.lost, verdict.worst) == (0, 0)


def test_files_published_through_failing_storage_are_whole(watch: Record, images: int) -> None:
    """Whatever failed, once a file is called published it is whole, also after a power cut."""
    faults = choose_faults(min(images // 2, 4 * 16), 4, seed=20_260_516)
    recording = watch("publishing_child", "faults", json.dumps(faults))
    refusals = [int(line) for line in recording.printed.split()]

    assert sum(count > 0 for count in refusals) > len(faults) // 3
    for number in range(len(faults)):
        name, data = parcel(number)
        assert FolderStore(recording.folder).read(name, len(data)) == data
    verdict = judge_all(cut(recording.deeds, images, seed=20_260_517), judge_bytes)
    assert verdict.damaged == []
    assert verdict.lost == 0
