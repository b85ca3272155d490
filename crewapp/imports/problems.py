"""Problems of a file that was handed in, all reported at once."""

from __future__ import annotations

from dataclasses import asdict, dataclass

from models.errors import CrewError

MOST_TOLD = 40


@dataclass(frozen=True, slots=True)
class Problem:
    """Problem of a file: where, what was met, what would be accepted."""

    row: int
    column: str
    read: str
    why: str
    forms: str

    def to_text(self) -> str:
        """Write the problem as one line."""
        row = f"row {self.row}" if self.row else ""
        column = f"column {self.column}" if self.row and self.column else self.column
        place = ", ".join(part for part in (row, column) if part) or "the file"
        read = self.read if len(self.read) <= 60 else self.read[:57] + "..."
        met = f"{read!r} " if read else ""
        return f"{place}: {met}{self.why}. Accepted: {self.forms}."

    def facts(self) -> dict[str, object]:
        """Write the problem as plain facts."""
        return asdict(self)


class PaperError(CrewError, ValueError):
    """A file that was handed in has rows or fields that can't be read."""

    code = "paper.unreadable"
    sentence = "Nothing was written: {path} has {count:thing|things} to put right.\n{listed}"

    def __init__(self, path: object, problems: list[Problem]) -> None:
        self.problems = problems
        lines = [problem.to_text() for problem in problems[:MOST_TOLD]]
        if len(problems) > MOST_TOLD:
            lines.append(f"... and {len(problems) - MOST_TOLD} more")
        super().__init__(path=path, count=len(problems), listed="\n".join(lines))
