"""Bounds of an entry that never change within the format (sync/FORMAT.md, part 3.4)."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from operator import itemgetter
from typing import Any, Final, Literal

from models.units.times import FIRST_DAY, LAST_DAY, is_day, is_time, nearest_time

LONGEST_TEXT: Final = 20_000
LONGEST_LABEL, LONGEST_ZONE, LONGEST_AUTHOR = 64, 64, 80
LONGEST_LIST: Final = 50_000
MOST_STRIKES, MOST_NEEDS = 1_000, 16
WHOLE: Final = 2**63
"""Whole numbers lie from minus this up to, but not including, this."""

Unfit = Literal["", "not_json", "bounds", "time", "needs", "newer", "body", "fold"]
"""Why an entry is not read: "" where it is.

``not_json``: the bytes are not those of an entry. ``bounds``: a text, list or number of the
envelope is out of bounds. ``time``: so is its day or time. ``needs``: it names something that
this version does not know and without which it would be misread. ``newer``: so is its kind or
version. ``body``: the body does not fit its kind. ``fold``: it can't be put among the others.
"""

NEWER: Final = frozenset({"newer", "needs"})
"""Reasons that a newer version of the app would not have."""
UNREADABLE: Final = frozenset({"not_json", "bounds", "time", "body", "fold"})
"""Reasons that every version has: the entry itself is at fault."""
UNTIMED: Final = frozenset({"not_json", "bounds", "time"})
"""Reasons by which the time that an entry is shown with is not its own."""

_TEXTS: Final = {
    "id": LONGEST_LABEL,
    "stream": LONGEST_LABEL,
    "kind": LONGEST_TEXT,
    "zone": LONGEST_ZONE,
    "author": LONGEST_AUTHOR,
    "job": LONGEST_TEXT,
    "day": LONGEST_LABEL,
    "reason": LONGEST_TEXT,
}
_NUMBERS: Final = ("seq", "lc", "v", "at_ms", "offset_min")
_PLAIN: Final = (*_TEXTS, *_NUMBERS, "strikes", "body")
_TYPES: Final = (*(str,) * len(_TEXTS), *(int,) * len(_NUMBERS), list, dict)
_plain = itemgetter(*_PLAIN)
_texts = itemgetter(*_TEXTS)
_numbers = itemgetter(*_NUMBERS)
_LENGTHS: Final = tuple(_TEXTS.values())
ORDER: Final = (
    *("id", "stream", "seq", "lc", "kind", "v", "at_ms", "offset_min", "zone", "author"),
    *("job", "day", "strikes", "reason", "body"),
)
"""Keys of an envelope in the order of the fields of an entry."""
ORDERED_TYPES: Final = tuple(dict(zip(_PLAIN, _TYPES, strict=True))[key] for key in ORDER)


def types_fault(fields: Mapping[str, Any]) -> str:
    """Name the keys of an envelope that are missing or of another type; "" if none is."""
    try:
        if tuple(map(type, _plain(fields))) == _TYPES:  # by type: True would count as 1
            return ""
    except KeyError as fault:
        return str(fault.args[0])
    pairs = zip(_PLAIN, _TYPES, strict=True)
    return " and ".join(key for key, type_ in pairs if type(fields[key]) is not type_)


def envelope_fault(fields: Mapping[str, Any]) -> str:
    """Name what of an envelope of the right types is too long or too large; "" if nothing is.

    Its time is looked at by ``is_timed``, what it needs by ``needs_fault``.
    """
    texts = _texts(fields)
    if any(len(text) > most for text, most in zip(texts, _LENGTHS, strict=True)):
        return "a text"
    if not all(-WHOLE <= number < WHOLE for number in _numbers(fields)):
        return "a number"
    if not fields["id"]:
        return "its id"
    return strikes_fault(fields["strikes"]) if fields["strikes"] else ""


def strikes_fault(strikes: list[Any]) -> str:
    """Say what is wrong with the ids that an entry strikes; "" if nothing is."""
    if len(strikes) > MOST_STRIKES or not all(
        type(id) is str and len(id) <= LONGEST_LABEL for id in strikes
    ):
        return "what it strikes"
    return ""


def is_timed(fields: Mapping[str, Any]) -> bool:
    """Whether the day and the time of an envelope lie within the bounds."""
    return is_time(fields["at_ms"], fields["offset_min"]) and is_day(fields["day"])


def unfit_reason(fields: Mapping[str, Any]) -> Unfit:
    """Say why an envelope can't be read; "" if it lies within the bounds."""
    if types_fault(fields):
        return "not_json"
    if envelope_fault(fields):
        return "bounds"
    return "" if is_timed(fields) else "time"


def needs_fault(needs: Any) -> str:
    """Say what is wrong with the words that an entry needs; they stand only where there are any."""
    is_list = type(needs) is list and 0 < len(needs) <= MOST_NEEDS
    if not is_list or not all(type(word) is str and len(word) <= LONGEST_LABEL for word in needs):
        return "what it needs"
    return "" if needs == sorted(set(needs)) else "what it needs"


def body_fault(value: Any) -> str:
    """Say what in a body no entry may hold: a fraction, or too much; "" if nothing."""
    for inner in value.values() if type(value) is dict else value:
        look = _LOOK.get(type(inner))
        if look is not None and (fault := look(inner)):
            return fault
    return ""


def _text_fault(text: str) -> str:
    if len(text) <= LONGEST_TEXT:
        return ""
    return f"it holds a text of {len(text):,} letters, more than {LONGEST_TEXT:,}"


def _list_fault(members: list[Any]) -> str:
    if len(members) <= LONGEST_LIST:
        return body_fault(members)
    return f"it holds a list of {len(members):,}, more than {LONGEST_LIST:,}"


_LOOK: Final[dict[type, Callable[[Any], str]]] = {
    str: _text_fault,
    int: lambda number: (
        "" if -WHOLE <= number < WHOLE else "it holds a whole number of more than 64 bits"
    ),
    float: lambda number: f"it holds {number}, which is no whole number",
    list: _list_fault,
    dict: body_fault,
}


def nearest_day(text: str) -> str:
    """Return the nearest day within the bounds; the first one for what is no day."""
    if is_day(text):
        return text
    return LAST_DAY if text[:4].isdigit() and text > LAST_DAY else FIRST_DAY


def within_bounds(fields: Mapping[str, Any]) -> dict[str, Any]:
    """Bring an envelope that is out of bounds to the nearest within, so that pages can list it.

    What is missing or of another type becomes the least there is.
    """
    plain = {
        key: fields[key][:most] if type(fields.get(key)) is str else ""
        for key, most in _TEXTS.items()
    }
    numbers = {
        key: max(-WHOLE, min(WHOLE - 1, fields[key])) if type(fields.get(key)) is int else 0
        for key in _NUMBERS
    }
    at_ms, offset_min = nearest_time(numbers["at_ms"], numbers["offset_min"])
    strikes = fields.get("strikes")
    is_good = type(strikes) is list and not strikes_fault(strikes)
    return {
        **plain,
        **numbers,
        "body": {},
        "at_ms": at_ms,
        "offset_min": offset_min,
        "day": nearest_day(plain["day"]),
        "strikes": strikes if is_good else [],
    }
