"""Rows of a list as values, and texts cut to fit one."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

LONGEST_IN_LIST = 110


def shorten(text: str, most: int = LONGEST_IN_LIST) -> str:
    """Return a text cut at a word where it is too long for a list, with dots."""
    if len(text) <= most:
        return text
    head = text[: most - 3].rsplit(" ", 1)[0]
    return f"{head[: most - 4]} ..."


@dataclass(frozen=True, slots=True)
class DayRow:
    """Row of a list: what it leads to, what it says, and how it stands."""

    key: str
    title: str
    detail: str = ""
    figure: str = ""
    status: str = ""
    is_struck: bool = False

    def to_row(self) -> dict[str, Any]:
        """Return the row as the list takes it."""
        return {
            "key": self.key,
            "title": self.title,
            "detail": self.detail,
            "figure": self.figure,
            "status": self.status,
            "is_struck": self.is_struck,
        }


@dataclass(frozen=True, slots=True)
class NamedItem:
    """A surface, a collector or a person, by its short name and in full."""

    name: str
    text: str
