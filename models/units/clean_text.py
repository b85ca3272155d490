"""Typed text made plain, with the way back to the character that was typed."""

from __future__ import annotations

from typing import NoReturn

from models.errors import UnreadableError

LONGEST_TEXT = 40
"""Characters; no reading on a site is longer, and pasted prose is cut off early."""

_SPACES = " \t\u00a0\u2002\u2003\u2004\u2005\u2006\u2007\u2008\u2009\u200a\u202f\u205f\u3000"

_PLAIN: dict[str, str] = {
    **dict.fromkeys(_SPACES, " "),
    **dict.fromkeys("\u2018\u2019\u201b\u2032\u02b9\u02bc\u00b4`", "'"),
    **dict.fromkeys("\u201c\u201d\u201f\u2033\u02ba\u02dd\u3003", '"'),
    **dict.fromkeys("\u2010\u2011\u2012\u2013\u2014\u2212\ufe63\uff0d", "-"),
    **dict.fromkeys("\u2044\u2215", "/"),
    "\u2236": ":",
    **dict.fromkeys("\uff05\ufe6a", "%"),
    "\u2030": "\u2030",
    "\ufeff": "",
}

_VULGAR: dict[str, str] = {
    "\u00bd": "1/2", "\u00bc": "1/4", "\u00be": "3/4",
    "\u215b": "1/8", "\u215c": "3/8", "\u215d": "5/8", "\u215e": "7/8",
    "\u2153": "1/3", "\u2154": "2/3", "\u2155": "1/5", "\u2156": "2/5", "\u2157": "3/5",
    "\u2158": "4/5", "\u2159": "1/6", "\u215a": "5/6", "\u2150": "1/7", "\u2151": "1/9",
    "\u2152": "1/10",
}  # fmt: skip


class TypedText:
    """A typed text: as it was, made plain, and what would have been read."""

    __slots__ = ("_places", "forms", "original", "text", "what")

    def __init__(self, original: str, what: str, forms: tuple[str, str, str]) -> None:
        self.original = original
        self.what = what
        self.forms = forms
        self._places: list[int] | None = None
        if len(original) > LONGEST_TEXT:
            self.text = original
            self.refuse(f"it is longer than {LONGEST_TEXT} characters", LONGEST_TEXT)
        if original.isascii() and original.isprintable() and not _needs_marks(original):
            self.text = original.strip().lower()
            if self.text != original:
                start = len(original) - len(original.lstrip())
                self._places = list(range(start, start + len(self.text)))
        else:
            self.text = ""
            self._make_plain()
        if not self.text:
            self.refuse("nothing was typed", 0)

    def refuse(self, why: str, at: int) -> NoReturn:
        """Raise the refusal of this text for the plain character ``at``, counted from 0.

        Raises
        ------
        UnreadableError
            Always; its place is the character of the original text, counted from 1.
        """
        shown = self.original
        if len(shown) > LONGEST_TEXT:
            shown = shown[:LONGEST_TEXT] + "..."
        raise UnreadableError(
            text=shown,
            what=self.what,
            why=why,
            place=self.original_place(at),
            forms=", ".join(self.forms),
        )

    def original_place(self, at: int) -> int:
        """Character of the original text, from 1, that became plain character ``at``."""
        places = self._places
        if places is None:
            return at + 1
        if at < len(places):
            return places[at] + 1
        return (places[-1] + 2) if places else 1

    def after(self, start: int) -> TypedText:
        """Give the rest of the text from plain character ``start``, places kept.

        Raises
        ------
        UnreadableError
            If nothing is left.
        """
        if not start:
            return self
        if start >= len(self.text):
            self.refuse("something is missing at the end", start)
        rest = object.__new__(TypedText)
        rest.original, rest.what, rest.forms = self.original, self.what, self.forms
        rest.text = self.text[start:]
        rest._places = [self.original_place(start + i) - 1 for i in range(len(rest.text))]
        return rest

    def _make_plain(self) -> None:
        """Replace every look-alike by the plain character, remembering where it stood."""
        plain: list[str] = []
        places: list[int] = []
        self._places = places
        for index, character in enumerate(self.original):
            replacement = self._plain_for(character, index, plain)
            if replacement == "'" and plain and plain[-1] == "'" and places[-1] == index - 1:
                plain[-1] = '"'  # two apostrophes side by side stand for the inch mark
                continue
            plain.extend(replacement)
            places.extend([index] * len(replacement))
        while plain and plain[-1] == " ":
            plain.pop()
            places.pop()
        start = next((i for i, c in enumerate(plain) if c != " "), len(plain))
        del places[:start]
        self.text = "".join(plain[start:]).lower()

    def _plain_for(self, character: str, index: int, plain: list[str]) -> str:
        """Plain spelling of one character after what is already plain."""
        before = plain[-1] if plain else ""
        if character in _PLAIN:
            return _PLAIN[character]
        if character in _VULGAR:
            after = self.original[index + 1 : index + 2]
            if after.isnumeric():  # else one third and a 2 would be read as 1/32
                self._refuse_character("a figure stands right after a fraction", index + 1)
            return ("-" if before.isdigit() else "") + _VULGAR[character]
        if character in "\u00b2\u00b3" and before.isalpha():
            return "2" if character == "\u00b2" else "3"
        if not (character.isascii() and character.isprintable()):
            self._refuse_character(_why_not(character), index)
        return character

    def _refuse_character(self, why: str, index: int) -> NoReturn:
        """Refuse for an original character, counted from 0."""
        self._places = None
        self.refuse(why, index)


def _needs_marks(text: str) -> bool:
    """Whether plain ASCII still holds marks that stand for others."""
    return "''" in text or "`" in text


def _why_not(character: str) -> str:
    """Reason why a character cannot be part of a quantity."""
    if character.isnumeric():
        return "only the digits 0 to 9 are read"
    if not character.isprintable():
        return "a line break or an invisible character is in it"
    return f"{character!r} is not used here"
