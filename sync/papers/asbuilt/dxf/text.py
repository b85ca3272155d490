"""Text inside a DXF drawing: whole where it is data, plain where it is drawn."""

from __future__ import annotations

import re

from sync.papers.wording.safe_text import code_point, single_line

_DRAWN_MOST = 200
_READ_AS_CODE = re.compile(r"\\(?=[UM]\+)")


def escape_text(text: str) -> str:
    """Text as data: a reader that undoes the drawing's codes gets it letter for letter.

    A control character is a caret and a letter; a backslash that would begin the code of a
    character is itself written as one.

    Examples
    --------
    >>> escape_text("one" + chr(10) + "two"), escape_text("^")
    ('one^Jtwo', '^ ')
    >>> escape_text(chr(92) + "U+0041") == chr(92) + "U+005CU+0041"
    True
    """
    return _READ_AS_CODE.sub(r"\\U+005C", "".join(_written(letter) for letter in text))


def _written(letter: str) -> str:
    if letter == "^":
        return "^ "
    if letter < " ":
        return f"^{chr(ord(letter) + 64)}"
    return code_point(letter) if letter == "\x7f" else letter


def plain_text(text: str) -> str:
    """Text to look at: one line, without anything that a drawing program takes for a code.

    Examples
    --------
    >>> plain_text("S%%u1" + chr(10) + "x")
    'S% %u1 / x'
    """
    plain = single_line(text)
    while "%%" in plain:
        plain = plain.replace("%%", "% %")
    clipped = plain if len(plain) <= _DRAWN_MOST else f"{plain[: _DRAWN_MOST - 1]}\u2026"
    return escape_text(clipped)
