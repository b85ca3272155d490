"""A tablet's code as it is typed: letter by letter, refused at once where it can't be one."""

from __future__ import annotations

from dataclasses import dataclass, replace

from crewapp.words.translate import translate_later
from models.entries.tablet_code import TabletCodeError, read_tablet_code

LETTERS = "0123456789ABCDEFGHJKMNPQRSTVWXYZ"
WHOLE, GROUP = 16, 4
SLIP = translate_later(
    "That is no tablet's code: a letter is misread, or two are swapped. Compare them."
)


@dataclass(frozen=True, slots=True)
class TypedCode:
    """Letters typed so far; ``refused`` says why the last one was not taken or does not fit."""

    letters: str = ""
    refused: str = ""

    @classmethod
    def resume(cls, letters: str) -> TypedCode:
        """Go on with letters typed before; what is no letter of a code is left out."""
        told = cls("".join(one for one in letters.upper() if one in LETTERS)[:WHOLE])
        return told._judged()

    def add_letter(self, letter: str) -> TypedCode:
        """Take one more letter; a seventeenth is refused and changes nothing."""
        if letter not in LETTERS or len(self.letters) >= WHOLE:
            return self
        return TypedCode(self.letters + letter)._judged()

    def drop_letter(self) -> TypedCode:
        """Take the last letter away."""
        return TypedCode(self.letters[:-1])

    def _judged(self) -> TypedCode:
        is_slip = len(self.letters) == WHOLE and not self.code
        return replace(self, refused=SLIP if is_slip else "")

    @property
    def code(self) -> str:
        """The code, once all of it is typed and its last letter fits; else ""."""
        try:
            return read_tablet_code(self.letters)
        except TabletCodeError:
            return ""

    @property
    def groups(self) -> str:
        """The letters in groups of four, places still to come as dots."""
        filled = self.letters.ljust(WHOLE, "\u00b7")
        return " ".join(filled[at : at + GROUP] for at in range(0, WHOLE, GROUP))
