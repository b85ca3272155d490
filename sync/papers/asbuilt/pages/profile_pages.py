"""Profile sheets as pages: one for each collector that has a plan."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from fractions import Fraction
from functools import partial

from models.entries.bodies.surfaces import Collector
from models.entries.kind_names import COLLECTOR
from models.queries.grade.ground_cover import ground_over
from models.queries.grade.laid_pipe import LaidBelly, LaidPipe, laid_pipe
from models.science.grade.cover import cover_nm, top_of_pipe_nm
from models.science.levelling.laser_plane import Length
from models.science.quality.verdict import Verdict
from models.state.job_state import JobState
from sync.papers.asbuilt.features.feature_types import AsBuilt, CollectorRun
from sync.papers.asbuilt.features.short_names import short
from sync.papers.asbuilt.pages.page_types import HEAD_MM, Frame, Page
from sync.papers.asbuilt.pages.profile_rows import FigureRow
from sync.papers.asbuilt.pages.profile_sheet import Low, ProfileFacts, draw_profile_sheet, used_mm
from sync.papers.asbuilt.plans.legend import draw_profile_legend
from sync.papers.asbuilt.plans.paper_sizes import MARGIN_MM
from sync.papers.asbuilt.records.job import EVER
from sync.papers.day.facts.profile_views import profile_view
from sync.papers.pdf.drawing_ops import draw
from sync.papers.pdf.pen import PdfPen
from sync.papers.pdf.rows import BODY_PT, wrap
from sync.papers.wording.measures import mean_depth, signed_offset
from sync.papers.wording.safe_text import single_line

BESIDE_MM, GAP_MM = 50.0, 4.0
"""Column of notes beside a profile that leaves room for it, and the room between."""


def profile_pages(frame: Frame, state: JobState, job: AsBuilt) -> Iterator[Page]:
    """A page for each collector, in the order of the plan."""
    for run in job.collectors:
        facts = profile_facts(state, job, run)
        if facts is not None:
            title = f"Profile {run.collector_id} {run.name}"
            yield Page(title, partial(_paint, frame=frame, facts=facts, run=run, title=title))


def profile_facts(state: JobState, job: AsBuilt, run: CollectorRun) -> ProfileFacts | None:
    """Facts that the profile of a collector draws; None where it has no plan."""
    view = profile_view(state, run.collector_id, EVER)
    pipe = laid_pipe(state, run.collector_id)
    if view is None or pipe is None:
        return None
    joints = [one for one in job.joints if one.collector_id == run.collector_id]
    return ProfileFacts(
        view=view,
        bore_nm=run.bore_nm,
        lows=tuple(_low(belly, pipe, job) for belly in pipe.bellies),
        joints=tuple((one.station_nm, short(one.line_id, 16)) for one in joints),
        rows=_rows(state, job, run, pipe),
    )


def _low(laid: LaidBelly, pipe: LaidPipe, job: AsBuilt) -> Low:
    belly = laid.belly
    deep = job.figures.rise(round(belly.depth_nm))
    at = {shot.at.station_nm: shot.at.level_nm for shot in pipe.shots}
    water = float(at[belly.deepest_nm] + belly.depth_nm)
    where = job.figures.station(belly.deepest_nm)
    as_read = "" if laid.proof.verdict is Verdict.OUT else " as read, shoot again"
    words = f"belly {deep} deep at {where}{as_read}"
    return Low(belly.start_nm, belly.end_nm, belly.deepest_nm, water, words)


def _rows(
    state: JobState, job: AsBuilt, run: CollectorRun, pipe: LaidPipe
) -> tuple[FigureRow, ...]:
    figures = job.figures
    ground = ground_over(state, run.collector_id)
    design = state.latest(COLLECTOR, run.collector_id)
    wall_nm = 0
    if isinstance(design, Collector):
        wall_nm = (design.design.outside_nm - design.design.bore_nm) // 2
    shots = pipe.shots

    def row(name: str, show: Callable[[int, Length, Length], str]) -> FigureRow:
        cells = ((s.at.station_nm, show(s.at.station_nm, s.at.level_nm, s.off_nm)) for s in shots)
        return FigureRow(name, tuple(cells))

    def covered(station_nm: int, level_nm: Length) -> str:
        above = ground(station_nm)
        if above is None:
            return "-"
        top_nm = top_of_pipe_nm(level_nm, run.bore_nm + 2 * wall_nm, wall_nm)
        return mean_depth(Fraction(cover_nm(above, top_nm)), figures)

    def ground_words(station_nm: int) -> str:
        above = ground(station_nm)
        return "-" if above is None else figures.level(round(above))

    off = "off, ft" if figures.is_us else "off, mm"
    cover = "cover, in" if figures.is_us else "cover, mm"
    told = (
        row("station", lambda at, level, off_nm: figures.station(at)),
        row("design", lambda at, level, off_nm: figures.level(round(level - off_nm))),
        row("as laid", lambda at, level, off_nm: figures.level(round(level))),
        row(off, lambda at, level, off_nm: signed_offset(round(off_nm), figures).rsplit(" ", 1)[0]),
        row("ground", lambda at, level, off_nm: ground_words(at)),
        row(cover, lambda at, level, off_nm: covered(at, level)),
    )
    return tuple(one for one in told if any(text != "-" for _, text in one.figures))


def _paint(
    pen: PdfPen, *, frame: Frame, facts: ProfileFacts, run: CollectorRun, title: str
) -> None:
    frame.running_head(pen, single_line(title))
    words, inside = single_line(_pipe_words(run, facts, frame)), frame.sheet.inside
    left, top = MARGIN_MM, MARGIN_MM + HEAD_MM
    if used_mm(facts.view, inside) + BESIDE_MM + GAP_MM <= inside:
        width = inside - BESIDE_MM - GAP_MM
        _notes(pen, words, left + width + GAP_MM, top, BESIDE_MM, 1)
    else:
        width = inside
        top = _notes(pen, words, left, top, inside, 4) + 1.5
    drawn = draw_profile_sheet(facts, width, frame.sheet.bottom - top)
    draw(pen, drawn.drawing, left, top)


def _notes(pen: PdfPen, words: str, left: float, top: float, width: float, columns: int) -> float:
    """What the pipe is, then the legend; return where they end."""
    for line in wrap(pen, words, width, BODY_PT):
        pen.write(left, top + 2.4, line, BODY_PT)
        top += 3.1
    legend = draw_profile_legend(width, columns)
    draw(pen, legend, left, top + 1.0)
    return top + 1.0 + legend.height_mm


def _pipe_words(run: CollectorRun, facts: ProfileFacts, frame: Frame) -> str:
    figures = facts.view.figures
    grade = figures.grade(round(run.design_grade * 1_000_000))
    laid = "not shot at two places yet"
    if run.laid_grade is not None:
        laid = f"{figures.grade(round(run.laid_grade * 1_000_000))} from first to last shot"
    material = ", ".join(run.pipe_materials) or "no pipe written down"
    size = f"bore {figures.depth(run.bore_nm)}, outside {figures.depth(run.outside_nm)}"
    stations = f"stations from the {run.stationed_from}"
    outlet = f"outlet: {run.outlet}" if run.outlet else "outlet not described"
    limits = f"tolerance +{figures.rise(facts.view.high_nm)}, -{figures.rise(facts.view.low_nm)}"
    none = "" if facts.view.shots else " NO INVERT SHOT YET: only the design is drawn."
    return (
        f"{material}, {size}; {figures.length(run.pipe_nm)} of pipe laid. Design grade {grade}, "
        f"as laid {laid}; {limits}; {stations}; {outlet}. Heights from: {frame.head.datum}.{none}"
    )
