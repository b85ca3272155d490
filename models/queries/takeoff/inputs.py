"""Inputs of a take-off, gathered from a job: the plan, its terms, materials and prices."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction

from models.entries.bodies.job import Material
from models.entries.bodies.planning import SurfaceLayout, TakeoffTerms, UnitPrice
from models.entries.bodies.surfaces import Collector, Surface
from models.entries.index import B, EntryKind
from models.entries.kind_names import (
    COLLECTOR,
    LAYOUT,
    MATERIAL,
    SURFACE,
    TAKEOFF_TERMS,
    UNIT_PRICE,
)
from models.queries.materials.material_properties import UG_PER_PL, bulking_of, density_of
from models.state.job_state import JobState
from models.units.job_units import Figures, figures_of


@dataclass(frozen=True, slots=True)
class BulkFacts:
    """A bulk material as the take-off sees it; None and empty where nothing is known.

    ``density`` is in ug/pl, ``hopper_pl`` in picolitres.
    """

    material_id: str = ""
    density: Fraction | None = None
    density_from: str = ""
    hopper_pl: int | None = None
    bulking: Fraction = Fraction(0)
    bulking_from: str = ""


@dataclass(frozen=True, slots=True)
class TakeoffInputs:
    """Inputs of a take-off: all that its arithmetic needs."""

    surfaces: tuple[Surface, ...] = ()
    layouts: Mapping[str, SurfaceLayout] = field(default_factory=dict)
    collectors: tuple[Collector, ...] = ()
    terms: TakeoffTerms = field(default_factory=TakeoffTerms)
    has_terms: bool = False
    sand: BulkFacts = field(default_factory=BulkFacts)
    gravel: BulkFacts = field(default_factory=BulkFacts)
    prices: tuple[UnitPrice, ...] = ()
    figures: Figures = field(default_factory=Figures)
    unsettled: tuple[str, ...] = ()


def inputs_of(state: JobState) -> TakeoffInputs:
    """Gather the inputs of a job's take-off as the job stands."""
    terms = state.latest(TAKEOFF_TERMS)
    has_terms = isinstance(terms, TakeoffTerms)
    own_terms = terms if isinstance(terms, TakeoffTerms) else TakeoffTerms()
    sand_id, sand_unsettled = _only_one(state, "sand")
    gravel_id, gravel_unsettled = _only_one(state, "gravel")
    job = state.job
    return TakeoffInputs(
        surfaces=tuple(_each(state, SURFACE)),
        layouts={one.surface_id: one for one in _each(state, LAYOUT)},
        collectors=tuple(_each(state, COLLECTOR)),
        terms=own_terms,
        has_terms=has_terms,
        sand=_sand(state, sand_id, own_terms),
        gravel=_gravel(state, gravel_id, own_terms),
        prices=tuple(_each(state, UNIT_PRICE)),
        figures=figures_of(job.unit_system, job.station_style) if job else Figures(),
        unsettled=(*sand_unsettled, *gravel_unsettled),
    )


def _each(state: JobState, kind: EntryKind[B]) -> list[B]:
    """The newest body under every name of a kind."""
    newest = (state.latest(kind, name) for name in state.every_name(kind))
    return [body for body in newest if body is not None]


def _only_one(state: JobState, use: str) -> tuple[str, tuple[str, ...]]:
    """The one material of a use that may be used, and a sentence where there are several."""
    fit = [one for one in _each(state, MATERIAL) if one.use == use and one.suitable]
    if len(fit) == 1:
        return fit[0].material_id, ()
    if not fit:
        return "", ()
    named = ", ".join(one.material_id for one in fit)
    return "", (
        f"The plan names {len(fit)} kinds of {use} ({named}), and nothing says which is meant: "
        f"no bulk density is taken.",
    )


def _sand(state: JobState, material_id: str, terms: TakeoffTerms) -> BulkFacts:
    """The job's sand; a jar flooded on the site wins over the bulking typed in."""
    density, jar = density_of(state, material_id), bulking_of(state, material_id)
    material = state.latest(MATERIAL, material_id)
    typed = Fraction(terms.sand_bulking_permille, 1000)
    return BulkFacts(
        material_id,
        density.ug_per_pl if density else None,
        density.origin if density else "",
        (material.hopper_pl or None) if isinstance(material, Material) else None,
        jar.share if jar else typed,
        jar.origin if jar else ("as planned" if typed else ""),
    )


def _gravel(state: JobState, material_id: str, terms: TakeoffTerms) -> BulkFacts:
    """The job's gravel: a box weighed wins over the terms, those over the material."""
    density = density_of(state, material_id)
    if terms.gravel_density_g_per_m3 is not None and not (density and density.is_measured):
        typed = terms.gravel_density_g_per_m3 * UG_PER_PL
        return BulkFacts(material_id, typed, "as planned")
    if density is None:
        return BulkFacts(material_id)
    return BulkFacts(material_id, density.ug_per_pl, density.origin)
