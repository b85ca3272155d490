"""A plan file: the ground, the materials and the people of a job, as JSON.

The file is an object with lists named for the kinds of plan entry (``job``,
``surface``, ``collector``...). Every figure is written as the trade writes it,
with its unit, under the field's name without the unit: ``"depth": "9 in"`` for
``depth_nm``, ``"grade": "0.5 %"`` for a fall over a run. A surface may give
``"rectangle"`` in place of its lines; with ``"layout"`` its lines are laid when the
file is read, over its ``"outline"``, ``"rectangle"`` or ``"circle"``.
"""

from __future__ import annotations

import json
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from crewapp.actions.planning import NAMED_BY, PLAN_KINDS
from crewapp.paper.plan_fields import PlanFields
from crewapp.paper.plan_layout import Standing, SurfaceShapes, lay_planned
from crewapp.paper.plan_sense import senseless
from crewapp.paper.problems import PaperError, Problem
from models.entries.kinds import KINDS
from models.figures import Figures, figures_of

Plan = list[tuple[str, dict[str, Any]]]
FILE_KINDS = tuple(kind for kind in PLAN_KINDS if kind != "layout")
"""Kinds of entry that a file has lists of; a layout stands within its surface."""

_FORMS = "a JSON object with lists named " + ", ".join(FILE_KINDS)
_LONGEST_SHOWN = 40


@dataclass(frozen=True, slots=True)
class _Twice:
    """A name that stands twice in one object, kept by JSON readers only once."""

    name: str


def read_plan(
    path: Path, text: str, figures: Figures | None = None, standing: Standing = lambda *_: None
) -> Plan:
    """Read a plan file into plan entries, or report everything wrong with it.

    ``figures`` are the units of the book it is for; they say how stations are
    written where the plan itself holds no job. ``standing`` gives what the book holds
    already: the machines and collectors that layouts are laid for.

    Raises
    ------
    PaperError
        If anything is wrong; nothing has been written.
    PlanningAbsentError
        If lines are to be laid and the geometry library is not installed.
    """
    told = _load(path, text)
    reading = _Reading(_figures(told) or figures or Figures())
    for kind, items in told.items():
        if kind not in FILE_KINDS:
            reading.problems.append(_no_kind(kind))
            continue
        for number, item in enumerate(items if isinstance(items, list) else [items], start=1):
            reading.take(kind, number, item)
    plan, problems = reading.plan, reading.problems
    problems += senseless(plan)
    if reading.asked and not problems:
        plan, problems = lay_planned(plan, reading.asked, standing)
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


def _no_kind(kind: str) -> Problem:
    """The fault of a list that is named for no kind."""
    if kind == "layout":
        forms = 'a surface with "layout": {"sand_slits": {...}}'
        return Problem(0, kind, kind, "stands within the surface whose lines it lays", forms)
    if kind in {"type", "features"}:
        forms = "an outline is brought in with the surface it belongs to (--surface)"
        return Problem(0, kind, kind, "is GeoJSON, which is no plan file", forms)
    return Problem(0, kind, kind, "is no kind of plan entry", ", ".join(FILE_KINDS))


@dataclass(slots=True)
class _Reading:
    """What was read of a file so far: entries, layouts asked for, and every fault."""

    figures: Figures
    plan: Plan = field(default_factory=list)
    asked: list[tuple[str, str, dict[str, Any]]] = field(default_factory=list)
    problems: list[Problem] = field(default_factory=list)

    def take(self, kind: str, number: int, item: Any) -> None:
        """Read one entry."""
        if not isinstance(item, dict):
            shown = str(item)[:_LONGEST_SHOWN]
            place = f"{kind} {number}"
            self.problems.append(Problem(0, place, shown, "is not an object", "fields in {}"))
            return
        name = item.get(NAMED_BY[kind], "") if NAMED_BY[kind] else ""
        place = (
            f"{kind} {number} ({name})" if isinstance(name, str) and name else f"{kind} {number}"
        )
        shapes = SurfaceShapes(self.figures, place)
        left = shapes.take(item) if kind == "surface" else item
        reading = PlanFields(self.figures, place)
        fields = reading.read(KINDS[kind], left)
        self.problems += reading.problems + shapes.problems
        if reading.problems or shapes.problems:
            return
        if shapes.outline is not None:
            fields["outline"] = shapes.outline
        if shapes.layout is not None:
            self.asked.append((place, str(fields["surface_id"]), shapes.layout))
        self.plan.append((kind, fields))
