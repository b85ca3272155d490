"""Names under which a job's state files entries, typed by the bodies and the keys filed there."""

from __future__ import annotations

from typing import Generic, TypeVar

from models.entries.body import Body

B = TypeVar("B", bound=Body)
B_co = TypeVar("B_co", bound=Body, covariant=True)
K = TypeVar("K", bound=str)


class Index(Generic[B_co, K]):
    """Entries of one or more kinds by a key, such as the passes that cut a line.

    ``name`` is unique among indexes and kinds; it is compared, never shown.
    """

    __slots__ = ("name",)

    def __init__(self, name: str) -> None:
        self.name = name

    def __repr__(self) -> str:
        return f"{type(self).__name__}({self.name!r})"


class EntryKind(Index[B_co, str]):
    """A kind of entry; its entries are filed by the name of what they are about.

    ``under`` is the field of the body that holds this name; "" where a kind has none, and its
    entries are all found under "".
    """

    __slots__ = ("under",)

    def __init__(self, name: str, under: str = "") -> None:
        super().__init__(name)
        self.under = under


class Total(Generic[K]):
    """A running sum over current entries by a key, such as the length cut on a surface in nm."""

    __slots__ = ("name",)

    def __init__(self, name: str) -> None:
        self.name = name
