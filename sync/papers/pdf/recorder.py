"""Recorder of what a pen draws, so that a printed page can be compared as a list."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from contextvars import ContextVar
from dataclasses import dataclass

Box = tuple[float, float, float, float]
"""Left, top, right and bottom in mm from the page's upper left corner."""


@dataclass(frozen=True, slots=True)
class DrawnItem:
    """A drawn item on a page: its kind, its words if it has any, and its box."""

    page: int
    kind: str
    words: str
    box: Box


_watched: ContextVar[list[DrawnItem] | None] = ContextVar("_watched", default=None)


@contextmanager
def record_drawing() -> Iterator[list[DrawnItem]]:
    """Give a list that every pen writes into what it draws, while this lasts."""
    drawn: list[DrawnItem] = []
    before = _watched.set(drawn)
    try:
        yield drawn
    finally:
        _watched.reset(before)


def record_item(page: int, kind: str, words: str, box: Box) -> None:
    """Record a drawn item, if somebody watches."""
    drawn = _watched.get()
    if drawn is not None:
        drawn.append(DrawnItem(page, kind, words, box))
