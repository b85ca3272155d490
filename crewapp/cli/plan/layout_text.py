"""Text and facts of a layout: lines for people, plain facts for machines."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from typing import TYPE_CHECKING, Any

from crewapp.job.open_job import OpenJob
from models.audit.plan_audit import audit, fault_text, faults_of_level, template_of
from models.audit.plan_view import PlanView
from models.audit.rule import Level, Part, PlanFault
from models.counted import CountedNoun
from models.entries.bodies.planning import SurfaceLayout
from models.entries.bodies.surfaces import Surface
from models.plan.line import LineUse
from models.science.shapes.rings import PointNm, signed_area_nm2
from models.units import round_half_even, show_bearing
from models.units.job_units import Figures

if TYPE_CHECKING:  # laying needs the geometry library, showing does not
    from models.queries.layout.lay_lines import LaidSurface

WORDS: dict[LineUse, str] = {"sand_slit": "sand slits", "piped_slit": "piped slits"}


def layout_lines(surface: Surface, layout: SurfaceLayout | None, figures: Figures) -> Iterator[str]:
    """A surface's lines in a few lines of text."""
    yield f"{surface.surface_id} {surface.name} ({surface.use}){_area(surface, figures)}"
    for use, words in WORDS.items():
        facts = use_facts(surface, layout, use)
        if facts["pieces"]:
            yield f"  {words}: {_line(facts, figures)}"
    if layout is None:
        return
    count, crossings = CountedNoun(len(layout.keep_outs)), CountedNoun(layout.crossings)
    keep_outs = f", {count:keep-out|keep-outs}" if count else ""
    crossed = f"{crossings:crossing|crossings}"
    yield f"  setback {figures.length(layout.setback_nm)}{keep_outs}, {crossed}"
    if layout.ends:
        yield f"  joints at {surface.collector_id}: {len(layout.ends)}"
    if layout.unjoined:
        yield f"  not joined to {surface.collector_id}: {', '.join(layout.unjoined)}"


def _area(surface: Surface, figures: Figures) -> str:
    """What the outline bounds, if it has one."""
    if len(surface.outline) < 3:
        return ""
    area_nm2 = abs(signed_area_nm2([PointNm(one.x_nm, one.y_nm) for one in surface.outline]))
    side_nm, unit = (304_800_000, "ft2") if figures.is_us else (10**9, "m2")
    return f", {round_half_even(area_nm2, side_nm**2):,} {unit}"


def use_facts(surface: Surface, layout: SurfaceLayout | None, use: LineUse) -> dict[str, Any]:
    """Counts and lengths of the lines of one use."""
    lines = [line for line in surface.lines if line.use == use]
    terms = [one for one in layout.terms if one.use == use] if layout else []
    drives = [one for one in layout.drives if one.use == use] if layout else []
    stubs = [one for one in layout.stubs if one.use == use] if layout else []
    pattern = surface.pattern_of(use)
    spacing_nm = terms[0].spacing_nm if terms else (pattern.spacing_nm if pattern else None)
    return {
        "use": use,
        "spacing_nm": spacing_nm,
        "bearing_udeg": terms[0].bearing_udeg if terms else None,
        "pieces": len(lines),
        "length_nm": sum(line.length_nm for line in lines),
        "drives": len(drives),
        "driven_nm": sum(one.driven_nm for one in drives),
        "turns_nm": sum(one.turn_nm for one in drives),
        "stubs": len(stubs),
        "stubs_nm": sum(one.length_nm for one in stubs),
        "has_pattern": pattern is not None,
    }


def _line(facts: dict[str, Any], figures: Figures) -> str:
    parts = [f"{facts['pieces']} of {figures.distance(facts['length_nm'])} in all"]
    if facts["spacing_nm"]:
        parts.append(f"{figures.depth(facts['spacing_nm'])} apart")
    if facts["bearing_udeg"] is not None:
        parts.append(f"bearing {show_bearing(facts['bearing_udeg'])}")
    if facts["drives"]:
        turning = figures.distance(facts["turns_nm"])
        parts.append(f"{CountedNoun(facts['drives']):drive|drives} with {turning} of turning")
    if facts["stubs"]:
        parts.append(
            f"{CountedNoun(facts['stubs']):stub|stubs} left out "
            f"({figures.length(facts['stubs_nm'])})"
        )
    if not facts["has_pattern"]:
        parts.append("no width, depth or limits yet")
    return ", ".join(parts)


def audit_lines(
    job: OpenJob, parts: Collection[Part], laid: LaidSurface | None = None
) -> Iterator[str]:
    """Return lines of text with the audit's findings on parts of the plan."""
    for fault in faults_of_level(_open_faults(job, parts, laid), Level.ASK, Level.NOTE):
        lead = "asks" if template_of(fault).level is Level.ASK else "note"
        yield f"  {lead}: {fault_text(fault, job.figures)}"


def audit_facts(
    job: OpenJob, parts: Collection[Part], laid: LaidSurface | None = None
) -> dict[str, list[dict[str, str]]]:
    """Return the audit's findings as plain facts for machines."""
    return {
        "audit": [
            {
                "rule": fault.rule,
                "level": template_of(fault).level.value,
                "part": " ".join(fault.part),
                "said": fault_text(fault, job.figures),
            }
            for fault in _open_faults(job, parts, laid)
        ]
    }


def _open_faults(
    job: OpenJob, parts: Collection[Part], laid: LaidSurface | None
) -> list[PlanFault]:
    bodies = (laid.surface, laid.layout) if laid is not None else ()
    view = PlanView.of_state(job.state).with_bodies(bodies)
    return list(audit(view, parts))
