"""Surfaces of a plan file whose lines are laid when it is read."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any

from pydantic import BaseModel

from crewapp.imports.plan.fields import PlanFields
from crewapp.imports.plan.rectangle import RectangleError, rectangle_lines
from crewapp.imports.problems import Problem
from models.audit.plan_view import ring_of
from models.entries.bodies.planning import SurfaceLayout
from models.entries.envelope import body_fields, build_kind
from models.entries.index import B, EntryKind
from models.entries.kind_names import COLLECTOR, LAYOUT, MACHINE, SURFACE
from models.errors import CrewError, OutlineError, PlanningAbsentError, UnreadableError
from models.plan.layout import LayoutTerms, PlannedKeepOut
from models.plan.line import LineUse
from models.state.job_state import JobState
from models.units.job_units import Figures

if TYPE_CHECKING:
    from models.queries.layout.lay_lines import LaidSurface

Plan = list[tuple[str, dict[str, Any]]]

_PARTS = ("setback", "reach", "keep_outs", "sand_slits", "piped_slits", "source")
_USES: dict[str, LineUse] = {"sand_slits": "sand_slit", "piped_slits": "piped_slit"}
_CIRCLE_FORMS = 'an object such as {"radius": "40 ft"}, with "east" and "north" if far'
_KEEP_OUT_FORMS = (
    'a "circle" such as {"radius": "8 in", "east": "40 ft", "north": "12 ft"}, a "rectangle", '
    'or a "ring" of points'
)
_LAYOUT_FORMS = f"an object with any of {', '.join(_PARTS)}"


@dataclass(slots=True)
class SurfaceShapes:
    """Shape and layout of one surface in a plan file, apart from its plain fields."""

    figures: Figures
    place: str
    problems: list[Problem] = field(default_factory=list)
    outline: tuple[dict[str, int], ...] | None = None
    layout: dict[str, Any] | None = None

    def take(self, item: dict[str, Any]) -> dict[str, Any]:
        """Read circle, rectangle and layout; return the fields that are left."""
        left = dict(item)
        wants_lines = "layout" in left
        if "circle" in left:
            self.outline = self._circle(left.pop("circle"), "circle")
        if wants_lines and "rectangle" in left:
            self.outline = self._rectangle(left.pop("rectangle"), "rectangle")
        given = [name for name in ("outline", "circle", "rectangle") if name in item]
        if ("circle" in given or wants_lines) and len(given) > 1:
            self._tell("", ", ".join(given), "stand side by side", "one of them")
        if wants_lines and "lines" in left:
            self._tell("lines", "", "stand beside a layout", "one or the other")
        if wants_lines:
            self._layout(left.pop("layout"), left)
        return left

    def _layout(self, told: Any, surface: dict[str, Any]) -> None:
        """The layout asked for, as fields of its entry."""
        if not isinstance(told, dict):
            self._tell("layout", told, "is not an object", _LAYOUT_FORMS)
            return
        for name in told:
            if name not in _PARTS:
                self._tell(f"layout, {name}", told[name], "is no part of it", ", ".join(_PARTS))
        if not any(use in told for use in _USES):
            forms = 'sand_slits or piped_slits, such as {"bearing": "90 deg"}'
            self._tell("layout", "", "asks for no lines", forms)
        plain = {name: told[name] for name in ("setback", "reach", "source") if name in told}
        self.layout = self._read(SurfaceLayout, {"surface_id": "-", **plain}, "layout")
        self.layout["keep_outs"] = tuple(self._keep_outs(told.get("keep_outs", [])))
        self.layout["terms"] = tuple(
            self._terms(use, told[name], surface.get(name), f"layout, {name}")
            for name, use in _USES.items()
            if name in told
        )

    def _terms(self, use: LineUse, told: Any, pattern: Any, place: str) -> dict[str, Any]:
        """What is asked of one use; its spacing is the pattern's where it says none."""
        if not isinstance(told, dict):
            self._tell(place, told, "is not an object", 'such as {"bearing": "90 deg"}')
            return {}
        item = {"machine_id" if name == "machine" else name: one for name, one in told.items()}
        if "spacing" not in item and isinstance(pattern, dict) and "spacing" in pattern:
            item["spacing"] = pattern["spacing"]
        fields = self._read(LayoutTerms, {**item, "use": use}, place)
        if "spacing" in told and isinstance(pattern, dict):
            self._need_one_spacing(fields, pattern, place)
        return fields

    def _need_one_spacing(self, fields: dict[str, Any], pattern: Any, place: str) -> None:
        """A spacing given twice must be the same: neither is guessed to be the right one."""
        own = PlanFields(self.figures, self.place).read(
            LayoutTerms, {"use": "sand_slit", "spacing": pattern.get("spacing")}
        )
        if "spacing_nm" in own and own["spacing_nm"] != fields.get("spacing_nm"):
            why = "is another spacing than the pattern's"
            self._tell(f"{place}, spacing", pattern["spacing"], why, "one spacing, given once")

    def _keep_outs(self, told: Any) -> list[dict[str, Any]]:
        """Keep-outs with their rings; a circle or rectangle may stand for one."""
        if not isinstance(told, list):
            self._tell("layout, keep_outs", told, "is not a list", 'a list of {"ring": [...]}')
            return []
        found: list[dict[str, Any]] = []
        for number, one in enumerate(told, start=1):
            name = one.get("name") if isinstance(one, dict) else ""
            named = f" ({name})" if isinstance(name, str) and name else ""
            before = len(self.problems)
            fields = self._keep_out(one, f"layout, keep_outs, {number}{named}")
            # What can be read is audited beside the faults, if its name tells which it is.
            if len(self.problems) == before and (named or len(found) == number - 1):
                found.append(fields)
        return found

    def _keep_out(self, told: Any, place: str) -> dict[str, Any]:
        """One keep-out with its ring; nothing where it has a fault, which is told."""
        if not isinstance(told, dict):
            self._tell(place, told, "is not an object", 'such as {"circle": {...}}')
            return {}
        item = dict(told)
        if "circle" in item:
            return self._round(item, f"{place}, circle", place)
        if "rectangle" in item:
            ring = self._rectangle(item.pop("rectangle"), f"{place}, rectangle")
            return self._ringed(item, ring, place) if ring is not None else {}
        if not {"ring", "at", "path"} & item.keys():
            why = "is missing, so no line would keep off it"
            self._tell(f"{place}, ring", "", why, _KEEP_OUT_FORMS)
            return {}
        return self._ringed(item, None, place)

    def _ringed(self, item: dict[str, Any], ring: Any, place: str) -> dict[str, Any]:
        """A keep-out read by its model, with the ring that a shape gave."""
        if ring is None:
            return self._read(PlannedKeepOut, item, place)
        stand_in = [{"x": "0 m", "y": "0 m"}] * 3
        return {**self._read(PlannedKeepOut, {**item, "ring": stand_in}, place), "ring": ring}

    def _round(self, item: dict[str, Any], at: str, place: str) -> dict[str, Any]:
        """A keep-out that is a circle: its middle and radius are kept, not chords."""
        told = item.pop("circle")
        if self._circle(told, at) is None:
            return {}
        figures = self._read(_Circle, told, at)
        stand_in = {"at": {"x": "0 m", "y": "0 m"}, "radius": "1 m"}
        middle = {"x_nm": figures.get("east_nm", 0), "y_nm": figures.get("north_nm", 0)}
        fields = self._read(PlannedKeepOut, {**item, **stand_in}, place)
        return {**fields, "at": middle, "radius_nm": figures["radius_nm"]}

    def _rectangle(self, told: Any, place: str) -> Any:
        """Corners of a rectangle."""
        try:
            return rectangle_lines(told, {}, self.figures)["outline"]
        except UnreadableError as fault:
            self._tell(place, told, str(fault.context["why"]), str(fault.context["forms"]))
        except RectangleError as fault:
            self._tell(place, told, str(fault), fault.forms)
        return None

    def _circle(self, told: Any, place: str) -> Any:
        """Corners of a circle."""
        from models.science.shapes.offsets import circle
        from models.science.shapes.rings import PointNm

        known = ("radius", "east", "north")
        if not isinstance(told, dict) or "radius" not in told or set(told) - set(known):
            is_point = isinstance(told, dict) and "radius" not in told
            why = "is no circle: it has no radius" if is_point else "is no circle"
            self._tell(place, told, why, _CIRCLE_FORMS)
            return None
        figures = self._read(_Circle, told, place)
        if len(figures) != len(told):
            return None
        at = PointNm(figures.get("east_nm", 0), figures.get("north_nm", 0))
        error_nm = min(100_000, figures["radius_nm"] // 100)
        try:
            ring = circle(figures["radius_nm"], at, max(error_nm, 1)).ring
        except CrewError as fault:
            self._tell(place, told, str(fault), _CIRCLE_FORMS)
            return None
        return tuple({"x_nm": point.x_nm, "y_nm": point.y_nm} for point in ring)

    def _read(self, model: type[BaseModel], item: dict[str, Any], place: str) -> dict[str, Any]:
        """Fields of an inner object, its faults told where it stands."""
        reading = PlanFields(self.figures, f"{self.place}, {place}")
        fields = reading.read(model, item)
        self.problems += reading.problems
        return fields

    def _tell(self, place: str, value: Any, why: str, forms: str) -> None:
        where = f"{self.place}, {place}" if place else self.place
        self.problems.append(Problem(0, where, str(value)[:60], why, forms))


class _Circle(BaseModel):
    """A circle as it is read."""

    radius_nm: int
    east_nm: int = 0
    north_nm: int = 0


@dataclass(frozen=True, slots=True)
class PlanParts:
    """Parts that lines are laid with: those of the plan file, or else those of the book."""

    plan: Plan
    book: JobState

    def find(self, kind: EntryKind[B], name: str) -> B | None:
        """Return the part of a kind under a name, or None.

        Raises
        ------
        EntryRefusedError
            If the plan has it with a field that does not fit.
        """
        for own, fields in reversed(self.plan):
            if own == kind.name and str(fields.get(kind.under)) == name:
                return build_kind(kind, fields)
        return self.book.latest(kind, name)


def lay_planned_surfaces(
    plan: Plan, asked: list[tuple[str, str, dict[str, Any]]], book: JobState
) -> tuple[Plan, list[Problem]]:
    """Lay the lines of surfaces that ask for them: (place, surface, layout) of each.

    Lines that are given no bearing get one (``models.queries.layout.line_bearings``).

    Machines and collectors come from the plan, or else from the book.

    Raises
    ------
    PlanningAbsentError
        If the geometry library is not installed.
    """
    from models.queries.layout.lay_lines import lay_surface
    from models.queries.layout.line_bearings import fill_bearings

    parts = PlanParts(plan, book)
    problems: list[Problem] = []
    laid: dict[str, LaidSurface] = {}
    for place, name, layout in asked:
        try:
            surface = parts.find(SURFACE, name)
            assert surface is not None  # a layout is read with its surface
            filled, _ = fill_bearings(surface, layout["terms"])
            terms = [_with_legs(one, parts) for one in filled]
            body = build_kind(LAYOUT, {**layout, "surface_id": name, "terms": terms})
            collector = parts.find(COLLECTOR, surface.collector_id)
            laid[name] = lay_surface(surface, body, collector)
        except PlanningAbsentError:
            raise
        except CrewError as fault:
            why = f"can't be laid: {str(fault).removesuffix('.')}"
            forms = "a layout with that put right"
            problems.append(Problem(0, f"{place}, layout", "", why, forms))
    return _put_in(plan, laid), problems


def faulty_rings(place: str, layout: dict[str, Any]) -> Iterator[Problem]:
    """Keep-outs of a layout whose edge bounds no ground, every one of them.

    Raises
    ------
    PlanningAbsentError
        If the geometry library is not installed.
    """
    from models.science.shapes.outline import LEAST_KEEP_OUT_NM2, Trace, require_outline

    for number, fields in enumerate(layout["keep_outs"], start=1):
        keep_out = PlannedKeepOut.model_validate(fields)
        for ring in (*([keep_out.ring] if keep_out.ring else []), *keep_out.islands):
            try:
                require_outline(Trace(ring_of(ring)), LEAST_KEEP_OUT_NM2)
            except OutlineError as fault:
                where = f"{place}, layout, keep_outs ({keep_out.name or number})"
                yield from _outline_problems(where, fault)


def _outline_problems(where: str, fault: OutlineError) -> Iterator[Problem]:
    """Each fault of an outline, by its own sentence."""
    faults: Any = fault.context["faults"]
    for one in faults:
        forms = "an edge in order that crosses itself nowhere, not closed"
        yield Problem(0, where, "", one.sentence.removesuffix("."), forms)


def _put_in(plan: Plan, laid: dict[str, LaidSurface]) -> Plan:
    """The plan with its surfaces as laid, each with its layout."""
    found: Plan = []
    for kind, fields in plan:
        one = laid.get(str(fields.get("surface_id"))) if kind == "surface" else None
        found.append((kind, body_fields(one.surface) if one is not None else fields))
    return found + [("layout", body_fields(one.layout)) for one in laid.values()]


def _with_legs(terms: dict[str, Any], parts: PlanParts) -> dict[str, Any]:
    """Terms with the legs of the machine they name, unless they say their own.

    Raises
    ------
    UnknownPlanMachineError
        If neither the plan nor the book has that machine.
    """
    name = terms.get("machine_id")
    if not name or "legs" in terms:
        return terms
    machine = parts.find(MACHINE, name)
    if machine is None:
        raise UnknownPlanMachineError(machine=name)
    return {"legs": max(machine.legs, 1), "leg_spacing_nm": machine.leg_spacing_nm, **terms}


class UnknownPlanMachineError(CrewError, LookupError):
    """A layout names a machine that neither its plan nor the book has."""

    code = "paper.unknown_machine"
    sentence = "There is no machine {machine} in the plan or the book."
