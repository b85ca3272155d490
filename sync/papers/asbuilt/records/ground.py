"""Tables of what lies in the ground and how to find it: utilities, permanent points, ties."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable

from sync.papers.asbuilt.features.course import ByPosition
from sync.papers.asbuilt.features.feature_types import AsBuilt, Place, TieMeasured
from sync.papers.drawing.marking_code import UtilityKind, utility_kind, utility_name
from sync.papers.tables.record_table import (
    Field,
    MeasureCells,
    Record,
    RecordCell,
    make_record,
    text_cell,
)
from sync.papers.wording.entry_text import line_names
from sync.papers.wording.measures import Measure, plain_day
from sync.papers.wording.position_text import good_words, latitude_longitude

NEEDED_TIES = 2


def utility_record(job: AsBuilt, made: MeasureCells) -> Record:
    """Table of utilities met or hit in the ground, and what was done about each."""
    rows = [
        [
            RecordCell(utility_name(number, one.what), number),
            text_cell(one.what),
            text_cell("hit" if one.event == "hit" else "found whole"),
            text_cell(_where(one.where, one.by_position, made)),
            *_place(one.at, made),
            made.of(Measure.DEPTH, one.depth_nm),
            text_cell(one.action),
            RecordCell(plain_day(one.day, job.is_us), one.day),
            text_cell(one.author),
        ]
        for number, one in enumerate(job.utilities, start=1)
    ]
    fields = [
        Field("number", "on plan", 9.5),
        Field("what", "what", 18),
        Field("event", "event", 12.5),
        Field("where", "where"),
        made.field("east", Measure.LENGTH, "", 0),
        made.field("north", Measure.LENGTH, "", 0),
        made.field("depth", Measure.DEPTH, "depth", 13.5),
        Field("action", "what was done", 29),
        Field("day", "", 0),
        Field("by", "", 0),
    ]
    none, note = "Nothing met in the ground.", marking_words(job)
    return make_record("utilities", "Met in the ground", fields, rows, none, note)


def _where(words: str, by: ByPosition | None, made: MeasureCells) -> str:
    """Where something is, in words, with how well a position is known."""
    if by is None:
        return words
    place = latitude_longitude(by.lat_ndeg, by.lon_ndeg)
    told = f"{place} {good_words(by.good_to_nm, made.figures)}"
    return f"{words}. {told}" if words else told


def outlet_records(job: AsBuilt, made: MeasureCells) -> tuple[Record, ...]:
    """Outlets as they were last seen; nothing where none was."""
    if not job.outlets:
        return ()
    rows = [
        [
            text_cell(one.outlet_id),
            text_cell(one.flows),
            text_cell(_where(one.note, one.by_position, made)),
            made.of(Measure.LEVEL, one.invert_nm),
            made.of(Measure.LEVEL, one.water_nm),
            *_place(one.at, made),
            RecordCell(plain_day(one.day, job.is_us), one.day),
            text_cell(one.author),
        ]
        for one in job.outlets
    ]
    fields = [
        Field("outlet", "outlet", 16),
        Field("flows", "flows", 14),
        Field("where", "where, what was seen"),
        made.field("invert", Measure.LEVEL, "invert", 16),
        made.field("water", Measure.LEVEL, "water", 16),
        made.field("east", Measure.LENGTH, "", 0),
        made.field("north", Measure.LENGTH, "", 0),
        Field("day", "day", 25),
        Field("by", "", 0),
    ]
    caution = next((one.caution for one in job.outlets if one.caution), "")
    return (make_record("outlets", "Outlets as seen", fields, rows, note=caution),)


def marking_words(job: AsBuilt) -> str:
    """Key to the letters of the utilities that were met, and their colours on the ground."""
    met = {utility_kind(one.what) for one in job.utilities}
    told = [kind.value for kind in UtilityKind if kind in met]
    if not told:
        return ""
    kinds = "; ".join(f"{one.letter}: {one.said}, {one.colour}" for one in told)
    return f"By the uniform colour code for marking buried utilities: {kinds}."


def _place(at: Place | None, made: MeasureCells) -> list[RecordCell]:
    """Where it lies on the plan, east then north."""
    if at is None:
        return [made.of(Measure.LENGTH, None)] * 2
    return [made.of(Measure.LENGTH, at.x_nm), made.of(Measure.LENGTH, at.y_nm)]


def point_record(job: AsBuilt, made: MeasureCells) -> Record:
    """Points that will still be there in ten years."""
    rows = [
        [text_cell(one.point_id), text_cell(one.where), *_place(one.at, made)] for one in job.points
    ]
    fields = [
        Field("point", "point", 14),
        Field("where", "what it is, and how to find it"),
        made.field("east", Measure.LENGTH, "east", 16),
        made.field("north", Measure.LENGTH, "north", 16),
    ]
    none = "NONE WRITTEN DOWN. Nothing here can be found again by measuring from something lasting."
    return make_record("permanent_points", "Permanent points", fields, rows, none)


def end_name(tie: TieMeasured) -> str:
    """Name of the end that is tied."""
    names = {
        "line_start": f"{tie.surface_id} {tie.line_id}, start",
        "line_end": f"{tie.surface_id} {tie.line_id}, end",
        "collector_outlet": f"{tie.collector_id}, outlet",
        "collector_head": f"{tie.collector_id}, head",
    }
    return names.get(tie.tied, tie.name)


def ties_by_end(job: AsBuilt) -> dict[str, list[TieMeasured]]:
    """Ties of each end, the ends in the order they were tied."""
    ends: dict[str, list[TieMeasured]] = defaultdict(list)
    for tie in job.ties:
        ends[end_name(tie)].append(tie)
    return dict(ends)


def tie_record(job: AsBuilt, made: MeasureCells) -> Record:
    """Every tie, then in words what has fewer than two."""
    rows = []
    for name, ties in ties_by_end(job).items():
        for tie in ties:
            off = None if tie.by_plan_nm is None else tie.distance_nm - tie.by_plan_nm
            rows.append(
                [
                    text_cell(name),
                    text_cell(tie.point_id),
                    made.of(Measure.LEVEL, tie.distance_nm),
                    made.of(Measure.LEVEL, tie.by_plan_nm),
                    made.of(Measure.LEVEL, off),
                    RecordCell(plain_day(tie.day, job.is_us), tie.day),
                ]
            )
    fields = [
        Field("end", "what is tied"),
        Field("point", "from point", 18),
        made.field("distance", Measure.LEVEL, "taped", 17),
        made.field("by_plan", Measure.LEVEL, "by plan", 17),
        made.field("difference", Measure.LEVEL, "difference", 20),
        Field("day", "day", 25),
    ]
    note = " ".join(["Taped level, from the point to the end.", *untied_text(job)])
    return make_record("ties", "Ties to permanent points", fields, rows, "NO TIE WAS TAPED.", note)


def untied_text(job: AsBuilt) -> list[str]:
    """Sentence on ends that fewer than two ties lead to."""
    counts = {name: len({tie.point_id for tie in ties}) for name, ties in ties_by_end(job).items()}
    ends = [f"{run.collector_id}, {end}" for run in job.collectors for end in ("outlet", "head")]
    found = [name for name in ends if counts.get(name, 0) < NEEDED_TIES]
    words = [f"Fewer than two ties: {'; '.join(found)}."] if found else []
    lines = _untied_lines(job, counts)
    if lines:
        words.append(f"Ends of lines with fewer than two ties: {'; '.join(lines)}.")
    return words


def _untied_lines(job: AsBuilt, counts: dict[str, int]) -> Iterable[str]:
    by_surface: dict[tuple[str, int], list[str]] = defaultdict(list)
    for line in job.lines:
        if line.start is None or not line.pass_ids:
            continue
        ends = (f"{line.surface_id} {line.line_id}, {end}" for end in ("start", "end"))
        missing = sum(counts.get(end, 0) < NEEDED_TIES for end in ends)
        if missing:
            by_surface[(line.surface_id, missing)].append(line.line_id)
    both = {1: "one end of", 2: "both ends of"}
    return [
        f"{both[missing]} {surface_id} {line_names(names)}"
        for (surface_id, missing), names in by_surface.items()
    ]
