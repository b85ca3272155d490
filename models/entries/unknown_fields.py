"""Fields of an entry that this version does not know: listed, counted, and carried over.

A newer version of the app may have written them. They stay in the bytes of their entry, and
whoever corrects that entry copies them into the new one, so that nothing is lost in silence.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from pydantic_core import from_json

from models.entries.envelope import AnyEntry, canonical_bytes, known_form
from models.entries.kinds import KINDS


def holds_more(entry: AnyEntry) -> bool:
    """Whether an entry that was read holds a field that this version does not show."""
    if entry.body is None:
        return False
    stored = _stored(entry)
    return _has_unknown(stored, entry.body.model_dump(mode="json"))


def needs_of(entry: AnyEntry) -> tuple[str, ...]:
    """Words without which an entry would be misread; () for nearly every one."""
    return tuple(from_json(entry.raw).get("needs", ()))


def carried_over(fields: dict[str, Any], olds: Iterable[AnyEntry]) -> dict[str, Any]:
    """Add to the fields of a new body what entries that it takes the place of hold beyond it.

    In a list a member takes over from the one that says the same; if as many stand in both,
    the others do so from the one in their place.
    """
    for old in olds:
        if old.body is not None:
            stored, known = _stored(old), old.body.model_dump(mode="json")
            if _has_unknown(stored, known):
                fields = _with_unknown(fields, stored, known)
    return fields


def _stored(entry: AnyEntry) -> dict[str, Any]:
    """Fields of a body as they are stored, in the form of the newest version known here."""
    stored: dict[str, Any] = from_json(entry.raw)["body"]
    return known_form(KINDS[entry.kind], entry.v, stored)


def _has_unknown(stored: Any, known: Any) -> bool:
    if isinstance(stored, dict) and isinstance(known, dict):
        return any(
            name not in known or _has_unknown(value, known[name]) for name, value in stored.items()
        )
    if isinstance(stored, list) and isinstance(known, list):
        return any(map(_has_unknown, stored, known))
    return False


def _with_unknown(new: Any, stored: Any, known: Any) -> Any:
    """Return ``new`` with what ``stored`` holds beyond ``known``, at every depth."""
    if isinstance(new, dict) and isinstance(stored, dict) and isinstance(known, dict):
        more = {name: value for name, value in stored.items() if name not in known}
        same = {
            name: _with_unknown(value, stored[name], known[name]) if name in known else value
            for name, value in new.items()
            if name in stored
        }
        return {**more, **new, **same}
    if isinstance(new, list) and isinstance(stored, list) and isinstance(known, list):
        places = _places_before(new, known)
        return [
            one if place is None else _with_unknown(one, stored[place], known[place])
            for one, place in zip(new, places, strict=True)
        ]
    return new


def _places_before(new: list[Any], known: list[Any]) -> list[int | None]:
    """For each member of a list, where in the list before it the member lies that it was."""
    left: dict[bytes, list[int]] = {}
    for place in reversed(range(len(known))):
        left.setdefault(canonical_bytes(known[place]), []).append(place)
    found: list[int | None] = []
    for one in new:
        same = left.get(canonical_bytes(one))
        found.append(same.pop() if same else None)
    if len(new) != len(known):
        return found
    taken = set(found)
    return [
        place if place is not None else (number if number not in taken else None)
        for number, place in enumerate(found)
    ]
