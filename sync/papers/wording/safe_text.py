"""Words typed by people, made safe to print: letters that can't be printed are named.

Text never becomes markup here, since nothing downstream reads any. What is left to
mind are characters that have no picture, turn the direction of writing, or pile up.
"""

from __future__ import annotations

import unicodedata

_NO_TRACE = dict.fromkeys(map(ord, "\u00ad\u200b\u200e\u200f\u2060\ufeff\ufe0e\ufe0f"))
"""Marks that only steer layout; without them the words read the same."""
_AS_SPACE = dict.fromkeys(map(ord, "\t\u00a0\u202f\u2007"), " ")
_AS_LINE = dict.fromkeys(map(ord, "\v\f\x1c\x1d\x1e\x85\u2028\u2029"), "\n")
_JOINERS = "\u200c\u200d"
_UNSHOWN = frozenset({"Cc", "Cf", "Cs", "Co", "Cn"})
MARKS_MOST = 4
"""Marks over one letter; living scripts need up to four, more is a prank."""


def code_point(letter: str) -> str:
    """Name a character by its number, visibly: ``[U+202E]``."""
    return f"[U+{ord(letter):04X}]"


def clean(text: str) -> str:
    """Text of one or more lines, without anything that can't be seen.

    Examples
    --------
    >>> clean("ok" + chr(0) + chr(0x202E) + "evil")
    'ok[U+0000][U+202E]evil'
    """
    text = text.replace("\r\n", "\n").replace("\r", "\n")
    text = text.translate(_NO_TRACE).translate(_AS_SPACE).translate(_AS_LINE)
    if text.isascii() and text.replace("\n", "").isprintable():
        return text
    out: list[str] = []
    marks = 0
    for letter in unicodedata.normalize("NFC", text):
        kind = unicodedata.category(letter)
        marks = marks + 1 if kind in {"Mn", "Me"} else 0
        if marks > MARKS_MOST:
            continue
        hidden = kind in _UNSHOWN and letter != "\n" and letter not in _JOINERS
        out.append(code_point(letter) if hidden else letter)
    return "".join(out)


def single_line(text: str) -> str:
    """Text on one line: lines are parted by a slash, runs of spaces closed up."""
    if text.isascii() and text.isprintable():  # most texts, by far: nothing to mend
        return " ".join(text.split())
    parts = (" ".join(part.split()) for part in clean(text).split("\n"))
    return " / ".join(part for part in parts if part)


def slug(text: str) -> str:
    """Part of a file name: a to z, 0 to 9 and hyphens only, never empty, never long.

    Examples
    --------
    >>> slug("../North Green #7"), slug(chr(0x4E2D))
    ('north-green-7', 'x4e2d')
    """
    plain = unicodedata.normalize("NFKD", text).encode("ascii", "ignore").decode().lower()
    words = "".join(letter if letter.isalnum() else " " for letter in plain).split()
    return "-".join(words)[:40].strip("-") or "x" + "".join(f"{ord(c):x}" for c in text[:4])
