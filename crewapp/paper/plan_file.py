"""A plan file: the ground, the materials and the people of a job, as JSON.

The file is an object with lists named for the kinds of plan entry (``job``,
``surface``, ``collector``...). Every figure is written as the trade writes it,
with its unit, under the field's name without the unit: ``"depth": "9 in"`` for
``depth_nm``, ``"grade": "0.5 %"`` for a fall over a run. A surface may give
``"rectangle"`` in place of its lines.
"""

from __future__ import annotations

import json
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from crewapp.actions.planning import NAMED_BY, PLAN_KINDS
from crewapp.paper.plan_fields import PlanFields
from crewapp.paper.plan_sense import senseless
from crewapp.paper.problems import PaperError, Problem
from models.entries.kinds import KINDS
from models.figures import Figures, figures_of

Plan = list[tuple[str, dict[str, Any]]]
_FORMS = "a JSON object with lists named " + ", ".join(PLAN_KINDS)
_LONGEST_SHOWN = 40


@dataclass(frozen=True, slots=True)
class _Twice:
    """A name that stands twice in one object, kept by JSON readers only once."""

    name: str


def read_plan(path: Path, text: str, figures: Figures | None = None) -> Plan:
    """Read a plan file into plan entries, or report everything wrong with it.

    ``figures`` are the units of the book it is for; they say how stations are
    written where the plan itself holds no job.

    Raises
    ------
    PaperError
        If anything is wrong; nothing has been written.
    """
    told = _load(path, text)
    figures = _figures(told) or figures or Figures()
    problems: list[Problem] = []
    plan: Plan = []
    for kind, items in told.items():
        if kind not in PLAN_KINDS:
            forms = ", ".join(PLAN_KINDS)
            problems.append(Problem(0, kind, kind, "is no kind of plan entry", forms))
            continue
        for number, item in enumerate(items if isinstance(items, list) else [items], start=1):
            plan += _one(kind, number, item, figures, problems)
    problems += senseless(plan)
    if not plan and not problems:
        problems.append(Problem(0, "", path.name, "plans nothing", _FORMS))
    if problems:
        raise PaperError(path, problems)
    order = {kind: place for place, kind in enumerate(PLAN_KINDS)}
    return sorted(plan, key=lambda entry: order[entry[0]])


def _load(path: Path, text: str) -> dict[str, Any]:
    shown = text[:_LONGEST_SHOWN]
    try:
        told = json.loads(text, object_pairs_hook=_object, parse_constant=_refuse_constant)
    except (ValueError, RecursionError) as fault:
        raise PaperError(path, [Problem(0, "", shown, f"is not JSON ({fault})", _FORMS)]) from fault
    if not isinstance(told, dict):
        raise PaperError(path, [Problem(0, "", shown, "is not an object", _FORMS)])
    faults = list(_unwritable(told, ""))
    if faults:
        raise PaperError(path, faults)
    return told


def _object(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    found: dict[str, Any] = {}
    for name, value in pairs:
        found[name] = _Twice(name) if name in found else value
    return found


def _refuse_constant(name: str) -> None:
    raise ValueError(f"{name} is no figure")


def _unwritable(told: Any, place: str) -> Iterator[Problem]:
    """Texts that no file can hold, and names that stand twice."""
    if isinstance(told, _Twice):
        yield Problem(0, place, told.name, "stands twice in one object", "each name once")
    elif isinstance(told, str) and any("\ud800" <= letter <= "\udfff" for letter in told):
        shown = told.encode("ascii", "backslashreplace").decode()
        yield Problem(0, place, shown, "holds half a character", "whole characters")
    elif isinstance(told, list):
        for number, one in enumerate(told, start=1):
            yield from _unwritable(one, f"{place} {number}".strip())
    elif isinstance(told, dict):
        for name, one in told.items():
            yield from _unwritable(name, place)
            yield from _unwritable(one, f"{place}, {name}" if place else name)


def _figures(told: dict[str, Any]) -> Figures | None:
    """Units of the plan's own job; what is wrong with them is told where the job is read."""
    job = told.get("job")
    first = job[0] if isinstance(job, list) and job else job
    if not isinstance(first, dict):
        return None
    try:
        return figures_of(
            str(first.get("unit_system", "us")), str(first.get("station_style", "us_100ft"))
        )
    except ValueError:
        return None


def _one(kind: str, number: int, item: Any, figures: Figures, problems: list[Problem]) -> Plan:
    if not isinstance(item, dict):
        shown = str(item)[:_LONGEST_SHOWN]
        problems.append(Problem(0, f"{kind} {number}", shown, "is not an object", "fields in {}"))
        return []
    name = item.get(NAMED_BY[kind], "") if NAMED_BY[kind] else ""
    place = f"{kind} {number} ({name})" if isinstance(name, str) and name else f"{kind} {number}"
    reading = PlanFields(figures, place)
    fields = reading.read(KINDS[kind], item)
    problems += reading.problems
    return [] if reading.problems else [(kind, fields)]
