"""Words too long for a narrow column, such as paths: broken where a person would break them."""

from __future__ import annotations

import re

FOLD = 26
_PARTS = re.compile(r"[^/\\_-]*[/\\_-]?")


def fold_long_words(text: str, most: int = FOLD) -> str:
    r"""Return a text whose longer words are broken, after a slash or a hyphen if they can be.

    Examples
    --------
    >>> fold_long_words("to /media/stick-of-the-office/turf: gone", 18)
    'to /media/stick-of-\nthe-office/turf: gone'
    """
    return "\n".join(
        " ".join("\n".join(_lines(word, most)) for word in line.split(" "))
        for line in text.split("\n")
    )


def _lines(word: str, most: int) -> list[str]:
    if len(word) <= most:
        return [word]
    lines = [""]
    for part in _PARTS.findall(word):
        while len(part) > most:
            if lines[-1]:
                lines.append("")
            lines[-1], part = part[:most], part[most:]
        if len(lines[-1]) + len(part) > most:
            lines.append("")
        lines[-1] += part
    return [line for line in lines if line]


def tail_of(text: str, most: int) -> str:
    """Return the end of a text that is too long, which tells one path from another."""
    return text if len(text) <= most else f"\u2026{text[-(most - 1) :]}"
