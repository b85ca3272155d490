"""A crew of tablets, and a store between them."""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from sync.trust.keys import Signer
from tests.sync.exchange.crew import Crew, MemoryStore

Recruit = Callable[[str], Crew]


@pytest.fixture
def recruit(tmp_path: Path) -> Iterator[Recruit]:
    """Make a tablet of a name, with a key that follows from it."""
    made: list[Crew] = []

    def make(name: str) -> Crew:
        signer = Signer(hashlib.sha256(name.encode()).digest())
        made.append(Crew(tmp_path / name / "green-7.book", signer))
        return made[-1]

    (tmp_path / "a").mkdir()
    for letter in "bcdef":
        (tmp_path / letter).mkdir()
    yield make
    for one in made:
        one.close()


@pytest.fixture
def store() -> MemoryStore:
    """Return a store that keeps its word."""
    return MemoryStore()


@pytest.fixture
def pair(recruit: Recruit, store: MemoryStore) -> tuple[Crew, Crew]:
    """Two tablets of one job, both on the list, alike."""
    founder, other = recruit("a"), recruit("b")
    founder.found()
    founder.add(other)
    founder.sync(store)
    founder.book.backup(other.path.with_name("copy.book"))
    other.close()
    other.path.unlink()
    other.path.with_name("copy.book").rename(other.path)
    return founder, recruit("b")
