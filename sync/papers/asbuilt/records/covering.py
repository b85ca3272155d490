"""Tables of checks before covering: layers, joints, and the setups of the laser."""

from __future__ import annotations

from collections.abc import Iterator

from models.counted import CountedNoun
from models.entries.bodies.collector_work import HoldPoint, LayerCheck, TrenchProtection
from models.entries.bodies.levels import CheckShot, LaserSetup
from models.entries.bodies.planning import SurfaceLayout
from models.entries.body import Body
from models.entries.envelope import Entry
from models.entries.index import EntryKind
from models.entries.kind_names import (
    CHECK_SHOT,
    HOLD_POINT,
    LAYER_CHECK,
    LAYOUT,
    PIPE_LAID,
    SETUP,
    TRENCH_PROTECTION,
)
from models.queries.grade.released_inverts import count_inverts
from models.queries.levelling.elevations import plane_of, point_elevation
from models.queries.levelling.peg_tests import laser_proof
from models.science.levelling.laser_plane import Length
from models.state.job_state import JobState
from models.units.job_units import Figures
from models.units.station import StationRange
from sync.papers.day.facts.lasers import proof_words
from sync.papers.day.facts.slits import current_of
from sync.papers.tables.record_table import (
    Field,
    MeasureCells,
    Record,
    count_cell,
    make_record,
    text_cell,
)
from sync.papers.wording.entry_text import moment_of
from sync.papers.wording.measures import Measure

_KINDS: tuple[EntryKind[Body], ...] = (LAYER_CHECK, HOLD_POINT, TRENCH_PROTECTION)


def layer_record(state: JobState, made: MeasureCells) -> Record:
    """Table of layers checked before they were covered, and who released them."""
    rows = [
        [
            text_cell(body.collector_id),
            made.station(body.from_nm),
            made.station(body.to_nm),
            text_cell(_seen_words(state, body, made.figures)),
            text_cell(f"{entry.author}, {moment_of(entry, made.figures)}"),
        ]
        for kind in _KINDS
        for entry in current_of(state, kind)
        for body in _seen(entry.body)
    ]
    fields = [
        Field("collector", "line", 9),
        made.station_field("from", "from"),
        made.station_field("to", "to"),
        Field("seen", "seen"),
        Field("by", "by, when", 38),
    ]
    return make_record("layers", "Seen before it was covered", fields, rows)


Seen = LayerCheck | HoldPoint | TrenchProtection


def _seen(body: object) -> Iterator[Seen]:
    if isinstance(body, LayerCheck | HoldPoint | TrenchProtection):
        yield body


def _seen_words(state: JobState, body: Seen, figures: Figures) -> str:
    if isinstance(body, TrenchProtection):
        how = body.protection.replace("_", " ")
        return f"trench to {figures.depth(body.depth_nm)} deep: {how}, judged by {body.judged_by}"
    if isinstance(body, HoldPoint):
        words = f"released to be covered by {body.released_by}{_rests_on(state, body)}"
    else:
        words = _layer_words(body, figures)
    return f"{words}; {body.note}" if body.note else words


def _rests_on(state: JobState, hold: HoldPoint) -> str:
    """How many inverts a release rests on, by what their readings prove today."""
    stretch = StationRange.between(hold.from_nm, hold.to_nm)
    found = count_inverts(state, hold.collector_id, stretch)
    if not found.total:
        return ", no invert shot"
    words = f", of {CountedNoun(found.total):invert|inverts} {found.proven} proven"
    words += f", {found.as_read} OK as read" if found.as_read else ""
    return words + (f", {found.out} out" if found.out else "")


def _layer_words(body: LayerCheck, figures: Figures) -> str:
    thick = "" if body.thickness_nm is None else f", least {figures.depth(body.thickness_nm)}"
    wire = ""
    if body.continuous is not None:
        wire = ", signal end to end" if body.continuous else ", signal NOT end to end"
    return f"{body.layer.replace('_', ' ')}{thick}{wire}"


def joint_record(state: JobState, made: MeasureCells) -> Record:
    """Where piped slits meet the collector, and whether each was joined and capped."""
    bodies = [entry.body for entry in current_of(state, PIPE_LAID)]
    pipes = {(one.surface_id, one.line_id): one for one in bodies}
    rows = []
    for surface_id in state.every_name(LAYOUT):
        layout = state.latest(LAYOUT, surface_id)
        for end in layout.ends if isinstance(layout, SurfaceLayout) else ():
            pipe = pipes.get((surface_id, end.line_id))
            done = "no pipe laid" if pipe is None else "joined" if pipe.connected else "NOT joined"
            cap = ", high end capped" if pipe is not None and pipe.end_capped else ""
            rows.append(
                [
                    count_cell(end.number),
                    text_cell(surface_id),
                    text_cell(end.line_id),
                    made.station(end.station_nm),
                    text_cell(done + cap),
                ]
            )
    fields = [
        Field("joint", "joint", 8, is_number=True),
        Field("surface", "surface", 14),
        Field("line", "line", 14),
        made.station_field("station", "station", 14),
        Field("standing", "standing"),
    ]
    return make_record("joints", "Joints at the collector", fields, rows, "None planned.")


def setup_record(state: JobState, made: MeasureCells) -> Record:
    """Every setup of the laser: what it hangs from, its height, and how it was proven."""
    rows = []
    for entry in current_of(state, SETUP):
        setup = entry.body
        plane = plane_of(state, setup.setup_id)
        checks = [
            _check_words(state, plane.elevation_nm, check.body, made)
            for check in state.current(CHECK_SHOT, setup.setup_id)
            if plane is not None
        ]
        graded = setup.plane == "graded"
        height = plane.elevation_nm if plane is not None else None
        rows.append(
            [
                text_cell(setup.setup_id),
                text_cell(setup.on_point),
                made.of(Measure.LEVEL, setup.backsight_nm),
                made.of(Measure.LEVEL, height),
                text_cell("; ".join(_proof_words(state, entry, checks, made, is_graded=graded))),
                text_cell(f"{entry.author}, {moment_of(entry, made.figures)}"),
            ]
        )
    fields = [
        Field("setup", "setup", 9),
        Field("on_point", "on", 11),
        made.field("backsight", Measure.LEVEL, "backsight", 15.5),
        made.field("height_of_instrument", Measure.LEVEL, "height", 14),
        Field("proven", "proven by"),
        Field("by", "by, when", 34),
    ]
    return make_record("setups", "Laser setups", fields, rows)


def _proof_words(
    state: JobState,
    setup: Entry[LaserSetup],
    checks: list[str],
    made: MeasureCells,
    *,
    is_graded: bool,
) -> list[str]:
    """How a setup was proven: its plane, its check shots, and its laser where one is named."""
    laser = laser_proof(state, setup)
    words = [*(["graded plane"] if is_graded else []), *checks] or ["not proven"]
    return words if laser is None else [*words, proof_words(laser, made.figures)]


def _check_words(state: JobState, height_nm: Length, check: CheckShot, made: MeasureCells) -> str:
    point, reading = check.on_point, check.reading_nm
    known = point_elevation(state, point)
    if known is None:
        return f"{point}: no elevation known"
    return f"{point} {made.of(Measure.OFF, height_nm - reading - known).shown}"
