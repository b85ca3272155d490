"""Full disks, turned clocks, sticks that fold case: the exchange ends, or says why not."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import suppress
from dataclasses import replace
from pathlib import Path

import pytest

from sync.exchange.joining import join_book
from sync.exchange.request import ExchangeRequest
from sync.stores.contract import ListedFile
from sync.stores.errors import StoreNameTakenError
from sync.trust.keys import Signer
from tests.small_disk import small_disk
from tests.sync.exchange.crew import NOON_MS, Crew, MemoryStore, draft

Recruit = Callable[[str], Crew]
YEAR_MS = 365 * 24 * 3_600_000


@pytest.fixture
def disk(tmp_path: Path) -> Iterator[Path]:
    """A disk of 3 MB."""
    with small_disk(tmp_path / "disk", 3) as place:
        yield place


def test_full_disk_is_told_and_overcome(disk: Path, recruit: Recruit, store: MemoryStore) -> None:
    """What fits comes in whole; the rest comes when there is room."""
    founder = recruit("a")
    founder.found()
    founder.sync(store)
    signer = Signer.new()
    terms = ExchangeRequest(where="memory", own_stream=signer.stream)
    path = disk / "green-7.book"
    join_book(path, founder.key, store, terms)[1].close()
    founder.ink(*(draft("note", text=f"{n}" * 900, needs_owner=False) for n in range(300)))
    founder.sync(store)
    reader = Crew(path, signer)
    filler = disk / "photos"
    with filler.open("wb", buffering=0) as file, suppress(OSError):
        while file.write(bytes(4096)):
            pass
    with suppress(Exception):
        assert not reader.sync(store).is_complete
    assert reader.book.count() in (1, 301)
    filler.unlink()

    assert reader.sync(store).is_complete
    assert reader.raws() == founder.raws()
    reader.close()


def test_clock_turned_back_a_year(recruit: Recruit, store: MemoryStore) -> None:
    """Order is by counters: what a tablet with a wrong clock writes keeps its place."""
    a, b = recruit("a"), recruit("b")
    a.found()
    a.add(b)
    b.close()
    b.path.unlink()
    a.book.backup(b.path)
    b = recruit("b")
    for one, at_ms in ((a, NOON_MS), (b, NOON_MS - YEAR_MS), (a, NOON_MS + 10 * YEAR_MS)):
        one.sync(store)
        one.ink(replace(draft(), at_ms=at_ms))
        one.sync(store, at_ms=at_ms)
    b.sync(store, at_ms=NOON_MS - YEAR_MS)

    times = [row.at_ms for row in b.book.rows()][-3:]
    assert times == [NOON_MS, NOON_MS - YEAR_MS, NOON_MS + 10 * YEAR_MS]
    assert a.raws() == b.raws()


class FoldingStick(MemoryStore):
    """A stick on which two names that differ by case are one, shown as it was first written."""

    def _shown(self, name: str) -> str:
        return next((one for one in self.files if one.lower() == name.lower()), name)

    def read(self, name: str, limit: int) -> bytes:
        """Read, whatever the case."""
        return super().read(self._shown(name), limit)

    def write(self, name: str, data: bytes) -> None:
        """Write, but over nothing that stands there in another case."""
        shown = self._shown(name)
        if shown in self.files and self.files[shown] != data:
            raise StoreNameTakenError(name=name, where="stick", taken=shown)
        self.files[shown] = data

    def list(self, folder: str) -> list[ListedFile]:
        """List below a folder, whatever the case."""
        start = f"{folder}/".lower() if folder else ""
        return [
            ListedFile(name, len(data))
            for name, data in sorted(self.files.items())
            if name.lower().startswith(start)
        ]


def test_names_that_differ_by_case_alone(recruit: Recruit, store: MemoryStore) -> None:
    """A folder in capitals, and rubbish in capitals under the very name of a segment."""
    a, b = recruit("a"), recruit("b")
    a.found()
    a.add(b)
    a.sync(store)
    stick = FoldingStick()
    for name in store.files:
        stick.files[name.upper()] = b"rubbish"
    b.close()
    b.path.unlink()
    a.book.backup(b.path)
    b = recruit("b")
    a.ink()
    a.sync(stick, where="stick")
    b.sync(stick, where="stick")

    assert a.raws() == b.raws()
    assert all(data == b"rubbish" for name, data in stick.files.items() if name != name.lower())
