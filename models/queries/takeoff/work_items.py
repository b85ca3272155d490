"""Planned lines and collectors as the work that a take-off counts, and what is missing in them."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from models.counted import CountedNoun
from models.entries.bodies.planning import SurfaceLayout
from models.entries.bodies.surfaces import Collector, Surface
from models.plan.line import LineUse
from models.plan.pattern import SlitPattern
from models.queries.levelling.elevations import design_line, ground_at
from models.queries.takeoff.inputs import TakeoffInputs
from models.science.levelling.laser_plane import elevation_at_nm
from models.science.takeoff.collector import CollectorWork, TrenchSection
from models.science.takeoff.slits import SlitWork

USE_WORDS: dict[LineUse, str] = {"sand_slit": "sand slits", "piped_slit": "piped slits"}


@dataclass(frozen=True, slots=True)
class Slits:
    """The slits of one use on one surface."""

    use: LineUse
    work: SlitWork


@dataclass(slots=True)
class TakeoffRemarks:
    """Sentences collected on the way: missing inputs, and the basis of figures."""

    missing: list[str]
    basis: list[str]


def permille(thousandths: int) -> Fraction:
    """Fraction of a share held in whole thousandths."""
    return Fraction(thousandths, 1000)


def slits_of(inputs: TakeoffInputs, surface: Surface, told: TakeoffRemarks) -> list[Slits]:
    """Slits of a surface for a take-off, sand slits and piped slits."""
    found: list[Slits] = []
    if not surface.lines:
        told.missing.append(f"{surface.surface_id} has no lines laid yet: nothing is taken off it.")
    for use, names in surface.courses.items():
        if not names:
            continue
        pattern = surface.pattern_of(use)
        if pattern is None or not pattern.width_nm or not pattern.depth_nm:
            told.missing.append(
                f"The {USE_WORDS[use]} of {surface.surface_id} have no width and depth: "
                "they are left out."
            )
            continue
        found.append(Slits(use, _slit_work(inputs, surface, use, pattern, told)))
    return found


def _slit_work(
    inputs: TakeoffInputs,
    surface: Surface,
    use: LineUse,
    pattern: SlitPattern,
    told: TakeoffRemarks,
) -> SlitWork:
    lines = [line for line in surface.lines if line.use == use]
    is_piped = use == "piped_slit"
    layout = _joined(inputs.layouts.get(surface.surface_id))
    if is_piped and not pattern.pipe_outside_nm:
        told.missing.append(
            f"The pipe of {surface.surface_id} has no outside diameter: the sand of its piped "
            "slits counts as if no pipe lay in them."
        )
    if is_piped:
        told.basis.append(_joint_words(surface, layout, len(lines)))
    terms = inputs.terms
    return SlitWork(
        runs_nm=tuple(line.length_nm for line in lines),
        width_nm=pattern.width_nm,
        depth_nm=pattern.depth_nm,
        pipe_outside_nm=pattern.pipe_outside_nm if is_piped else 0,
        strip_nm=terms.turf_strip_nm if surface.use == "green" else 0,
        overbreak=permille(terms.overbreak_permille),
        swell=permille(terms.swell_permille),
        caps=_caps(surface, layout) if is_piped else 0,
        tees=_tees(surface, layout) if is_piped else 0,
        gaps_nm=_gaps(surface, layout) if is_piped else (),
        has_pipe=is_piped,
    )


def _joined(layout: SurfaceLayout | None) -> SurfaceLayout | None:
    """A layout that looked for joints at a collector, or None."""
    return layout if layout is not None and (layout.ends or layout.unjoined) else None


def _tees(surface: Surface, layout: SurfaceLayout | None) -> int:
    """Joints at the collector: as laid out, else one for each piped slit that has a collector."""
    if layout is not None:
        return len(layout.ends)
    return len(surface.courses["piped_slit"]) if surface.collector_id else 0


def _caps(surface: Surface, layout: SurfaceLayout | None) -> int:
    """Open ends: one a slit, two where it runs through the collector or never meets it."""
    names = surface.courses["piped_slit"]
    if layout is None:
        return len(names) if surface.collector_id else 2 * len(names)
    through = {end.line_id for end in layout.ends if end.goes_through}
    joined = {end.line_id for end in layout.ends}
    return sum(2 if name in through or name not in joined else 1 for name in names)


def _gaps(surface: Surface, layout: SurfaceLayout | None) -> tuple[int, ...]:
    """Pipe that leads on from each slit to the collector, empty where none does."""
    if layout is None:
        return ()
    gaps = layout.gaps_nm
    found = tuple(gaps.get(name, 0) for name in surface.courses["piped_slit"])
    return found if any(found) else ()


def _joint_words(surface: Surface, layout: SurfaceLayout | None, count: int) -> str:
    own, slits = surface.surface_id, f"{CountedNoun(count):piped slit|piped slits}"
    if layout is not None:
        joints = len(layout.ends)
        return f"{own}: {CountedNoun(joints):joint|joints} at the collector, as laid out."
    if surface.collector_id:
        return f"{own}: one tee and one cap for each of {slits}; no layout is kept."
    return f"{own}: no collector, so no tees, and a cap at both ends of {slits}."


def collector_work(
    inputs: TakeoffInputs, collector: Collector, told: TakeoffRemarks
) -> CollectorWork:
    """A collector as it is to be built; sections without ground where nobody levelled it."""
    design, terms = collector.design, inputs.terms
    line = design_line(collector)
    sections = tuple(
        TrenchSection(nm, ground_at(collector, nm), elevation_at_nm(line, nm))
        for nm in _stations(collector)
    )
    bare = [section.station_nm for section in sections if section.ground_nm is None]
    if bare:
        places = " and ".join(inputs.figures.station(station_nm) for station_nm in bare)
        told.missing.append(
            f"{collector.collector_id} has no finished ground at {places}: "
            "its trench, spoil and sand are left out."
        )
    return CollectorWork(
        sections=sections,
        width_nm=design.trench_width_nm,
        bore_nm=design.bore_nm,
        outside_nm=design.outside_nm,
        bedding_nm=design.bedding_nm,
        surround_over_nm=terms.surround_over_nm,
        fabric_lap_nm=terms.fabric_lap_nm,
        sod_nm=terms.sod_nm,
        wire_slack=permille(terms.wire_slack_permille),
        wire_tails_nm=terms.wire_tails_nm,
        overbreak=permille(terms.overbreak_permille),
        swell=permille(terms.swell_permille),
    )


def _stations(collector: Collector) -> list[int]:
    """Both ends of a collector and every level of its ground between them."""
    design = collector.design
    end_nm = design.start_nm + design.length_nm
    between = {level.station_nm for level in design.ground}
    inside = {station_nm for station_nm in between if design.start_nm < station_nm < end_nm}
    return sorted({design.start_nm, end_nm} | inside)
