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
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from crewapp.handlers.plan.plan_entries import NAMED_BY, PLAN_KINDS
from crewapp.imports.plan.audit import audit_problems
from crewapp.imports.plan.consistency import field_conflicts
from crewapp.imports.plan.fields import PlanFields
from crewapp.imports.plan.layouts import SurfaceShapes, faulty_rings, lay_planned_surfaces
from crewapp.imports.problems import PaperError, Problem
from models.audit.plan_view import PlanView
from models.audit.rule import Part
from models.entries.body import Body
from models.entries.envelope import build_body
from models.entries.kinds import KINDS
from models.errors import PlanningAbsentError
from models.state.job_state import JobState
from models.units.job_units import Figures, figures_of

Plan = list[tuple[str, dict[str, Any]]]
FILE_KINDS = tuple(kind for kind in PLAN_KINDS if kind != "layout")
"""Kinds of entry that a file has lists of; a layout stands within its surface."""

_FORMS = "a JSON object with lists named " + ", ".join(FILE_KINDS)
_LONGEST_SHOWN = 40


def read_plan(
    path: Path,
    text: str,
    figures: Figures | None = None,
    book: JobState | None = None,
    judge: Callable[[Plan], Iterable[Problem]] = lambda plan: (),
) -> Plan:
    """Read a plan file into plan entries, or report everything wrong with it.

    ``figures`` are the units of the book it is for; they say how stations are
    written where the plan itself holds no job. ``book`` is what the book holds already:
    the machines and collectors that layouts are laid for, the ground beside which the plan
    is audited. ``judge`` gives what else may be wrong with the entries that could be read.

    Raises
    ------
    PaperError
        If anything is wrong; nothing has been written.
    PlanningAbsentError
        If lines are to be laid and the geometry library is not installed.
    """
    told, problems = _load(path, text)
    reading = _Reading(_figures(told) or figures or Figures(), problems=problems)
    for kind, items in told.items():
        if kind not in FILE_KINDS:
            reading.problems.append(_no_kind(kind))
            continue
        for number, item in enumerate(items if isinstance(items, list) else [items], start=1):
            reading.take(kind, number, item)
    problems += field_conflicts(reading.plan)
    before = book or JobState()
    plan, unlaid = _laid(reading, before)
    problems += judge([one for one in plan if one[1].get("surface_id") not in unlaid])
    view = PlanView.of_state(before)
    problems += audit_problems(view, plan, list(unlaid.values()), reading.places, reading.figures)
    if not plan and not problems:
        problems.append(Problem(0, "", path.name, "plans nothing", _FORMS))
    if problems:
        raise PaperError(path, problems)
    order = {kind: place for place, kind in enumerate(PLAN_KINDS)}
    return sorted(plan, key=lambda entry: order[entry[0]])


def _laid(reading: _Reading, book: JobState) -> tuple[Plan, dict[str, Body]]:
    """The plan with its lines laid, and layouts that could not be laid, by surface.

    What is wrong with them is put to the problems.
    """
    plan = reading.plan
    try:
        for place, name, layout in reading.asked:
            faults = list(faulty_rings(place, layout))
            reading.problems += faults
            reading.failed |= {("surface", name)} if faults else set()
        asked = [one for one in reading.asked if not reading.is_left_out(one)]
        if asked:
            plan, faults = lay_planned_surfaces(plan, asked, book)
            reading.problems += faults
    except PlanningAbsentError:
        if not reading.problems:
            raise
    laid = {str(fields["surface_id"]) for kind, fields in plan if kind == "layout"}
    unlaid = {
        name: build_body("layout", {"surface_id": name, "keep_outs": layout["keep_outs"]})
        for _, name, layout in reading.asked
        if name not in laid
    }
    return plan, unlaid


def _load(path: Path, text: str) -> tuple[dict[str, Any], list[Problem]]:
    """The object in the text, and names that stand twice in it.

    Raises
    ------
    PaperError
        If it is none, or holds half a character.
    """
    shown = text[:_LONGEST_SHOWN]
    try:
        told = json.loads(text, object_pairs_hook=_object, parse_constant=_refuse_constant)
    except (ValueError, RecursionError) as fault:
        raise PaperError(path, [Problem(0, "", shown, f"is not JSON ({fault})", _FORMS)]) from fault
    if not isinstance(told, dict):
        raise PaperError(path, [Problem(0, "", shown, "is not an object", _FORMS)])
    halves = list(_halves(told, ""))
    if halves:
        raise PaperError(path, halves)
    return told, list(_twice(told, ""))


class _Object(dict[str, Any]):
    """An object of the file, with the names that stand twice in it; the first of each counts."""

    twice: tuple[str, ...] = ()


def _object(pairs: list[tuple[str, Any]]) -> _Object:
    found = _Object()
    for name, value in pairs:
        if name in found:
            found.twice = (*found.twice, name)
        else:
            found[name] = value
    return found


def _refuse_constant(name: str) -> None:
    raise ValueError(f"{name} is no figure")


def _halves(told: Any, place: str) -> Iterator[Problem]:
    """Texts that no file can hold."""
    if isinstance(told, str) and any("\ud800" <= letter <= "\udfff" for letter in told):
        shown = told.encode("ascii", "backslashreplace").decode()
        yield Problem(0, place, shown, "holds half a character", "whole characters")
    for part, one in _inner(told, place):
        yield from _halves(one, part)


def _twice(told: Any, place: str) -> Iterator[Problem]:
    """Names that stand twice in an object."""
    for name in told.twice if isinstance(told, _Object) else ():
        where = f"{place}, {name}" if place else name
        yield Problem(0, where, name, "stands twice in one object", "each name once")
    for part, one in _inner(told, place):
        yield from _twice(one, part)


def _inner(told: Any, place: str) -> Iterator[tuple[str, Any]]:
    """What an object or a list holds, each with its place."""
    if isinstance(told, list):
        for number, one in enumerate(told, start=1):
            yield f"{place} {number}".strip(), one
    elif isinstance(told, dict):
        for name, one in told.items():
            yield place, name
            yield f"{place}, {name}" if place else name, one


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
    places: dict[Part, str] = field(default_factory=dict)
    failed: set[Part] = field(default_factory=set)

    def is_left_out(self, asked: tuple[str, str, dict[str, Any]]) -> bool:
        """Whether lines can't be laid because what they are laid for could not be read."""
        named = {("machine", str(one.get("machine_id"))) for one in asked[2]["terms"]}
        named.add(("surface", asked[1]))
        for kind, fields in self.plan:
            if kind == "surface" and fields["surface_id"] == asked[1]:
                named.add(("collector", str(fields.get("collector_id"))))
        return bool(named & self.failed)

    def take(self, kind: str, number: int, item: Any) -> None:
        """Read one entry of the file."""
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
            self.failed.add((kind, str(name)))
        if reading.problems:
            return
        self.places[(kind, str(name))] = place
        if shapes.outline is not None:
            fields["outline"] = shapes.outline
        if shapes.layout is not None:
            self.asked.append((place, str(fields["surface_id"]), shapes.layout))
        self.plan.append((kind, fields))
