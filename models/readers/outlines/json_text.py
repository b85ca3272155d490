"""JSON from a stranger: bounded in size and depth, numbers finite, names once."""

from __future__ import annotations

import json
import re
from typing import Any

from models.errors import PlanFileError
from models.readers.outlines.problems import decode_text, refuse_whole

MOST_BYTES = 20_000_000
MOST_DEPTH = 24
_FORM = "GeoJSON"
_TOKENS = re.compile(r'"(?:[^"\\]|\\.)*"|[\[{]|[\]}]', re.DOTALL)


def read_json(data: str | bytes) -> Any:
    """Read one JSON value.

    Raises
    ------
    PlanFileError
        If it is too large, too deep, not UTF-8 or not JSON; says where.
    """
    text = decode_text(data, _FORM, MOST_BYTES, "GeoJSON is UTF-8 text")
    depth = 0
    for token in _TOKENS.finditer(text):
        first = token.group()[0]
        depth += (first in "[{") - (first in "]}")
        if depth > MOST_DEPTH:
            met = f"brackets {depth} deep at character {token.start() + 1}"
            refuse_whole(_FORM, met, f"GeoJSON needs no more than {MOST_DEPTH}")
    try:
        return json.loads(text, parse_constant=_refuse_constant, object_pairs_hook=_once)
    except PlanFileError:
        raise  # said already; it is a ValueError too
    except json.JSONDecodeError as error:
        met = f"line {error.lineno}, column {error.colno}: {error.msg}"
        refuse_whole(_FORM, met, "give the file as it was exported")
    except ValueError as error:  # a whole number of more digits than Python reads
        refuse_whole(_FORM, str(error), "give degrees as decimals")


def _refuse_constant(word: str) -> None:
    """Refuse what JSON has no word for."""
    refuse_whole(_FORM, f"the number {word}", "coordinates are finite numbers")


def _once(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    """An object whose names stand once each."""
    members = dict(pairs)
    if len(members) < len(pairs):
        names = [name for name, _ in pairs]
        doubled = next(name for name in names if names.count(name) > 1)
        refuse_whole(_FORM, f"the member {doubled!r} twice in one object", "give it once")
    return members
