"""Checks fields of a plan, each readable by itself, against one another."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from typing import Any
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

from crewapp.handlers.plan.plan_entries import NAMED_BY
from crewapp.imports.problems import Problem
from models.errors import UnreadableError
from models.units import parse_day

_DAYS = ("valid_from", "expires_on", "planned_finish")
Plan = list[tuple[str, dict[str, Any]]]


def field_conflicts(plan: Plan) -> Iterator[Problem]:
    """Names that stand twice, days that no calendar has, zones that nobody knows."""
    for (kind, name), times in Counter(map(_name, plan)).items():
        if times > 1:
            place = f"{kind} ({name})" if name else kind
            yield Problem(0, place, name or kind, f"stands {times} times", "each of them once")
    for kind, fields in plan:
        name = _name((kind, fields))[1]
        place = f"{kind} ({name})" if name else kind
        yield from _bad_days(place, fields)
        yield from _bad_zone(place, fields)
        yield from _lines_twice(place, fields)


def _name(entry: tuple[str, dict[str, Any]]) -> tuple[str, str]:
    kind, fields = entry
    return kind, str(fields.get(NAMED_BY[kind], "")) if NAMED_BY[kind] else ""


def _bad_days(place: str, fields: dict[str, Any]) -> Iterator[Problem]:
    for name in _DAYS:
        day = fields.get(name)
        if day is None:
            continue
        try:
            parse_day(day)
        except UnreadableError as fault:
            facts = fault.context
            yield Problem(0, f"{place}, {name}", day, str(facts["why"]), str(facts["forms"]))
    first, last = fields.get("valid_from"), fields.get("expires_on")
    if first and last and last < first:
        forms = f"a day from {first} on"
        yield Problem(0, f"{place}, expires_on", last, "comes before its first day", forms)


def _bad_zone(place: str, fields: dict[str, Any]) -> Iterator[Problem]:
    zone = fields.get("zone")
    if zone is None:
        return
    try:
        ZoneInfo(zone)
    except (ZoneInfoNotFoundError, ValueError, OSError):
        forms = "an IANA name such as America/Chicago"
        yield Problem(0, f"{place}, zone", zone, "is no time zone", forms)


def _lines_twice(place: str, fields: dict[str, Any]) -> Iterator[Problem]:
    names = Counter(line["line_id"] for line in fields.get("lines", ()))
    for name, times in names.items():
        if times > 1:
            yield Problem(0, f"{place}, lines", name, f"stands {times} times", "each line once")
