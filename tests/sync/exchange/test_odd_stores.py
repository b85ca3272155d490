"""Stores that stop answering, show files late, twice or half, or hold less than before."""

from __future__ import annotations

import pytest

from sync.exchange.errors import StoreHoldsLessError
from sync.stores.errors import StoreUnreachableError
from tests.sync.exchange.bad_stores import (
    FailingStore,
    LateStore,
    LyingStore,
    OverwritingStore,
    TwiceStore,
)
from tests.sync.exchange.crew import Crew, MemoryStore


@pytest.mark.parametrize("verbs", range(12))
def test_cut_anywhere_and_run_again(
    pair: tuple[Crew, Crew], store: MemoryStore, verbs: int
) -> None:
    """Wherever the store stops answering, the next run ends as if nothing had been."""
    a, b = pair
    for one in (a, b):
        one.ink()
        cut = FailingStore(store, verbs)
        try:
            report = one.sync(cut)
        except StoreUnreachableError:
            assert verbs == 0
        else:
            assert report.is_complete or "no signal" in report.cut
    for one in (a, b, a, b):
        one.sync(store, allow_less=True)

    assert a.raws() == b.raws()
    assert len(a.raws()) == 4
    assert b.sync(store).is_complete


@pytest.mark.parametrize("kind", [LateStore, TwiceStore, OverwritingStore])
def test_store_that_shows_files_its_own_way(
    pair: tuple[Crew, Crew], kind: type[MemoryStore]
) -> None:
    """Late, twice, in capitals, or written over: both end alike."""
    a, b = pair
    odd = kind()
    a.ink()
    b.ink()
    for one in (a, b) * 4:
        report = one.sync(odd, where="odd")

    assert a.raws() == b.raws()
    assert report.is_complete


def test_store_that_keeps_half_is_found_out(pair: tuple[Crew, Crew]) -> None:
    """What was written is read back, and nothing counts as sent."""
    a, b = pair
    lying = LyingStore()
    report = a.sync(lying, where="lying")

    assert report.out.files == 0
    assert b.sync(lying, where="lying").new_rows == 0
    assert all("bytes" in one.sentence for one in b.sync(lying, where="lying").aside)


def test_half_a_file_never_stands_in_the_way(pair: tuple[Crew, Crew], store: MemoryStore) -> None:
    """What a cut upload left under the final name is gone round, and the reader finds the whole."""
    a, b = pair
    a.ink()
    a.sync(FailingStore(store, 1))
    a.sync(store, allow_less=True)

    assert any("/again-1/" in name for name in store.files)
    assert b.sync(store).new_rows == 1
    assert b.raws() == a.raws()


def test_store_that_holds_less_is_asked_about(pair: tuple[Crew, Crew], store: MemoryStore) -> None:
    """Nothing happens until somebody says that it is right; then everything is put back."""
    a, _ = pair
    a.sync(store)
    lost = store.files.copy()
    store.files.clear()
    a.ink()
    with pytest.raises(StoreHoldsLessError, match="1 of the 1 file "):
        a.sync(store)

    assert store.files == {}
    assert a.sync(store, allow_less=True).out.files == 2
    assert set(lost) < set(store.files)


def test_spoilt_file_is_put_right_when_asked(pair: tuple[Crew, Crew], store: MemoryStore) -> None:
    """A flipped bit shows by reading back alone; another copy is then written."""
    a, _ = pair
    (name,) = store.files
    store.files[name] = bytes(len(store.files[name]))

    assert a.sync(store).out.files == 0
    assert a.sync(store, proves_all=True).out.files == 1
