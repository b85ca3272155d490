"""A plan file: the ground, the materials and the people of a job, as JSON.

The file is an object with lists named for the kinds of plan entry (``job``,
``surface``, ``collector``...). Every figure is written as the trade writes it,
with its unit, under the field's name without the unit: ``"depth": "9 in"`` for
``depth_nm``, ``"grade": "0.5 %"`` for a fall over a run. A surface may give
``"rectangle"`` in place of its lines.
"""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Any, get_args

from pydantic import BaseModel

from crewapp.actions.planning import PLAN_KINDS
from crewapp.paper.problems import PaperError, Problem
from crewapp.paper.rectangle import rectangle_lines
from models.entries.envelope import EntryRefusedError, build_body
from models.entries.kinds import KINDS
from models.errors import UnreadableError
from models.figures import Figures, figures_of
from models.units import parse_grade

_HAS_UNIT = re.compile(r"[A-Za-z'\"\u2019\u201d\u2032\u2033]")

Plan = list[tuple[str, dict[str, Any]]]


def read_plan(path: Path, text: str) -> Plan:
    """Read a plan file into plan entries, or report everything wrong with it.

    Raises
    ------
    PaperError
        If anything is wrong; nothing has been written.
    """
    problems: list[Problem] = []
    told = _load(path, text)
    figures = _figures(told)
    plan: Plan = []
    for kind, items in told.items():
        if kind not in PLAN_KINDS:
            problems.append(
                Problem(0, kind, kind, "is no kind of plan entry", ", ".join(PLAN_KINDS))
            )
            continue
        listed = items if isinstance(items, list) else [items]
        for number, item in enumerate(listed, start=1):
            plan += _one(kind, number, item, figures, problems)
    if not plan and not problems:
        problems.append(
            Problem(0, "", path.name, "plans nothing", "lists named " + ", ".join(PLAN_KINDS))
        )
    if problems:
        raise PaperError(path, problems)
    order = {kind: place for place, kind in enumerate(PLAN_KINDS)}
    return sorted(plan, key=lambda entry: order[entry[0]])


def _load(path: Path, text: str) -> dict[str, Any]:
    forms = "a JSON object with lists named " + ", ".join(PLAN_KINDS)
    try:
        told = json.loads(text)
    except (ValueError, RecursionError) as fault:
        raise PaperError(
            path, [Problem(0, "", text[:40], f"is not JSON ({fault})", forms)]
        ) from fault
    if not isinstance(told, dict):
        raise PaperError(path, [Problem(0, "", text[:40], "is not an object", forms)])
    return told


def _figures(told: dict[str, Any]) -> Figures:
    job = told.get("job")
    first = job[0] if isinstance(job, list) and job else job
    first = first if isinstance(first, dict) else {}
    try:
        return figures_of(
            str(first.get("unit_system", "us")), str(first.get("station_style", "us_100ft"))
        )
    except ValueError:
        return Figures()


def _one(kind: str, number: int, item: Any, figures: Figures, problems: list[Problem]) -> Plan:
    if not isinstance(item, dict):
        problems.append(Problem(number, kind, str(item), "is not an object", "fields in braces"))
        return []
    before = len(problems)
    fields = _read_fields(KINDS[kind], item, figures, f"{kind} {number}", problems)
    if len(problems) > before:
        return []
    try:
        build_body(kind, fields)
    except EntryRefusedError as fault:
        facts = fault.context
        problems.append(
            Problem(number, f"{kind}.{facts['field']}", "", str(facts["why"]), str(facts["forms"]))
        )
        return []
    return [(kind, fields)]


def _read_fields(
    model: type[BaseModel],
    item: dict[str, Any],
    figures: Figures,
    place: str,
    problems: list[Problem],
) -> dict[str, Any]:
    """Turn friendly fields into stored ones, by the model's own field names."""
    fields: dict[str, Any] = {}
    for name, value in item.items():
        where = f"{place}.{name}"
        try:
            if name == "rectangle":
                fields.update(rectangle_lines(value, item, figures))
            elif name == "grade":
                grade = parse_grade(str(value))
                fields.update(fall_nm=grade.numerator * 1000, run_nm=grade.denominator * 1000)
            elif name == "least_grade":
                fields["least_grade"] = parse_grade(str(value))
            else:
                fields.update(_read_field(model, name, value, figures, where, problems))
        except UnreadableError as fault:
            facts = fault.context
            why = f"can't be read: {facts['why']}, at character {facts['place']}"
            problems.append(Problem(0, where, str(value), why, str(facts["forms"])))
        except (ValueError, TypeError, KeyError) as fault:
            problems.append(
                Problem(
                    0, where, str(value)[:60], f"can't be used ({fault})", "see the example plan"
                )
            )
    return _least_grade(fields)


def _least_grade(fields: dict[str, Any]) -> dict[str, Any]:
    """Write the least grade over the same run as the design grade."""
    least = fields.pop("least_grade", None)
    if least is not None and "run_nm" in fields:
        run = fields["run_nm"] * least.denominator
        fields["fall_nm"] *= least.denominator
        fields["least_grade_fall_nm"] = least.numerator * run // least.denominator
        fields["run_nm"] = run
    return fields


def _read_field(
    model: type[BaseModel],
    name: str,
    value: Any,
    figures: Figures,
    where: str,
    problems: list[Problem],
) -> dict[str, Any]:
    known = model.model_fields
    for suffix in ("_nm", "_pl", "_ug"):
        if name + suffix in known and isinstance(value, str):
            read = {name + suffix: _measure(name, suffix, value, figures)}
            typed = f"{name}_typed"
            return {**read, typed: value} if typed in known else read
    if name not in known:
        forms = ", ".join(field.rsplit("_nm", 1)[0] for field in known)
        problems.append(Problem(0, where, str(value)[:60], "is no field of it", forms))
        return {}
    inner = _inner_model(known[name].annotation)
    if inner is not None and isinstance(value, dict):
        return {name: _read_fields(inner, value, figures, where, problems)}
    if inner is not None and isinstance(value, list):
        items = [
            _read_fields(inner, one, figures, f"{where}[{place}]", problems)
            if isinstance(one, dict)
            else one
            for place, one in enumerate(value, start=1)
        ]
        return {name: tuple(items)}
    return {name: tuple(value) if isinstance(value, list) else value}


def _measure(name: str, suffix: str, value: str, figures: Figures) -> int:
    if suffix == "_nm" and "station" in name:
        return figures.read_station(value)
    if not _HAS_UNIT.search(value):
        raise ValueError("its unit is missing")  # 9 of what? a plan is never guessed at
    if suffix == "_pl":
        return figures.read_volume(value)
    return figures.read_mass(value) if suffix == "_ug" else figures.read_level(value)


def _inner_model(annotation: Any) -> type[BaseModel] | None:
    for part in (annotation, *get_args(annotation)):
        if isinstance(part, type) and issubclass(part, BaseModel):
            return part
    return None
