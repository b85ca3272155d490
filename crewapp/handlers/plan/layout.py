"""Layout of a surface: preview first, then written, never under work that was done."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from typing import Any, Unpack

from crewapp.commands.plan.layout import LayOut, LayoutRequest
from crewapp.handlers.known_places import need_collector
from crewapp.handlers.plan.plan_entries import UnknownMachineError, set_up_all
from crewapp.job.dispatch import handles
from crewapp.job.open_job import JobChanges, OpenJob
from models.entries.bodies.planning import LocalPlane, SurfaceLayout
from models.entries.bodies.surfaces import Collector, Surface
from models.entries.body import Body
from models.entries.envelope import body_fields, build_body
from models.entries.kind_names import COLLECTOR, LAYOUT, MACHINE, SURFACE
from models.errors import CrewError
from models.plan.layout import LayoutTerms
from models.plan.line import LineUse
from models.queries.layout.lay_lines import LaidSurface, compare_surface, lay_surface
from models.queries.layout.line_bearings import SettledBearing, fill_bearings
from models.queries.layout.worked_lines import moved_lines
from models.science.layout.bearings import BearingRow


class UnknownSurfaceError(CrewError, LookupError):
    """The plan has no surface of that name."""

    code = "laying.unknown_surface"
    sentence = (
        "Nothing was written: the plan has no surface {surface}. {known} A new one needs its "
        "name, its use (green, field or fairway) and its outline."
    )


class NoTermsError(CrewError, LookupError):
    """Bearings were to be compared for lines of which no spacing is known."""

    code = "laying.no_terms"
    sentence = (
        "Cannot compare bearings of {lines} on {surface}: no spacing was asked for them yet. "
        "Give one, such as 16 in."
    )


class LinesWorkedError(CrewError, ValueError):
    """A new layout would change what lines mean that work was written for."""

    code = "laying.lines_worked"
    sentence = (
        "Nothing was written: {surface} has work on {lines}, and laid anew {verb} elsewhere or "
        "nowhere, so what was written would mean another place. Terms that leave worked lines "
        "where they are would be accepted: the same outline, setback, spacing, bearing and first "
        "line; or strike the work first, if it was written by mistake."
    )


def preview(job: OpenJob, surface_id: str, **asked: Unpack[LayoutRequest]) -> LaidSurface:
    """Lay lines as ``lay_out`` would, and write nothing.

    Raises
    ------
    UnknownSurfaceError
        If a surface is new and its name, use or outline is missing.
    UnknownPlaceError
        If it is to drain to a collector that the job does not have.
    EntryRefusedError, OutlineError, CalculationInputError, InterleaveError
        If what is asked can't be laid.
    """
    told: dict[str, Any] = {**asked}
    if told.get("collector_id"):  # one misspelt would leave every piped slit without a joint
        need_collector(job, told["collector_id"])
    surface = _surface(job, surface_id, told)
    layout, settled = _layout(job, surface, told)
    collector: Collector | None = job.state.latest(COLLECTOR, surface.collector_id)
    return replace(lay_surface(surface, layout, collector), settled=settled)


def compare_bearings_of_use(
    job: OpenJob,
    surface_id: str,
    line_use: LineUse,
    bearings_udeg: Sequence[int],
    **asked: Unpack[LayoutRequest],
) -> Iterator[BearingRow]:
    """Compare bearings for the lines of one use; yields rows as they are reckoned.

    Raises
    ------
    NoTermsError
        If neither the plan nor the caller gives these lines a spacing.
    UnknownSurfaceError, EntryRefusedError, OutlineError, CalculationInputError, InterleaveError
        As ``preview`` does.
    """
    told: dict[str, Any] = {**asked}
    surface = _surface(job, surface_id, told)
    layout, _ = _layout(job, surface, told)
    terms = next((one for one in layout.terms if one.use == line_use), None)
    pattern = surface.pattern_of(line_use)
    if terms is None and pattern is not None:
        terms = LayoutTerms(use=line_use, spacing_nm=pattern.spacing_nm)
    if terms is not None:
        return compare_surface(surface, layout, terms, bearings_udeg)
    raise NoTermsError(lines=f"{line_use.replace('_', ' ')}s", surface=surface_id)


def worked_lines_at_risk(job: OpenJob, laid: LaidSurface) -> tuple[str, ...]:
    """Lines with work on them that a layout would move or lose; empty where it may be written."""
    old: Surface | None = job.state.latest(SURFACE, laid.surface.surface_id)
    return moved_lines(job.state, old, laid.surface) if old is not None else ()


def lay_out(job: OpenJob, surface_id: str, **asked: Unpack[LayoutRequest]) -> JobChanges:
    """Lay lines over a surface and write it with its layout, all or nothing.

    Raises
    ------
    LinesWorkedError
        If lines that carry work would mean another place; nothing is written.
    UnknownSurfaceError, EntryRefusedError, OutlineError, CalculationInputError, InterleaveError
        As ``preview`` does.
    """
    return accept(job, preview(job, surface_id, **asked), asked.get("plane"))


@handles(LayOut)
def lay_out_surface(job: OpenJob, command: LayOut) -> JobChanges:
    """Lay lines over a surface as the command asks; what it leaves out stays as it stands."""
    return lay_out(job, command.surface_id, **command.request)


def accept(job: OpenJob, laid: LaidSurface, plane: LocalPlane | None = None) -> JobChanges:
    """Write lines as ``preview`` laid them, with the plane they were drawn in.

    Raises
    ------
    LinesWorkedError
        If lines that carry work would mean another place; nothing is written.
    """
    moved = worked_lines_at_risk(job, laid)
    if moved:
        raise LinesWorkedError(
            surface=laid.surface.surface_id,
            lines=_named(moved),
            verb="it lies" if len(moved) == 1 else "they lie",
        )
    bodies: list[Body] = (
        [laid.surface, laid.layout] if plane is None else [plane, laid.surface, laid.layout]
    )
    return set_up_all(job, [(body.kind, body_fields(body)) for body in bodies])


def _with_machine(job: OpenJob, terms: Any) -> Any:
    """Terms that name a machine and not its legs, with the legs the plan gives it."""
    if not isinstance(terms, Mapping) or not terms.get("machine_id") or "legs" in terms:
        return terms
    machine = job.state.latest(MACHINE, terms["machine_id"])
    if machine is None:
        known = ", ".join(job.state.every_name(MACHINE)) or "none"
        raise UnknownMachineError(machine=terms["machine_id"], known=known)
    legs = {"legs": max(machine.legs, 1), "leg_spacing_nm": machine.leg_spacing_nm}
    return {**legs, **terms}


def _named(lines: Sequence[str]) -> str:
    """The first few names, and how many more there are."""
    shown = ", ".join(lines[:6])
    return shown if len(lines) <= 6 else f"{shown} and {len(lines) - 6} more"


def _surface(job: OpenJob, surface_id: str, asked: dict[str, Any]) -> Surface:
    """The surface as it would stand, its lines still the old ones."""
    old: Surface | None = job.state.latest(SURFACE, surface_id)
    names = ("name", "use", "collector_id", "outline")
    given: dict[str, Any] = {name: asked[name] for name in names if name in asked}
    for use, pattern in asked.get("patterns", {}).items():
        given[f"{use}s"] = pattern
    if old is None and not {"name", "use", "outline"} <= given.keys():
        known = job.state.every_name(SURFACE)
        listed = f"Its surfaces are {', '.join(known)}." if known else "It has none yet."
        raise UnknownSurfaceError(surface=surface_id, known=listed)
    fields: dict[str, Any] = body_fields(old) if old is not None else {"surface_id": surface_id}
    if asked.get("without"):
        fields["lines"] = [
            one for one in fields.get("lines", ()) if one["use"] not in asked["without"]
        ]
    surface = build_body("surface", {**fields, **given})
    assert isinstance(surface, Surface)
    return surface


def _layout(
    job: OpenJob, surface: Surface, asked: dict[str, Any]
) -> tuple[SurfaceLayout, tuple[SettledBearing, ...]]:
    """What is asked for, with what stands where nothing is said; and bearings nobody gave."""
    old: SurfaceLayout | None = job.state.latest(LAYOUT, surface.surface_id)
    names = ("keep_outs", "setback_nm", "reach_nm", "source")
    kept: dict[str, object] = {}
    if old is not None:
        kept = {
            "keep_outs": old.keep_outs,
            "setback_nm": old.setback_nm,
            "reach_nm": old.reach_nm,
            "source": old.source,
        }
    given = {name: asked[name] for name in names if name in asked}
    terms: dict[str, LayoutTerms] = {one.use: one for one in old.terms} if old is not None else {}
    for use in asked.get("without", ()):
        terms.pop(use, None)
    new, settled = fill_bearings(surface, asked.get("terms", ()), tuple(terms.values()))
    legged = tuple(_with_machine(job, one) for one in new)
    fields = {"surface_id": surface.surface_id, **kept, **given, "terms": legged}
    layout = build_body("layout", fields)
    assert isinstance(layout, SurfaceLayout)
    terms |= {one.use: one for one in layout.terms}
    return layout.model_copy(update={"terms": tuple(terms.values())}), settled
