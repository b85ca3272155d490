"""The short code by which people tell a tablet's stream: read from one screen to another.

Fifteen letters and figures are the first 75 bits of the stream's id, which is itself a
hash of the tablet's public key; the sixteenth shows a letter misread or two swapped.
"""

from __future__ import annotations

from functools import lru_cache

from models.counted import CountedNoun
from models.errors import CrewError

_ALPHABET = "0123456789ABCDEFGHJKMNPQRSTVWXYZ"  # without I, L, O and U
_LETTERS = 15
_GROUP = 4
_FIELD = 0b100101  # x^5 + x^2 + 1, which has no factors over two elements


class TabletCodeError(CrewError, ValueError):
    """A text was given as a tablet's code that can't be one."""

    code = "tablets.code"
    sentence = (
        "Cannot read {text!r} as a tablet's code: {why}. Accepted: the sixteen letters and "
        "figures that the other tablet shows, such as 7KQ2-01XM-9P3A-TTBA."
    )


@lru_cache(maxsize=4096)
def code_of(stream: str) -> str:
    """Return the code of a stream; one that has no key (of an old or test book) has none: ``""``.

    Examples
    --------
    Worked by hand: 75 zero bits are fifteen zeros, and their sum is zero.

    >>> code_of("0" * 32)
    '0000-0000-0000-0000'
    """
    try:
        bits = int(stream, 16) >> (128 - 5 * _LETTERS) if len(stream) == 32 else -1
    except ValueError:
        bits = -1
    if bits < 0:
        return ""
    values = [(bits >> (5 * place)) & 31 for place in range(_LETTERS - 1, -1, -1)]
    return _grouped([*values, _weighed(values)])


def read_tablet_code(text: str) -> str:
    """Bring a code as somebody typed it to its printed form: O read as 0, I and L as 1.

    Raises
    ------
    TabletCodeError
        If it is too short or long, or its letters do not fit its check letter.
    """
    plain = text.upper().translate(str.maketrans("OIL", "011"))
    letters = [letter for letter in plain if not letter.isspace() and letter not in "-."]
    strange = [letter for letter in letters if letter not in _ALPHABET]
    if strange:
        raise TabletCodeError(text=text[:60], why=f"it holds {strange[0]!r}")
    if len(letters) != _LETTERS + 1:
        raise TabletCodeError(
            text=text[:60],
            why=f"it has {CountedNoun(len(letters)):letter or figure|letters and figures}",
        )
    values = [_ALPHABET.index(letter) for letter in letters]
    if _weighed(values[:-1]) != values[-1]:
        raise TabletCodeError(
            text=text[:60], why="a letter is misread or two are swapped, by its last letter"
        )
    return _grouped(values)


def _grouped(values: list[int]) -> str:
    letters = "".join(_ALPHABET[value] for value in values)
    return "-".join(letters[at : at + _GROUP] for at in range(0, len(letters), _GROUP))


def _weighed(values: list[int]) -> int:
    """Sum of each value times its own power of a in the field of 32; adding is exclusive or."""
    total = 0
    for value in values:  # by Horner's rule, the last value being weighed by a itself
        total = _times_a(total ^ value)
    return total


def _times_a(value: int) -> int:
    value <<= 1
    return value ^ _FIELD if value & 32 else value
