"""Name of a segment: whose entries, which numbers, and the hash of its bytes."""

from __future__ import annotations

import re
from dataclasses import dataclass

from models.entries.tablet_code import code_of
from sync.segments.errors import SegmentNameError

_FORM = re.compile(
    r"(?P<stream>[0-9a-f]{32})-(?P<first>[1-9][0-9]{0,11})-(?P<last>[1-9][0-9]{0,11})"
    r"-(?P<digest>[0-9a-f]{64})\.seg"
)


@dataclass(frozen=True, slots=True, order=True)
class SegmentName:
    """A segment's name, taken apart; ordered by stream, then by numbers."""

    stream: str
    first: int
    last: int
    digest: str

    @classmethod
    def read(cls, text: str) -> SegmentName:
        """Take a name of a segment apart.

        Raises
        ------
        SegmentNameError
            If it has another form.
        """
        found = _FORM.fullmatch(text)
        if found is None or int(found["first"]) > int(found["last"]):
            raise SegmentNameError(name=repr(text[:80]))
        return cls(found["stream"], int(found["first"]), int(found["last"]), found["digest"])

    @classmethod
    def find(cls, path: str) -> SegmentName | None:
        """Take the last part of a store's name apart; None if it is no segment's.

        Capitals count as small letters: some sticks show a name so.
        """
        try:
            return cls.read(path.rpartition("/")[2].lower())
        except SegmentNameError:
            return None

    @property
    def count(self) -> int:
        """How many numbers it covers."""
        return self.last - self.first + 1

    @property
    def text(self) -> str:
        """Return the name in words for a sentence: whose entries, and how the hash begins."""
        return f"{self.first} to {self.last} of {code_of(self.stream)} ({self.digest[:8]})"

    def __str__(self) -> str:
        return f"{self.stream}-{self.first}-{self.last}-{self.digest}.seg"
