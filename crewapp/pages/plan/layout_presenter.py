"""Reads how the lines of a surface lie, or would lie: terms, preview, drives, bearings."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from crewapp.handlers.plan.bearing_text import bearing_texts
from crewapp.handlers.plan.plan_entries import plan_faults
from crewapp.job.open_job import OpenJob
from crewapp.kit.look.palette import Status
from crewapp.pages.plan.drawing_presenter import surface_picture
from crewapp.pages.plan.line_presenter import USE_WORDS
from crewapp.pages.plan.view import Preview, Row, UseTerms
from crewapp.words.translate import say
from models.audit.plan_audit import fault_text, faults_of_level
from models.audit.rule import Level
from models.entries.bodies.planning import SurfaceLayout
from models.entries.bodies.surfaces import Surface
from models.entries.body import Body
from models.entries.keys import line_key
from models.entries.kind_names import LAYOUT, SURFACE
from models.errors import CrewError
from models.plan.layout import LayoutTerms
from models.plan.line import LineUse
from models.queries.layout.line_bearings import SettledBearing, lying_bearing
from models.state.indexes import CUTS_OF
from models.units import parse_bearing, show_bearing
from models.units.job_units import Figures

USES: tuple[LineUse, ...] = ("sand_slit", "piped_slit")
STEP_UDEG, HALF_TURN_UDEG = 15_000_000, 180_000_000


def use_terms(job: OpenJob, surface_id: str) -> tuple[UseTerms, ...]:
    """Read what stands of the lines of each use, in words."""
    surface: Surface | None = job.state.latest(SURFACE, surface_id)
    layout: SurfaceLayout | None = job.state.latest(LAYOUT, surface_id)
    standing = {one.use: one for one in layout.terms} if layout else {}
    return tuple(
        _terms(
            use,
            standing.get(use),
            surface,
            job.figures,
        )
        for use in USES
    )


def _lying(surface: Surface | None, use: LineUse) -> str:
    """Return how the lines of a use lie now, "" where there are none."""
    udeg = lying_bearing(surface, use) if surface is not None else None
    return show_bearing(udeg) if udeg is not None else ""


def _terms(
    use: LineUse,
    terms: LayoutTerms | None,
    surface: Surface | None,
    figures: Figures,
) -> UseTerms:
    pattern = surface.pattern_of(use) if surface else None
    spacing_nm = terms.spacing_nm if terms else pattern.spacing_nm if pattern else 0
    first = ""
    if terms is not None:
        first = figures.depth(terms.first_nm) if terms.first_nm is not None else say("both alike")
    return UseTerms(
        use=use,
        name=say(USE_WORDS[use]),
        spacing=figures.depth(spacing_nm) if spacing_nm else "",
        bearing=show_bearing(terms.bearing_udeg) if terms else _lying(surface, use),
        width=figures.depth(pattern.width_nm) if pattern else "",
        depth=figures.depth(pattern.depth_nm) if pattern else "",
        machine=terms.machine_id if terms else "",
        first=first,
        least=figures.length(terms.least_nm) if terms else "",
        turning=figures.length(terms.turning_radius_nm) if terms else "",
        count=len(surface.courses[use]) if surface else 0,
    )


def preview_of(job: OpenJob, surface_id: str, typed: Any, new: Any) -> Preview:
    """Lay the lines as they would be, and write nothing; why not, where they can't be laid."""
    try:
        from crewapp.handlers.plan.layout import preview, worked_lines_at_risk
        from crewapp.pages.plan.layout_request import read_request

        request = read_request(job, surface_id, typed, new)
        laid = preview(job, surface_id, **request)
        moved = worked_lines_at_risk(job, laid)
    except CrewError as fault:
        return Preview(why_not=str(fault))
    refused, asks, notes = audit_rows(job, [laid.surface, laid.layout])
    return Preview(
        picture=surface_picture(job, laid.surface, laid.layout, {}),
        rows=(*asks, *layout_rows(laid.surface, laid.layout, job.figures, laid.settled), *notes),
        why_not=refused,
        bearings={one.use: show_bearing(one.bearing_udeg) for one in laid.settled},
        request=request,
        moves=", ".join(moved[:6]) + (" ..." if len(moved) > 6 else ""),
    )


def audit_rows(
    job: OpenJob, bodies: Sequence[Body]
) -> tuple[str, tuple[Row, ...], tuple[Row, ...]]:
    """Read what the audit says of parts of a plan: why not, what it asks, what it notes."""
    faults = plan_faults(job, bodies)
    refused = " ".join(
        fault_text(one, job.figures, say) for one in faults_of_level(faults, Level.REFUSE)
    )
    asks, notes = (
        tuple(
            Row(fault_text(one, job.figures, say), status=status)
            for one in faults_of_level(faults, level)
        )
        for level, status in ((Level.ASK, Status.CHECK), (Level.NOTE, ""))
    )
    return refused, asks, notes


def layout_rows(
    surface: Surface,
    layout: SurfaceLayout | None,
    figures: Figures,
    settled: tuple[SettledBearing, ...] = (),
) -> tuple[Row, ...]:
    """Read what a layout comes to: lines, drives, bearings nobody gave, turns, stubs, joints."""
    rows = []
    for use in USES:
        lengths = [line.length_nm for line in surface.lines if line.use == use]
        if not lengths:
            continue
        drives = [one for one in layout.drives if one.use == use] if layout else []
        more = []
        if drives:
            more.append(say("{count:drive|drives}", count=len(drives)))
            turns_nm = sum(one.turn_nm for one in drives)
            more.append(say("{length} of turning", length=figures.distance(turns_nm)))
        name = say(USE_WORDS[use])
        title = say("{count:line|lines}, {use}", count=len(lengths), use=name)
        rows.append(Row(title, ", ".join(more), figures.distance(sum(lengths))))
    rows += [Row(*one) for one in bearing_texts(settled)]
    if layout is not None:
        rows += _rest(surface, layout, figures)
    return tuple(rows)


def _rest(surface: Surface, layout: SurfaceLayout, figures: Figures) -> list[Row]:
    rows = []
    if layout.stubs:
        length = figures.distance(sum(one.length_nm for one in layout.stubs))
        rows.append(Row(say("Stubs left out"), length, str(len(layout.stubs)), Status.CHECK))
    if layout.crossings:
        rows.append(Row(say("Crossings"), figure=str(layout.crossings)))
    if layout.ends:
        title = say("Joints at {name}", name=surface.collector_id)
        rows.append(Row(title, figure=str(len(layout.ends))))
    if layout.unjoined:
        names = ", ".join(layout.unjoined[:8]) + (" ..." if len(layout.unjoined) > 8 else "")
        title = say("Not joined to {name}", name=surface.collector_id)
        rows.append(Row(title, names, str(len(layout.unjoined)), Status.CHECK))
    if layout.keep_outs:
        names = ", ".join(one.name for one in layout.keep_outs if one.name)
        rows.append(Row(say("Keep-outs"), names, str(len(layout.keep_outs))))
    if layout.setback_nm:
        rows.append(Row(say("Setback"), figure=figures.depth(layout.setback_nm)))
    if layout.source:
        rows.append(Row(say("Outline from"), layout.source))
    return rows


def drive_rows(job: OpenJob, surface_id: str) -> tuple[Row, ...]:
    """Read the passes in driving order, each with its turn; done ones are marked."""
    layout: SurfaceLayout | None = job.state.latest(LAYOUT, surface_id)
    rows = []
    for drive in layout.drives if layout else ():
        legs = " + ".join(", ".join(leg) for leg in drive.legs if leg)
        way = say("along") if drive.is_along else say("back")
        turn = job.figures.length(drive.turn_nm)
        more = say("{way}, then turn {length}", way=way, length=turn) if drive.turn_nm else way
        cut = [
            bool(job.state.current(CUTS_OF, line_key(surface_id, name))) for name in drive.line_ids
        ]
        status = Status.NOT_MEASURED
        if any(cut):
            status = Status.OK if all(cut) else Status.CHECK
        title = say("Pass {name}", name=f"{drive.number}: {legs}")
        rows.append(Row(title, more, job.figures.length(drive.driven_nm), status))
    return tuple(rows)


def bearing_rows(
    job: OpenJob, surface_id: str, use: LineUse, typed: Any, new: Any
) -> tuple[tuple[Row, ...], str]:
    """Compare bearings all round, with the one chosen; rows, or why there are none."""
    try:
        from crewapp.handlers.plan.layout import compare_bearings_of_use
        from crewapp.pages.plan.layout_request import read_request

        typed = {**typed, use: {**(typed.get(use) or {}), "compared": "yes"}}
        request = read_request(job, surface_id, typed, new)
        terms = use_terms(job, surface_id)[USES.index(use)]
        chosen = str((typed.get(use) or {}).get("bearing") or terms.bearing or "0")
        own = parse_bearing(chosen) % HALF_TURN_UDEG
        ways = sorted({own, *range(0, HALF_TURN_UDEG, STEP_UDEG)})
        rows = [
            _bearing(one, one.bearing_udeg == own, job.figures)
            for one in compare_bearings_of_use(job, surface_id, use, ways, **request)
        ]
    except CrewError as fault:
        return (), str(fault)
    return tuple(rows), ""


def _bearing(one: Any, is_own: bool, figures: Figures) -> Row:
    shown = show_bearing(one.bearing_udeg)
    detail = say(
        "{passes:pass|passes}, {headland} turning",
        passes=one.passes,
        headland=figures.distance(one.headland_nm),
    )
    if one.stubs:
        detail += ", " + say("{count:stub|stubs}", count=one.stubs)
    title = say("{bearing}, as chosen", bearing=shown) if is_own else shown
    return Row(title, detail, figures.distance(one.length_nm), Status.OK if is_own else "", shown)
