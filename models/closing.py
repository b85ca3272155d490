"""Base class of what is closed at the end of its `with` block: a book, an office, a hand-over."""

from __future__ import annotations

from abc import ABC, abstractmethod
from types import TracebackType
from typing import Self


class Closing(ABC):
    """Closes an object at the end of its `with` block, whether or not the block failed."""

    __slots__ = ()

    @abstractmethod
    def close(self) -> None:
        """Close whatever is open; a second time does nothing."""

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        self.close()
