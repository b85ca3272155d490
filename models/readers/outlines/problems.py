"""Faults of a file of outlines or points, in sentences that help to put them right."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import NoReturn

from models.counted import CountedNoun
from models.errors import PlanFileError

MOST_LISTED = 20
_LONGEST_READ = 60


@dataclass(frozen=True, slots=True)
class FileProblem:
    """A fault of a file: its place, the text met there, and what would be accepted."""

    place: str
    met: str
    accepted: str

    @property
    def sentence(self) -> str:
        """The fault in one line."""
        return f"{self.place}: {shorten(self.met)}; {self.accepted}"


def shorten(text: str) -> str:
    """Text of a file, cut where it is longer than a line, and made printable."""
    plain = "".join(c if c.isprintable() else "\N{REPLACEMENT CHARACTER}" for c in text[:200])
    return plain if len(plain) <= _LONGEST_READ else f"{plain[: _LONGEST_READ - 3]}..."


def refuse_file(form: str, problems: Sequence[FileProblem]) -> NoReturn:
    """Raise the error that names every problem, the first twenty of them in words.

    Raises
    ------
    PlanFileError
        Always.
    """
    listed = [f"  {problem.sentence}." for problem in problems[:MOST_LISTED]]
    if len(problems) > MOST_LISTED:
        listed.append(f"  and {len(problems) - MOST_LISTED} more.")
    raise PlanFileError(
        form=form,
        count=f"{CountedNoun(len(problems)):fault|faults}",
        listing="\n".join(listed),
        problems=tuple(problems),
    )


def refuse_whole(form: str, met: str, accepted: str) -> NoReturn:
    """Raise the error for a fault of the file as a whole.

    Raises
    ------
    PlanFileError
        Always.
    """
    refuse_file(form, [FileProblem("the file", met, accepted)])


def decode_text(data: str | bytes, form: str, most_bytes: int, accepted: str) -> str:
    """Text of a file in UTF-8, without its mark; any other is refused with ``accepted``.

    Raises
    ------
    PlanFileError
        If there is more of it than ``most_bytes``, or it is not UTF-8.
    """
    if len(data) > most_bytes:
        refuse_whole(form, f"{len(data)} bytes", f"at most {most_bytes} are read")
    if isinstance(data, bytes):
        try:
            data = data.decode("utf-8")
        except UnicodeDecodeError as error:
            met = f"byte {data[error.start : error.start + 1]!r} at {error.start + 1}"
            refuse_whole(form, met, accepted)
    return data.removeprefix("\ufeff")
