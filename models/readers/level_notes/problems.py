"""Faults of a page of level notes, in sentences that help to put them right."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from models.counted import CountedNoun
from models.errors import LevelNotesError


@dataclass(frozen=True, slots=True)
class NoteProblem:
    """A fault of a page: its place, the text read there, and what would be accepted."""

    row: int | None
    column: str
    read: str
    accepted: str

    @property
    def sentence(self) -> str:
        """The fault in one line."""
        row = "" if self.row is None else f"row {self.row}"
        place = ", ".join(part for part in (row, self.column) if part)
        read = self.read if len(self.read) <= 60 else f"{self.read[:57]}..."
        return f"{place}: {read!r}; {self.accepted}"


def notes_error(problems: Sequence[NoteProblem]) -> LevelNotesError:
    """Make the error that names every problem at once."""
    return LevelNotesError(
        count=f"{CountedNoun(len(problems)):fault|faults}",
        listing="\n".join(f"  {problem.sentence}" for problem in problems),
        problems=tuple(problems),
    )
