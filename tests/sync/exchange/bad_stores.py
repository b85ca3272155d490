"""Stores that break their word, each in its own way."""

from __future__ import annotations

from collections.abc import Callable

from sync.stores.contract import ListedFile
from sync.stores.errors import StoreUnreachableError
from tests.sync.exchange.crew import MemoryStore


class Killed(BaseException):
    """The program was killed at this moment."""


class FailingStore:
    """A store that works for so many verbs and then raises; ``-1`` never does."""

    def __init__(
        self, inner: MemoryStore, verbs: int, fault: Callable[[], BaseException] | None = None
    ) -> None:
        self.inner = inner
        self.left = verbs
        self._fault = fault or (lambda: StoreUnreachableError(where="memory", why="no signal"))

    def _count(self) -> None:
        if self.left == 0:
            raise self._fault()
        self.left -= 1

    def list(self, folder: str) -> list[ListedFile]:
        """List, if it still works."""
        self._count()
        return self.inner.list(folder)

    def read(self, name: str, limit: int) -> bytes:
        """Read, if it still works."""
        self._count()
        return self.inner.read(name, limit)

    def write(self, name: str, data: bytes) -> None:
        """Write; what fails in mid-write leaves half a file under the final name."""
        if self.left == 0 and name not in self.inner.files:
            self.inner.files[name] = data[: len(data) // 2]
        self._count()
        self.inner.write(name, data)


class OverwritingStore(MemoryStore):
    """A store that ignores every condition: what is written last stands."""

    def write(self, name: str, data: bytes) -> None:
        """Put a file in whatever stood there."""
        self.files[name] = data


class LateStore(MemoryStore):
    """A store that shows a file only after it was listed so many times."""

    def __init__(self, times: int = 1) -> None:
        super().__init__()
        self._times = times
        self._asked: dict[str, int] = {}

    def list(self, folder: str) -> list[ListedFile]:
        """Leave out what is too new."""
        found = super().list(folder)
        for one in found:
            self._asked[one.name] = self._asked.get(one.name, 0) + 1
        return [one for one in found if self._asked[one.name] > self._times]


class TwiceStore(MemoryStore):
    """A store that lists every file twice, and once more in capitals."""

    def list(self, folder: str) -> list[ListedFile]:
        """Say everything three times."""
        found = super().list(folder)
        loud = [ListedFile(one.name.upper(), one.size) for one in found]
        return [*found, *found, *loud]

    def read(self, name: str, limit: int) -> bytes:
        """Fold capitals, as some sticks do."""
        return super().read(name.lower(), limit)


class LyingStore(MemoryStore):
    """A store that takes everything and keeps the first half of it."""

    def write(self, name: str, data: bytes) -> None:
        """Keep half."""
        self.files[name] = data[: len(data) // 2]
