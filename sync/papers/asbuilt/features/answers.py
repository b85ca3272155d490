"""Answers to readings that are out, by the entry of the reading."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass

from models.checks.flag_board import Flag, FlagBoard

OF_A_READING = frozenset({"depth_shallow", "depth_deep", "width_out", "grade_out", "belly"})
"""Checks that hold one reading against its limits."""

_SAID = {"accept": "accepted as is", "waive": "waived", "rework": "to be reworked"}


@dataclass(frozen=True, slots=True)
class ReadingAnswer:
    """Answer to a reading that is out; ``said`` is empty while the flag is open."""

    text: str = ""
    by: str = ""
    why: str = ""
    is_accepted: bool = False


class Answers:
    """Answers to the flags of single readings."""

    def __init__(self, board: FlagBoard) -> None:
        self._flags: dict[str, list[Flag]] = defaultdict(list)
        for flag in board.flags():
            if flag.finding.check in OF_A_READING:
                for entry_id in flag.finding.entries:
                    self._flags[entry_id].append(flag)

    def of(self, entry_id: str) -> ReadingAnswer:
        """How a reading was answered: with several flags, accepted once all of them are."""
        given = [flag.answer for flag in self._flags[entry_id]]
        bodies = [(one, one.body) for one in given if one is not None]
        if not bodies or len(bodies) < len(given):
            return ReadingAnswer()
        return ReadingAnswer(
            text=", ".join(dict.fromkeys(_SAID[body.answer] for _, body in bodies)),
            by=", ".join(dict.fromkeys(one.author or "nobody named" for one, _ in bodies)),
            why="; ".join(dict.fromkeys(body.why for _, body in bodies)),
            is_accepted=all(body.answer != "rework" for _, body in bodies),
        )
