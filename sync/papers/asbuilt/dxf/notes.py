"""Notes beside the drawing: whose work, units, plane, scale, north, legend."""

from __future__ import annotations

from models.units import NM_PER, LengthUnit
from sync.papers.asbuilt.dxf import styles as styles
from sync.papers.asbuilt.dxf.ground import line_figures
from sync.papers.asbuilt.dxf.pen import DxfPen
from sync.papers.asbuilt.features.about import about_job

_STEP_MM = 5.0
_LEGEND_LAYERS = (
    styles.EDGE,
    styles.KEEP_OUT,
    *styles.LINE_LAYERS.values(),
    styles.PLANNED_PIPE,
    styles.LAID_PIPE,
    styles.RELEASED,
    styles.TIE,
)
_LEGEND_MARKS = (
    (styles.PROBE_OUT, "PROBE-OUT"),
    (styles.INVERT, "INVERT"),
    (styles.INVERT_OUT, "INVERT-OUT"),
    (styles.JOINT, "JOINT"),
    (styles.UTILITY, "UTILITY"),
    (styles.POINT, "PERMANENT-POINT"),
    (styles.STRUCK, "STRUCK"),
)


def draw_notes(pen: DxfPen) -> None:
    """Write the notes under the drawing, the legend and the north arrow to its right."""
    low, high = pen.scale.low, pen.scale.high
    _draw_words(pen, (low[0], low[1] - pen.mm(25)))
    _draw_legend(pen, (high[0] + pen.mm(15), high[1]))
    _draw_north_and_bar(pen, (high[0] + pen.mm(20), high[1] + pen.mm(8)))


def _draw_words(pen: DxfPen, at: tuple[float, float]) -> None:
    x, y = at
    pen.text(styles.NOTES, f"As-built: {pen.job.job_name}", (x, y), styles.TITLE_MM)
    for words in note_lines(pen):
        y -= pen.mm(_STEP_MM)
        pen.text(styles.NOTES, words, (x, y))
    for line in pen.job.lines:
        if line.start is None or line.end is None:
            y -= pen.mm(_STEP_MM)
            pen.mark(styles.UNPLACED, "LINE-TAG", (x, y, 0.0), line_figures(pen, line))


def note_lines(pen: DxfPen) -> list[str]:
    """Facts of the job, then how to read the drawing."""
    job = pen.job
    unplaced = sum(line.start is None for line in job.lines)
    facts = [f"{name.replace('_', ' ')}: {said}" for name, said in about_job(job)[2:]]
    unit = "feet" if job.is_us else "metres"
    facts.append(f"1 drawing unit is 1 {unit.replace('feet', 'foot').removesuffix('s')}.")
    facts.append(f"Text and line patterns are sized to plot at {pen.scale.words} (11 x 17 in, A3).")
    facts.append(f"Levels, in {unit}, are given to collector inverts alone; all else lies at 0.")
    if job.void_readings:
        facts.append(f"Layer STRUCK is off; readings that do not stand: {len(job.void_readings)}.")
    if unplaced:
        facts.append(f"Lines cut that no plan has, their place not known: {unplaced}.")
    return facts


def _draw_legend(pen: DxfPen, at: tuple[float, float]) -> None:
    x, y = at
    for layer in _LEGEND_LAYERS:
        y -= pen.mm(_STEP_MM)
        pen.paper.add_line(
            (x, y),
            (x + pen.mm(20), y),
            dxfattribs={
                "layer": styles.NOTES.name,
                "linetype": layer.pattern,
                "lineweight": layer.weight,
                "color": layer.colour,
            },
        )
        pen.text(styles.NOTES, layer.said, (x + pen.mm(24), y - pen.mm(1)))
    for layer, mark in _LEGEND_MARKS:
        y -= pen.mm(_STEP_MM)
        pen.mark(styles.NOTES, mark, (x + pen.mm(10), y, 0.0), {})
        pen.text(styles.NOTES, layer.said, (x + pen.mm(24), y - pen.mm(1)))


def _draw_north_and_bar(pen: DxfPen, at: tuple[float, float]) -> None:
    """North arrow, and a bar that is still true when the sheet is copied smaller."""
    x, y = at
    north = "N" if pen.job.projection is not None else "plan N"
    pen.mark(styles.NOTES, "NORTH", (x, y, 0.0), {})
    pen.text(styles.NOTES, north, (x + pen.mm(3), y + pen.mm(9)), styles.TITLE_MM)
    length, words = _bar(pen)
    for step in range(2):
        left, right = x + pen.mm(18) + step * length / 2, x + pen.mm(18) + (step + 1) * length / 2
        corners = [(left, y), (right, y), (right, y + pen.mm(1.5)), (left, y + pen.mm(1.5))]
        bar = pen.paper.add_lwpolyline(corners, close=True, dxfattribs={"layer": styles.NOTES.name})
        if step == 0:
            bar.dxf.const_width = pen.mm(0.6)
    pen.text(styles.NOTES, words, (x + pen.mm(18), y + pen.mm(3)))


def _bar(pen: DxfPen) -> tuple[float, str]:
    """Length of the bar in units of the drawing, about 40 mm on the sheet, and its words."""
    rounds = [base * 10**power for power in range(5) for base in (1, 2, 5)]
    wanted = pen.mm(40)
    length = max([one for one in rounds if one <= wanted] or rounds[:1])
    per = NM_PER[LengthUnit.FT if pen.job.is_us else LengthUnit.M]
    return float(length), f"0 to {pen.job.figures.length(length * per)}"
