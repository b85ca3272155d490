"""Tables of the slits: every line with what was cut and read on it, and every probe."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass

from models.calculations.acceptance import lot_figures
from models.calculations.verdict import Verdict, judge
from models.entries.slits import PassCut, PipeLaid, Probe
from models.entries.surface import Surface
from models.figures import Figures
from models.job_state import JobState
from models.plan.line import PlannedLine
from sync.sheets.asbuilt.record import Field, Figure, Item, Record, counted, record, said
from sync.sheets.entry_words import moment_of
from sync.sheets.measures import Measure, mean_depth, number
from sync.sheets.slit_facts import current_of, depth_limits, pattern_of, use_of, width_limits

_USES = {"sand_slit": "sand", "piped_slit": "piped", "": "not on plan"}


@dataclass(frozen=True, slots=True)
class Reading:
    """One probe that counts, with the limits of its line."""

    surface_id: str
    line_id: str
    use: str
    probe: Probe
    at: str
    author: str
    depth_limits_nm: tuple[int | None, int | None]
    width_limits_nm: tuple[int | None, int | None]

    @property
    def verdict(self) -> Verdict:
        """Whether the depth lies within its limits."""
        if self.depth_limits_nm == (None, None):
            return Verdict.NOT_MEASURED
        return judge(self.probe.depth_nm, *self.depth_limits_nm)


@dataclass(frozen=True, slots=True)
class LineFacts:
    """One line as planned and as cut; ``planned`` is None for one that no plan has."""

    surface_id: str
    line_id: str
    use: str
    planned: PlannedLine | None
    cut_nm: int
    pass_ids: tuple[str, ...]
    pipe_nm: int
    readings: tuple[Reading, ...]

    @property
    def is_cut(self) -> bool:
        """Whether a pass that stands cut it."""
        return bool(self.pass_ids)

    @property
    def is_out(self) -> bool:
        """Whether the newest reading at a place of it is out of tolerance."""
        return any(reading.verdict is Verdict.OUT for reading in self.readings)


def readings_of(state: JobState, figures: Figures) -> list[Reading]:
    """Probes that count, the newest at each place, by surface and line in the order of the book."""
    found: dict[tuple[str, str, int], Reading] = {}
    for entry in current_of(state, "pass"):
        cut = entry.body
        if not isinstance(cut, PassCut):
            continue
        for taken in state.current("probe", cut.pass_id):
            probe = taken.body
            if not isinstance(probe, Probe):
                continue
            use = use_of(state, cut.surface_id, probe.line_id)
            pattern = pattern_of(state, cut.surface_id, use)
            place = (cut.surface_id, probe.line_id, probe.along_nm)
            found[place] = Reading(
                cut.surface_id,
                probe.line_id,
                use,
                probe,
                moment_of(taken, figures),
                taken.author,
                depth_limits(pattern),
                width_limits(pattern),
            )
    return list(found.values())


def line_facts(state: JobState, readings: list[Reading]) -> list[LineFacts]:
    """Every line of every surface, cut or not, then lines that were cut though no plan has them."""
    by_line: dict[tuple[str, str], list[Reading]] = defaultdict(list)
    for reading in readings:
        by_line[(reading.surface_id, reading.line_id)].append(reading)
    cuts: dict[tuple[str, str], list[PassCut]] = defaultdict(list)
    for entry in current_of(state, "pass"):
        if isinstance(entry.body, PassCut):
            for line_id in entry.body.line_ids:
                cuts[(entry.body.surface_id, line_id)].append(entry.body)
    pipes: dict[tuple[str, str], int] = defaultdict(int)
    for entry in current_of(state, "pipe_laid"):
        if isinstance(entry.body, PipeLaid) and entry.body.line_id:
            pipes[(entry.body.surface_id, entry.body.line_id)] += entry.body.length_nm
    planned = dict(_planned(state))
    places = [*planned, *(place for place in cuts if place not in planned)]
    return [
        _line(place, planned.get(place), cuts[place], pipes[place], by_line[place])
        for place in places
    ]


def _planned(state: JobState) -> Iterator[tuple[tuple[str, str], PlannedLine]]:
    for surface_id in state.all_names("surface"):
        surface = state.latest("surface", surface_id)
        if isinstance(surface, Surface):
            for line in surface.lines:
                yield (surface_id, line.line_id), line


def _line(
    place: tuple[str, str],
    planned: PlannedLine | None,
    cuts: list[PassCut],
    pipe_nm: int,
    readings: list[Reading],
) -> LineFacts:
    ordered = sorted(readings, key=lambda reading: reading.probe.along_nm)
    return LineFacts(
        surface_id=place[0],
        line_id=place[1],
        use=planned.use if planned else "",
        planned=planned,
        cut_nm=sum(cut.length_nm for cut in cuts),
        pass_ids=tuple(cut.pass_id for cut in cuts),
        pipe_nm=pipe_nm,
        readings=tuple(ordered),
    )


def line_record(lines: list[LineFacts], made: Figure) -> Record:
    """Every line: planned, cut, its pipe, and what its probes say."""
    rows = [_line_row(line, made) for line in lines]
    fields = [
        Field("surface", "surface", 11),
        Field("line", "line", 11),
        Field("kind", "kind", 9),
        made.field("planned", Measure.LENGTH, "plan", 12),
        made.field("cut", Measure.LENGTH, "cut", 11),
        made.field("pipe", Measure.LENGTH, "pipe", 11),
        Field("probes", "n", 5, is_number=True),
        made.field("least_depth", Measure.DEPTH, "least", 11),
        made.field("mean_depth", Measure.DEPTH, "mean", 11),
        made.field("most_depth", Measure.DEPTH, "most", 11),
        Field("in_tolerance", "in", 5, is_number=True),
        Field("passes", "pass"),
    ]
    note = (
        "Depths are below finished turf, the newest reading at each place; in: how many of n "
        "lie within limits. A line without a pass was not cut."
    )
    return record("lines", "Lines, as planned and as cut", fields, rows, "No lines planned.", note)


def _line_row(line: LineFacts, made: Figure) -> list[Item]:
    depths = [reading.probe.depth_nm for reading in line.readings]
    limits = line.readings[0].depth_limits_nm if line.readings else (None, None)
    lot = lot_figures(depths, *limits) if depths else None
    mean = (
        Item("-", None)
        if lot is None
        else Item(
            mean_depth(lot.mean_nm, made.figures),
            number(Measure.DEPTH, lot.mean_nm, made.figures.is_us),
        )
    )
    return [
        said(line.surface_id),
        said(line.line_id),
        said(_USES[line.use]),
        made.of(Measure.LENGTH, line.planned.length_nm if line.planned else None),
        made.of(Measure.LENGTH, line.cut_nm if line.is_cut else None),
        made.of(Measure.LENGTH, line.pipe_nm or None),
        counted(len(depths)),
        made.of(Measure.DEPTH, lot.least_nm if lot else None),
        mean,
        made.of(Measure.DEPTH, lot.most_nm if lot else None),
        counted(lot.inside if lot else None),
        said(", ".join(line.pass_ids) or "not cut"),
    ]


def probe_record(readings: list[Reading], made: Figure) -> Record:
    """Every probe that counts; the workbook alone holds them one by one."""
    rows = [
        [
            said(one.surface_id),
            said(one.line_id),
            said(one.probe.pass_id),
            made.of(Measure.LENGTH, one.probe.along_nm),
            made.of(Measure.DEPTH, one.probe.depth_nm),
            said(one.probe.depth_typed),
            made.of(Measure.DEPTH, one.probe.width_nm),
            made.of(Measure.DEPTH, one.depth_limits_nm[0]),
            made.of(Measure.DEPTH, one.depth_limits_nm[1]),
            said(one.verdict.value),
            said(one.at),
            said(one.author),
        ]
        for one in readings
    ]
    fields = [
        Field("surface"),
        Field("line"),
        Field("pass"),
        made.field("along", Measure.LENGTH, "", 0),
        made.field("depth", Measure.DEPTH, "", 0),
        Field("depth_typed"),
        made.field("width", Measure.DEPTH, "", 0),
        made.field("limit_low", Measure.DEPTH, "", 0),
        made.field("limit_high", Measure.DEPTH, "", 0),
        Field("verdict"),
        Field("read_at"),
        Field("by"),
    ]
    return record("probes", "Depth probes", fields, rows)
