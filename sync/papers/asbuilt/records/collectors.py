"""Tables of the collectors: inverts with who shot them, reaches, layers, joints, setups."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from models.entries.bodies.levels import GradeShot
from models.entries.bodies.surfaces import Collector
from models.entries.envelope import AnyEntry
from models.entries.kind_names import COLLECTOR, GRADE_SHOT
from models.queries.grade.ground_cover import ground_over
from models.queries.grade.laid_pipe import Fault, LaidReach, Proof, laid_pipe
from models.queries.grade.shot_verdict import shot_verdict
from models.queries.levelling.elevations import ReducedShot, design_of, reduced_shots
from models.science.levelling.laser_plane import Length
from models.science.quality.verdict import Verdict
from models.state.job_state import JobState
from models.units.percent import percent_beside_limits
from sync.papers.asbuilt.features.struck import strike_of
from sync.papers.tables.record_table import (
    Field,
    MeasureCells,
    Record,
    RecordCell,
    Row,
    make_record,
    text_cell,
)
from sync.papers.wording.entry_text import moment_of
from sync.papers.wording.measures import Measure, mean_depth, number

_ON = {"invert": "", "obvert": "obvert", "bedding": "bedding", "trench_floor": "floor"}


def invert_record(state: JobState, made: MeasureCells) -> Record:
    """Every shot along every collector: those that stand, then those crossed out, by station."""
    rows = [
        row
        for collector_id in _shot_collectors(state)
        for _, row in sorted(_shot_rows(state, collector_id, made), key=lambda one: one[0])
    ]
    fields = [
        Field("collector", "line" if len(_shot_collectors(state)) > 1 else "", 8),
        made.station_field("station", "station", 11),
        Field("on", "", 0),
        made.field("rod", Measure.LEVEL, "rod", 9.5),
        made.field("design", Measure.LEVEL, "design", 12.5),
        made.field("as_laid", Measure.LEVEL, "as laid", 13),
        made.field("off_design", Measure.OFF, "off", 9),
        made.field("cover", Measure.DEPTH, "cover", 12),
        Field("verdict", "", 0),
        Field("shot_at", "", 0),
        Field("by", "", 0),
        Field("setup", "setup, by, when, remarks"),
        Field("standing", "", 0),
    ]
    note = (
        "Inverts where nothing else is said. Cover is from the top of the pipe to finished "
        "ground, as shot or as planned. A line through a reading: struck, or shot again since."
    )
    return make_record(
        "inverts", "Inverts and other levels", fields, rows, "No grade shot taken yet.", note
    )


def _shot_collectors(state: JobState) -> list[str]:
    """Collectors in the order of the plan, then any other name that was shot or struck."""
    names = dict.fromkeys(state.every_name(COLLECTOR))
    names.update(dict.fromkeys(state.every_name(GRADE_SHOT)))
    struck = (state.entries[id].body for id in state.struck_by if id in state.entries)
    names.update(dict.fromkeys(b.collector_id for b in struck if isinstance(b, GradeShot)))
    return list(names)


_Key = tuple[str, int, int, str]


def _shot_rows(
    state: JobState, collector_id: str, made: MeasureCells
) -> Iterator[tuple[_Key, Row]]:
    shots = reduced_shots(state, collector_id)
    newest = {(_thing(shot.shot.on), shot.station_nm): shot.entry.id for shot in shots}
    for shot in shots:
        stands = newest[(_thing(shot.shot.on), shot.station_nm)] == shot.entry.id
        remark = "" if stands else "shot again since"
        yield _key(shot.shot, shot.entry), _shot_row(state, shot, made, remark)
    for id in state.struck_by:
        entry = state.entries.get(id)
        if entry and isinstance(entry.body, GradeShot) and entry.body.collector_id == collector_id:
            remark = f"struck: {strike_of(state, entry, made.figures).why}"
            shot = ReducedShot(entry, entry.body, None)
            yield _key(entry.body, entry), _shot_row(state, shot, made, remark)


def _thing(on: str) -> str:
    """What counts as one place: an obvert shot is a shot of the same pipe as an invert."""
    return "invert" if on == "obvert" else on


def _key(shot: GradeShot, entry: AnyEntry) -> _Key:
    first = "" if _thing(shot.on) == "invert" else shot.on
    return first, shot.station_nm, entry.lc, entry.id


def _shot_row(state: JobState, shot: ReducedShot, made: MeasureCells, remark: str) -> Row:
    collector = state.latest(COLLECTOR, shot.shot.collector_id)
    on, level = shot.shot.on, shot.elevation_nm
    design = _design(collector, on, shot.station_nm)
    off = None if level is None or design is None else level - design
    verdict = shot_verdict(state, collector, shot)
    at = moment_of(shot.entry, made.figures)
    thing = _ON.get(on, on)
    words = ", ".join(p for p in (thing, shot.shot.setup_id, shot.entry.author, at) if p)
    if verdict not in {Verdict.OK, Verdict.NOT_MEASURED} and not remark:
        words += f", {verdict.value}"
    cover = _cover(state, collector, shot) if not remark else None
    items = (
        text_cell(shot.shot.collector_id),
        made.station(shot.station_nm),
        text_cell(on),
        made.of(Measure.LEVEL, shot.shot.reading_nm),
        made.of(Measure.LEVEL, design),
        made.of(Measure.LEVEL, level),
        made.of(Measure.OFF, off),
        _cover_item(cover, made),
        text_cell(verdict.value),
        text_cell(at),
        text_cell(shot.entry.author),
        RecordCell(f"{words}; {remark}" if remark else words, shot.shot.setup_id),
        text_cell(remark or "stands"),
    )
    return Row(items, is_struck=bool(remark), is_heavy=verdict.is_out and not remark)


def _design(collector: object, on: str, station_nm: int) -> Fraction | None:
    return design_of(collector, on, station_nm) if isinstance(collector, Collector) else None


def _cover(state: JobState, collector: object, shot: ReducedShot) -> Length | None:
    """Ground over the top of the pipe: the pipe's wall lies between bore and outside."""
    if not isinstance(collector, Collector) or shot.elevation_nm is None:
        return None
    ground = ground_over(state, collector.collector_id)(shot.station_nm)
    if ground is None or _thing(shot.shot.on) != "invert":
        return None
    design = collector.design
    wall = Fraction(design.outside_nm - design.bore_nm, 2)
    bore = design.bore_nm if shot.shot.on == "invert" else 0
    return ground - shot.elevation_nm - bore - wall


def _cover_item(cover_nm: Length | None, made: MeasureCells) -> RecordCell:
    """Cover as worked out from levels: in tenths of an inch, since it is no reading of a tape."""
    if cover_nm is None:
        return RecordCell("-", None)
    value = number(Measure.DEPTH, Fraction(cover_nm), made.figures.is_us)
    return RecordCell(mean_depth(Fraction(cover_nm), made.figures), value)


_FAULTS = {
    Fault.NONE: "",
    Fault.OFF_GRADE: "off grade",
    Fault.BELLY: "in a belly",
    Fault.ADVERSE: "falls the wrong way",
    Fault.FLAT: "flatter than allowed",
    Fault.TOO_SHORT: "OK as read, not proven",
}


def _reach_words(reach: LaidReach) -> str:
    is_told = reach.fault in {Fault.ADVERSE, Fault.FLAT}
    return _FAULTS[reach.fault] + (_as_read(reach.proof) if is_told else "")


def _as_read(proof: Proof) -> str:
    """What to say behind a fault that readings can't prove."""
    return " as read, shoot again" if proof.verdict is Verdict.BEYOND else ""


def reach_record(state: JobState, made: MeasureCells) -> Record:
    """The pipe between neighbouring inverts, and the bellies in it."""
    rows: list[list[RecordCell]] = []
    for collector_id in state.every_name(COLLECTOR):
        pipe = laid_pipe(state, collector_id)
        for laid in pipe.bellies if pipe else ():
            belly = laid.belly
            where = made.figures.station(belly.deepest_nm)
            rows.append(
                [
                    text_cell(collector_id),
                    made.station(belly.start_nm),
                    made.station(belly.end_nm),
                    made.of(Measure.LENGTH, belly.end_nm - belly.start_nm),
                    RecordCell("-", None),
                    text_cell(
                        f"belly, {made.figures.rise(round(belly.depth_nm))} deep at {where}"
                        + _as_read(laid.proof)
                    ),
                ]
            )
        for reach in pipe.reaches if pipe else ():
            share = Fraction(reach.fall_nm) / reach.length_nm * 100
            least = Fraction(pipe.least_grade) * 100 if pipe else None
            rows.append(
                [
                    text_cell(collector_id),
                    made.station(reach.low.at.station_nm),
                    made.station(reach.high.at.station_nm),
                    made.of(Measure.LENGTH, reach.length_nm),
                    RecordCell(
                        f"{percent_beside_limits(share, least, places=2)} %", float(round(share, 4))
                    ),
                    text_cell(_reach_words(reach)),
                ]
            )
    fields = [
        Field("collector", "line", 9),
        made.station_field("from", "from"),
        made.station_field("to", "to"),
        made.field("length", Measure.LENGTH, "length", 15),
        Field("grade", "grade", 12, "percent", is_number=True),
        Field("remark", "remark"),
    ]
    note = "Grade is positive where it falls with the flow."
    return make_record("reaches", "Reaches and bellies", fields, rows, "No two inverts yet.", note)
