"""Fields of a plan entry as people write them, read by the entry's own model."""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import partial
from math import lcm
from typing import Any, get_args

from pydantic import BaseModel, ValidationError

from crewapp.imports.plan.amounts import (
    AMOUNTS,
    GRADE_FORMS,
    OWN_AMOUNTS,
    STATION_FORMS,
    Amount,
    is_raw,
    stored_figure_text,
    stored_suffix,
)
from crewapp.imports.plan.rectangle import RectangleError, rectangle_lines
from crewapp.imports.problems import Problem
from models.errors import UnreadableError
from models.units import has_grade_unit, parse_grade
from models.units.job_units import Figures

_OWN_NAMES = {"fall_nm": "grade", "run_nm": "grade", "least_grade_fall_nm": "least_grade"} | {
    stored: name for name, (stored, _) in OWN_AMOUNTS.items()
}
"""Stored fields that a plan writes in another way."""

_LONGEST_SHOWN = 60
_NO_FIELD = "is no field of it"
_SHOULD_BE = "Input should be "  # how the library of the bodies begins what it would accept

Place = tuple[str | int, ...]


@dataclass(slots=True)
class PlanFields:
    """Plan entry being read: where it stands, and everything wrong with it."""

    figures: Figures
    entry: str
    problems: list[Problem] = field(default_factory=list)
    bad: set[Place] = field(default_factory=set)

    def read(self, model: type[BaseModel], item: dict[str, Any]) -> dict[str, Any]:
        """Turn friendly fields into stored ones; what can't be is on ``problems``."""
        fields = self._fields(model, item, ())
        try:
            model.model_validate(fields)
        except ValidationError as fault:
            for error in fault.errors():
                self._refused(model, error["loc"], error["type"], error["msg"])
        return fields

    def _fields(self, model: type[BaseModel], item: dict[str, Any], place: Place) -> dict[str, Any]:
        fields: dict[str, Any] = {}
        rectangle: Any = None
        for name, value in item.items():
            if name == "rectangle" and "lines" in model.model_fields:
                rectangle = value
            else:
                fields.update(self._field(model, name, value, place))
        if rectangle is not None:
            fields.update(self._rectangle(rectangle, fields, (*place, "rectangle")))
        return _one_run(fields)

    def _field(self, model: type[BaseModel], name: str, value: Any, place: Place) -> dict[str, Any]:
        known = model.model_fields
        if name in {"grade", "least_grade"} and "run_nm" in known:
            return self._grade(name, value, (*place, name))
        if name in OWN_AMOUNTS and OWN_AMOUNTS[name][0] in known:
            return self._figure(known, name, *OWN_AMOUNTS[name], value, place)
        for suffix, amount in AMOUNTS.items():
            if name + suffix in known and name + suffix not in _OWN_NAMES:
                return self._figure(known, name, name + suffix, amount, value, place)
        if name not in friendly_names(model) and not (name in known and is_raw(name)):
            self._tell((*place, name), value, _NO_FIELD, ", ".join(friendly_names(model)))
            return {}
        return {name: self._value(known[name].annotation, value, (*place, name))}

    def _value(self, annotation: Any, value: Any, place: Place) -> Any:
        """A plain value, an inner object, or a list of them."""
        inner = _inner_model(annotation)
        if inner is not None and isinstance(value, dict):
            return self._fields(inner, value, place)
        if inner is not None and isinstance(value, list):
            return tuple(
                self._fields(inner, one, (*place, number)) if isinstance(one, dict) else one
                for number, one in enumerate(value)
            )
        return tuple(value) if isinstance(value, list) else value

    def _grade(self, name: str, value: Any, place: Place) -> dict[str, Any]:
        if not isinstance(value, str) or not has_grade_unit(value):
            self._tell(place, value, "has no unit", GRADE_FORMS)
            return {}
        try:
            return {name: parse_grade(value)}
        except UnreadableError as fault:
            self._unreadable(place, value, fault)
            return {}

    def _figure(
        self,
        known: dict[str, Any],
        name: str,
        stored: str,
        amount: Amount,
        value: Any,
        place: Place,
    ) -> dict[str, Any]:
        at = (*place, stored)
        if value is None and not known[stored].is_required():
            return {}
        is_station = _is_station(name) and stored.endswith("_nm")
        text = stored_figure_text(value, amount)
        if text is None and is_station and isinstance(value, str) and "+" in value:
            text = value
        if text is None:
            # 9 of what? A plan is never guessed at.
            why = "is no figure" if amount.bare else "has no unit"
            self._tell(at, value, why, STATION_FORMS if is_station else amount.forms)
            return {}
        read = self.figures.read_station if is_station else partial(amount.read, self.figures)
        try:
            fields = {stored: read(text)}
        except UnreadableError as fault:
            self._unreadable(at, value, fault)
            return {}
        typed = f"{name}_typed"
        return {**fields, typed: text} if typed in known else fields

    def _rectangle(self, value: Any, fields: dict[str, Any], place: Place) -> dict[str, Any]:
        if "lines" in fields or "outline" in fields:
            self._tell(place, value, "stands beside lines or an outline", "one or the other")
            return {}
        try:
            return rectangle_lines(value, fields, self.figures)
        except UnreadableError as fault:
            self._unreadable(place, value, fault)
        except RectangleError as fault:
            self._tell(place, value, str(fault), fault.forms)
        return {}

    def _refused(self, model: type[BaseModel], loc: Place, type_: str, message: str) -> None:
        """Tell what the model refused, unless the field is on the list already."""
        if any(loc[: len(bad)] == bad or bad[: len(loc)] == loc for bad in self.bad):
            return
        place = tuple(_OWN_NAMES.get(str(part), part) for part in loc)
        message = message.removeprefix("Value error, ")
        what, why = _description(model, loc), f"was refused: {message}"
        if type_ == "missing":
            why = "is missing"
        elif message.startswith(_SHOULD_BE):
            what, why = message.removeprefix(_SHOULD_BE), "was refused"
        self._tell(place, "", why, what)

    def _unreadable(self, place: Place, value: Any, fault: UnreadableError) -> None:
        facts = fault.context
        why = f"can't be read: {facts['why']}, at character {facts['place']}"
        self._tell(place, value, why, str(facts["forms"]))

    def _tell(self, place: Place, value: Any, why: str, forms: str) -> None:
        self.bad.add(_stored(place))
        # A name that nobody knows is shown as it was written.
        friendly = str if why == _NO_FIELD else _friendly
        told = ", ".join([*map(_friendly, place[:-1]), *map(friendly, place[-1:])])
        column = f"{self.entry}, {told}" if told else self.entry
        problem = Problem(0, column, str(value)[:_LONGEST_SHOWN], why, forms)
        if problem not in self.problems:
            self.problems.append(problem)


def friendly_names(model: type[BaseModel]) -> list[str]:
    """Names of the fields of a model as a plan file writes them."""
    names: dict[str, None] = {}
    for stored in model.model_fields:
        if not stored.endswith("_typed"):
            names[_OWN_NAMES.get(stored) or _friendly(stored)] = None
    if "lines" in names:
        names |= dict.fromkeys(("rectangle", "circle", "layout"))
    return list(names)


def _friendly(part: str | int) -> str:
    """A part of a place as people know it: no unit in the name, counted from one."""
    if isinstance(part, int):
        return str(part + 1)
    return part.removesuffix(stored_suffix(part))


def _stored(place: Place) -> Place:
    """Place by which the model will complain about the same field."""
    last = {"grade": "fall_nm", "least_grade": "least_grade_fall_nm", "rectangle": "lines"}
    return (*place[:-1], last.get(str(place[-1]), place[-1])) if place else place


def _is_station(name: str) -> bool:
    return name in {"station", "start"}


def _description(model: type[BaseModel], loc: Place) -> str:
    """What the field at a place is, by its own model."""
    found: Any = model
    text = ""
    for part in loc:
        if isinstance(part, int) or found is None or part not in found.model_fields:
            continue
        text = found.model_fields[part].description or ""
        found = _inner_model(found.model_fields[part].annotation)
    return text.removesuffix(", nm").removesuffix(", pl").removesuffix(", ug") or "another value"


def _inner_model(annotation: Any) -> type[BaseModel] | None:
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return annotation
    for part in get_args(annotation):
        inner = _inner_model(part)
        if inner is not None:
            return inner
    return None


def _one_run(fields: dict[str, Any]) -> dict[str, Any]:
    """Write design grade and least grade as falls over one run."""
    grades = {
        stored: fields.pop(name)
        for name, stored in (("grade", "fall_nm"), ("least_grade", "least_grade_fall_nm"))
        if name in fields
    }
    if grades:
        run_nm = 1000 * lcm(*(grade.denominator for grade in grades.values()))
        fields["run_nm"] = run_nm
        fields.update({stored: int(grade * run_nm) for stored, grade in grades.items()})
    return fields
