"""Names that rows may refer to: what the book knows, and what earlier rows add."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass, field
from difflib import get_close_matches
from typing import Any

from crewapp.imports.notes.cells import DAY_MIN
from crewapp.imports.notes.known_lengths import KnownLengths
from models.entries.kind_names import BY_NAME, PASS, SURFACE
from models.queries.levelling.setup_chain import is_graded
from models.state.indexes import SETUPS, TURNING_NAMED
from models.state.job_state import JobState
from models.units import show_duration
from models.units.job_units import Figures

_DEFINED_BY = {
    "surface": ("surface", "surface_id"),
    "collector": ("collector", "collector_id"),
    "outlet": ("outlet", "outlet_id"),
    "material": ("material", "material_id"),
    "machine": ("machine", "machine_id"),
    "pass": ("pass", "pass_id"),
    "setup": ("setup", "setup_id"),
    "instrument": ("instrument", "instrument_id"),
    "benchmark": ("point", "benchmark_id"),
    "turning_point": ("point", "point_id"),
    "permanent_point": ("permanent point", "point_id"),
}
"""Kind of entry to the sort of name it makes known, and the field that holds it."""

_REFERS = {
    "pass": (("surface_id", "surface", "surface"),),
    "probe": (("pass_id", "pass", "pass"),),
    "turf_strip": (("surface_id", "surface", "surface"), ("pass_id", "pass", "pass")),
    "sand_placed": (
        ("surface_id", "surface", "surface"),
        ("pass_id", "pass", "pass"),
        ("material_id", "material", "material"),
    ),
    "watered_in": (("surface_id", "surface", "surface"), ("pass_id", "pass", "pass")),
    "pipe_laid": (
        ("surface_id", "surface", "surface"),
        ("collector_id", "collector", "collector"),
        ("material_id", "material", "material"),
    ),
    "delivery": (("material_id", "material", "material"),),
    "setup": (
        ("on_point", "point", "point"),
        ("collector_id", "collector", "collector"),
        ("instrument_id", "instrument", "instrument"),
    ),
    "blade_set": (("machine_id", "machine", "machine"),),
    "instrument_event": (("instrument_id", "instrument", "instrument"),),
    "peg_test": (("instrument_id", "instrument", "instrument"),),
    "turning_point": (("setup_id", "setup", "setup"),),
    "check_shot": (("setup_id", "setup", "setup"), ("on_point", "point", "point")),
    "grade_shot": (("setup_id", "setup", "setup"), ("collector_id", "collector", "collector")),
    "layer_check": (("collector_id", "collector", "collector"),),
    "outlet_seen": (("outlet_id", "outlet", "collector"),),
    "hold_point": (("collector_id", "collector", "collector"),),
    "trench_protection": (("collector_id", "collector", "collector"),),
    "surface_seen": (("surface_id", "surface", "surface"),),
    "infiltration_test": (("surface_id", "surface", "surface"),),
    "sand_top_up": (
        ("surface_id", "surface", "surface"),
        ("material_id", "material", "material"),
    ),
    "repair": (
        ("surface_id", "surface", "surface"),
        ("collector_id", "collector", "collector"),
    ),
    "tie": (
        ("surface_id", "surface", "surface"),
        ("collector_id", "collector", "collector"),
        ("point_id", "permanent point", "point"),
    ),
    "box_weighing": (("material_id", "material", "material"),),
    "bulking_test": (("material_id", "material", "material"),),
}
"""Kind of row to the fields that name something: field, sort of name, column."""


_NEW_EACH_TIME = frozenset({"pass", "setup", "benchmark", "turning_point", "permanent_point"})
"""Kinds whose name other readings hang from: a second one would move them."""


@dataclass(slots=True)
class KnownNames:
    """Names by sort, lines by surface, the lines of each pass, the graded setups.

    ``taken`` also holds names whose bearer is struck: readings still have them.
    """

    names: dict[str, set[str]] = field(default_factory=lambda: defaultdict(set))
    lines: dict[str, set[str]] = field(default_factory=dict)
    cut_by: dict[str, tuple[str, ...]] = field(default_factory=dict)
    taken: dict[str, set[str]] = field(default_factory=lambda: defaultdict(set))
    graded: dict[str, str] = field(default_factory=dict)
    lengths: KnownLengths = field(default_factory=KnownLengths)

    @classmethod
    def from_state(cls, state: JobState) -> KnownNames:
        """Collect what a book knows already."""
        known = cls(lengths=KnownLengths.from_state(state))
        for kind, (sort, _) in _DEFINED_BY.items():
            index = TURNING_NAMED if kind == "turning_point" else BY_NAME[kind]
            known.names[sort].update(state.every_name(index))
            known.taken[sort].update(state.names[index.name])
        known.names["outlet"] |= known.names["collector"]  # one without a plan of its own
        for surface_id in state.every_name(SURFACE):
            surface = state.latest(SURFACE, surface_id)
            if surface is not None:
                known.lines[surface_id] = {line.line_id for line in surface.lines}
        for pass_id in state.every_name(PASS):
            cut = state.latest(PASS, pass_id)
            if cut is not None:
                known.cut_by[pass_id] = cut.line_ids
        for setup in state.bodies(SETUPS):
            if is_graded(setup):
                known.graded[setup.setup_id] = setup.collector_id
        return known

    def add_names(self, kind: str, fields: dict[str, Any]) -> None:
        """Take in the name that a row makes known.

        Of a row with a fault what could be read is taken: rows that name it are not told for it.
        """
        sort, name = _DEFINED_BY.get(kind, ("", ""))
        if fields.get(name):
            self.names[sort].add(fields[name])
            self.taken[sort].add(fields[name])
        if kind == "setup" and fields.get("plane") == "graded" and "setup_id" in fields:
            self.graded[fields["setup_id"]] = fields.get("collector_id", "")
        if kind == "pass" and {"pass_id", "line_ids"} <= fields.keys():
            self.cut_by[fields["pass_id"]] = fields["line_ids"]
            self.lengths.take_cut(fields)

    def with_laser(self, kind: str, fields: dict[str, Any]) -> dict[str, Any]:
        """Fields of a row with the laser of a setup named, where the job has but one."""
        lasers = self.names["instrument"]
        if kind == "setup" and not fields.get("instrument_id") and len(lasers) == 1:
            return {**fields, "instrument_id": next(iter(lasers))}
        return fields

    def missing_fault(
        self, kind: str, fields: dict[str, Any], figures: Figures
    ) -> Iterator[tuple[str, str, str, str]]:
        """Return the fault of a row whose cells can be read: column, name, why, what would do."""
        yield from self.unknown_names(kind, fields)
        if kind in _NEW_EACH_TIME:
            sort, name = _DEFINED_BY[kind]
            if fields[name] in self.taken[sort]:
                why = f"is a {sort} that is logged already"
                column = sort.rpartition(" ")[2]
                yield column, fields[name], why, "a new name, or correct the other in the app"
        yield from self._unfit_planes(kind, fields)
        yield from self._missing_lines(kind, fields)
        yield from _senseless(kind, fields)
        yield from _longer_than_day(fields)
        yield from self.lengths.places_beyond(kind, fields, figures)
        yield from _senseless_figures(kind, fields)

    def unknown_names(
        self, kind: str, fields: dict[str, Any]
    ) -> Iterator[tuple[str, str, str, str]]:
        """Return names of a row that are not there, whatever else is wrong with it."""
        for name, sort, column in _REFERS.get(kind, ()):
            value = fields.get(name)
            if value and value not in self.names[sort]:
                shown = (
                    ", ".join(sorted(self.names[sort])[:8]) or f"none yet; enter the {sort} first"
                )
                yield column, value, f"is no {sort} of this job", shown
        machine, machines = fields.get("machine_id"), self.names["machine"]
        if kind == "pass" and machine and machines and machine not in machines:
            shown = ", ".join(sorted(machines)[:8])
            yield "machine", machine, "is no machine of this job", f"{shown}, or an empty cell"

    def _unfit_planes(
        self, kind: str, fields: dict[str, Any]
    ) -> Iterator[tuple[str, str, str, str]]:
        """A graded plane has a height only along the collector it is dialled along."""
        if kind == "setup" and fields.get("plane") == "graded" and not fields.get("collector_id"):
            forms = "the collector that the plane is dialled along"
            yield "collector", "", "is empty, and a setup with a grade needs it", forms
        setup_id = fields.get("setup_id", "")
        along = self.graded.get(setup_id)
        if along is None:
            return
        if kind == "turning_point":
            why = "is dialled to a grade, so it has no one height"
            yield "setup", setup_id, why, "a setup with a level plane"
        if kind == "grade_shot" and fields["collector_id"] != along:
            why = f"is dialled to a grade along {along or 'no collector'}"
            yield "setup", setup_id, why, f"a level setup, or one along {fields['collector_id']}"

    def _missing_lines(
        self, kind: str, fields: dict[str, Any]
    ) -> Iterator[tuple[str, str, str, str]]:
        wanted = fields.get("line_ids") or ((fields["line_id"],) if fields.get("line_id") else ())
        if kind == "probe":
            there = set(self.cut_by.get(fields["pass_id"], ()))
        else:
            there = self.lines.get(fields.get("surface_id", ""), set())
        if not there:
            return
        for line_id in wanted:
            if line_id not in there:
                near = get_close_matches(line_id, there, n=4, cutoff=0.3)
                shown = ", ".join(list(dict.fromkeys([*near, *sorted(there)]))[:8])
                yield "lines", line_id, "is no line of that pass or surface", shown


def _senseless(kind: str, fields: dict[str, Any]) -> Iterator[tuple[str, str, str, str]]:
    """Cells that can each be read and do not go together."""
    if kind == "pipe_laid":
        in_slit = bool(fields.get("surface_id") and fields.get("line_id"))
        if in_slit == bool(fields.get("collector_id")):
            forms = "a surface with its line, or a collector"
            yield "collector", str(fields.get("collector_id", "")), "says not where it lies", forms
    if kind == "locate_ticket" and fields["expires_on"] < fields["valid_from"]:
        forms = f"a day from {fields['valid_from']} on"
        yield "expires on", fields["expires_on"], "comes before its first day", forms
    if kind == "repair" and not (fields.get("surface_id") or fields.get("collector_id")):
        yield "surface", "", "is empty, and so is the collector", "either of them"
    if kind == "tie" and not _leads_somewhere(fields):
        forms = "a surface with its line, a collector, or what else it is"
        yield "tied", fields["tied"], "says not what the tie leads to", forms


def _longer_than_day(fields: dict[str, Any]) -> Iterator[tuple[str, str, str, str]]:
    """Hours that come to more than a day has, each of them short enough."""
    minutes = sum(fields.get(name, 0) for name in ("run_min", "idle_min", "down_min"))
    if minutes > DAY_MIN:
        why = f"comes to {show_duration(minutes)} with what stood idle or down"
        yield "run", show_duration(fields["run_min"]), why, "at most 24 h, all taken together"


def _senseless_figures(kind: str, fields: dict[str, Any]) -> Iterator[tuple[str, str, str, str]]:
    """Two figures of a row that can't both be."""
    if kind == "peg_test" and fields["to_a_nm"] == fields["to_b_nm"]:
        why = "is as far as peg A, so the error hides itself"
        yield "to b", fields["to_b_typed"], why, "a second setup close to one of the pegs"
    if kind == "rain" and fields.get("began_ms", 0) > fields["stopped_ms"]:
        yield "began", "", "comes after the rain stopped", "an earlier time, or its day before it"
    if kind == "bulking_test" and fields["flooded_nm"] > fields["moist_nm"]:
        forms = f"at most the {fields['moist_typed']} of the moist sand"
        yield "flooded", fields["flooded_typed"], "stands higher than the moist sand", forms


def _leads_somewhere(fields: dict[str, Any]) -> bool:
    """Whether a tie names the end that it says it leads to."""
    sort = fields["tied"].partition("_")[0]
    if sort == "line":
        return bool(fields.get("surface_id") and fields.get("line_id"))
    return bool(fields.get("collector_id" if sort == "collector" else "what"))
