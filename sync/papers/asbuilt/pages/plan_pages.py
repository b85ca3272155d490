"""Plan sheets as pages: the drawing on the left, its strip of scale, legend and title right."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

from models.units.job_units import Figures
from sync.papers.asbuilt.features.feature_types import AsBuilt
from sync.papers.asbuilt.features.plots import Plot
from sync.papers.asbuilt.pages.page_types import Frame, Page
from sync.papers.asbuilt.plans.key_plan import draw_key
from sync.papers.asbuilt.plans.legend import draw_bar, draw_legend, draw_north
from sync.papers.asbuilt.plans.line_names import LineLabels
from sync.papers.asbuilt.plans.paper_sizes import MARGIN_MM, PaperSheet
from sync.papers.asbuilt.plans.plan_sets import GAP_MM, STRIP_MM, PlanSet
from sync.papers.asbuilt.plans.plan_sheet import draw_plan_sheet
from sync.papers.asbuilt.plans.tiles import PlanTiling
from sync.papers.asbuilt.records.heading import PLACES_ARE
from sync.papers.drawing.primitives import Tone
from sync.papers.pdf.drawing_ops import draw
from sync.papers.pdf.pen import PdfPen
from sync.papers.pdf.rows import BODY_PT, wrap
from sync.papers.wording.safe_text import single_line


def plan_pages(frame: Frame, sets: list[PlanSet], job: AsBuilt) -> Iterator[Page]:
    """A page for every sheet of every plot."""
    for one in sets:
        for place in range(len(one.sheeting.tiles)):
            paint = partial(_paint, frame=frame, plan=one, place=place, job=job)
            name = f"Plan {one.plot.name}, {one.sheeting.scale.words}"
            yield Page(name, paint, set=name)


def _paint(pen: PdfPen, *, frame: Frame, plan: PlanSet, place: int, job: AsBuilt) -> None:
    tile = plan.sheeting.tiles[place]
    joins = {
        side: f"sheet {plan.sheet_number(number)}"
        for side, number in plan.sheeting.neighbours(tile).items()
    }
    drawn = draw_plan_sheet(plan.plot, plan.sheeting, tile, job.figures, joins)
    draw(pen, drawn.drawing, MARGIN_MM, MARGIN_MM)
    strip = _Strip(pen, frame, MARGIN_MM + drawn.drawing.width_mm + GAP_MM)
    strip.title(plan.name(place))
    strip.scale(plan.sheeting, frame.sheet, job.figures, job.projection is not None)
    strip.legend(plan.plot)
    if len(plan.sheeting.tiles) > 1:
        strip.key(plan, place)
    strip.work(plan.plot, job.figures)
    strip.notes([_names_words(drawn.names), PLACES_ARE, job_datum(frame)])


def _names_words(names: LineLabels) -> str:
    """Which lines have their names, and that those between go by their order."""
    if names.named == names.count:
        return "Every line carries its name." if names.count else "No line is planned here."
    which = "Lines" if names.every == 1 else f"The first, the last and every {_nth(names.every)}"
    return f"{which} carry their names where there is room; those between are numbered in order."


def _nth(count: int) -> str:
    return {2: "2nd"}.get(count, f"{count}th")


def job_datum(frame: Frame) -> str:
    """Datum and plane in a line each, as a note."""
    return f"Heights from: {frame.head.datum}. {frame.head.plane}"


def work_words(plot: Plot, figures: Figures) -> Iterator[str]:
    """How many lines of each kind were cut, and how long; what was laid of each collector."""
    for surface in plot.surfaces:
        for use, word in (("sand_slit", "sand slits"), ("piped_slit", "piped slits")):
            lines = [
                one for one in plot.lines if one.surface_id == surface.surface_id and one.use == use
            ]
            cut = [one for one in lines if one.pass_ids]
            if lines:
                length = figures.length(sum(one.cut_nm for one in cut))
                yield f"{surface.surface_id}: {len(cut)} of {len(lines)} {word} cut, {length}"
    for run in plot.collectors:
        laid, long = figures.length(run.pipe_nm), figures.length(run.length_nm)
        yield f"{run.collector_id}: {laid} of pipe laid, {long} planned"


class _Strip:
    """Writes the strip from the top down."""

    def __init__(self, pen: PdfPen, frame: Frame, left: float) -> None:
        self.pen, self.frame, self.left = pen, frame, left
        self.top = MARGIN_MM

    def title(self, name: str) -> None:
        """Job, then what this sheet shows."""
        pen = self.pen
        for text, size, most in ((self.frame.head.job, 11.0, 3), (name, 9.0, 5)):
            lines = wrap(pen, single_line(text), STRIP_MM, size, True)
            for line in lines[:most]:
                pen.write(self.left, self.top + size * 0.36, line, size, bold=True)
                self.top += size * 0.43
            self.top += 1.0
        for text in (self.frame.head.worked, self.frame.head.contractor):
            self._words(text)
        self._rule()

    def _rule(self) -> None:
        self.top += 1.0
        self.pen.rule(self.left, self.top, self.left + STRIP_MM, self.top, 0.35)
        self.top += 2.0

    def _words(self, text: str, *, bold: bool = False, tone: Tone = Tone.INK) -> None:
        for line in wrap(self.pen, single_line(text), STRIP_MM, BODY_PT, bold):
            self.pen.write(self.left, self.top + 2.3, line, BODY_PT, bold=bold, tone=tone)
            self.top += 3.1

    def scale(
        self, sheeting: PlanTiling, sheet: PaperSheet, figures: Figures, is_tied: bool
    ) -> None:
        """Stated scale on the stated paper, a bar that stays true on copies, north."""
        self.pen.write(self.left, self.top + 3.4, sheeting.scale.words, 11, bold=True)
        self.top += 5.0
        self._words(f"on {sheet.name}; on a copy of another size trust the bar")
        self.top += 1.0
        north = draw_north(sheeting.is_turned, is_tied)
        bar = draw_bar(sheeting, STRIP_MM - north.width_mm - 2, figures.is_us)
        draw(self.pen, north, self.left + STRIP_MM - north.width_mm, self.top)
        draw(self.pen, bar, self.left, self.top + 8.0)
        self.top += north.height_mm + 1.0
        self._rule()

    def legend(self, plot: Plot) -> None:
        """Legend of what is on the plot."""
        drawn = draw_legend([plot], STRIP_MM)
        draw(self.pen, drawn, self.left, self.top)
        self.top += drawn.height_mm
        self._rule()

    def work(self, plot: Plot, figures: Figures) -> None:
        """Work that lies on the plan, in a line each."""
        for words in work_words(plot, figures):
            self._words(words)
        self._rule()

    def key(self, plan: PlanSet, place: int) -> None:
        """Where this sheet lies among the others of its plot."""
        numbers = [str(plan.sheet_number(each)) for each in range(len(plan.sheeting.tiles))]
        drawn = draw_key(plan.plot, plan.sheeting, numbers, (STRIP_MM, 34.0), shown=place)
        draw(self.pen, drawn, self.left, self.top)
        self.top += drawn.height_mm
        self._words("Sheets of this plan; the shaded one is this.")
        self._rule()

    def notes(self, notes: list[str]) -> None:
        """Notes, as many as there is room for."""
        room = self.frame.sheet.bottom
        for note in notes:
            lines = wrap(self.pen, single_line(note), STRIP_MM, BODY_PT)
            if self.top + 3.1 * len(lines) > room:
                return
            self._words(note)
            self.top += 1.0
