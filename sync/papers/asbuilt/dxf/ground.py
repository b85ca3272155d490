"""Drawing of the ground: surfaces, lines, probes, finds, points, ties, struck readings."""

from __future__ import annotations

from models.science.quality.verdict import Verdict
from sync.papers.asbuilt.dxf import styles as styles
from sync.papers.asbuilt.dxf.pen import BY_LAYER, DxfPen, readable_turn
from sync.papers.asbuilt.features.course import ByPosition, Place
from sync.papers.asbuilt.features.feature_types import LineAsCut, ProbeAt
from sync.papers.day.csv_file import plain_number
from sync.papers.drawing.marking_code import utility_kind, utility_name
from sync.papers.wording.measures import Measure, number
from sync.papers.wording.position_text import good_words

LINE_TAGS = (
    "SURFACE",
    "LINE",
    "STATUS",
    "CUT_LENGTH",
    "DAYS",
    "PROBES",
    "IN_TOLERANCE",
    "LEAST_DEPTH",
    "MOST_DEPTH",
    "PIPE_LENGTH",
)
UTILITY_TAGS = ("WHAT", "EVENT", "DEPTH", "DAY")
POINT_TAGS = ("POINT",)
STRUCK_TAGS = ("HOW", "SAID", "REASON", "BY")


def draw_ground(pen: DxfPen) -> None:
    """Draw all that lies at the surface of the ground."""
    for surface in pen.job.surfaces:
        pen.draw_course(styles.EDGE, surface.outline, is_closed=True)
        for keep_out in surface.keep_outs:
            for ring in (keep_out.ring, *keep_out.islands):
                pen.draw_course(styles.KEEP_OUT, ring, is_closed=True)
    for line in pen.job.lines:
        _draw_line(pen, line)
    for probe in pen.job.probes:
        _draw_probe(pen, probe)
    _draw_finds(pen)
    _draw_set_aside(pen)


def name_height_mm(pen: DxfPen) -> float:
    """Height of the names of lines: as usual, or what fits between neighbouring lines."""
    apart = [line.spacing_nm for line in pen.job.lines if line.spacing_nm]
    room_mm = 0.7 * min(apart) / pen.per / pen.scale.per_mm if apart else styles.NAME_MM
    return min(styles.NAME_MM, room_mm)


def line_figures(pen: DxfPen, line: LineAsCut) -> dict[str, str]:
    """Figures on the tag of a line, in units of the drawing."""
    return {
        "LABEL": line.line_id,
        "SURFACE": line.surface_id,
        "LINE": line.line_id,
        "STATUS": line.status.value,
        "CUT_LENGTH": _figure(pen, Measure.LENGTH, line.cut_nm),
        "DAYS": ", ".join(line.days),
        "PROBES": str(line.n_probes),
        "IN_TOLERANCE": str(line.n_in_tolerance),
        "LEAST_DEPTH": _figure(pen, Measure.DEPTH, line.least_nm),
        "MOST_DEPTH": _figure(pen, Measure.DEPTH, line.most_nm),
        "PIPE_LENGTH": _figure(pen, Measure.LENGTH, line.pipe_nm),
    }


def _figure(pen: DxfPen, measure: Measure, nm: int | None) -> str:
    value = number(measure, nm, pen.job.is_us)
    return "" if value is None else plain_number(value)


def _draw_line(pen: DxfPen, line: LineAsCut) -> None:
    if line.start is None or line.end is None:
        return
    pen.draw_line(styles.LINE_LAYERS[line.status], line.start, line.end)
    start, end = pen.flat(line.start), pen.flat(line.end)
    turn = readable_turn(start, end)
    left = min(start, end) if abs(end[0] - start[0]) > 1e-9 else min(start, end, key=lambda p: p[1])
    pen.mark(styles.LINE_NAME, "LINE-TAG", (*left, 0), line_figures(pen, line), turn)


def _draw_probe(pen: DxfPen, probe: ProbeAt) -> None:
    if probe.at is None:
        return
    depth = probe.depth_typed or _figure(pen, Measure.DEPTH, probe.depth_nm)
    figures = (
        probe.surface_id,
        probe.line_id,
        f"along {_figure(pen, Measure.LENGTH, probe.along_nm)}",
        f"depth {_figure(pen, Measure.DEPTH, probe.depth_nm)}",
        probe.verdict.value,
        probe.answered.text,
    )
    if probe.verdict is Verdict.OUT:
        place = (*pen.flat(probe.at), 0.0)
        pen.mark(styles.PROBE_OUT, "PROBE-OUT", place, {"LABEL": depth})
    pen.draw_point(styles.PROBE, probe.at, figures)


def _draw_finds(pen: DxfPen) -> None:
    for place, found in enumerate(pen.job.utilities, start=1):
        figures = {
            "LABEL": f"{utility_name(place, found.what)} {found.what} ({found.event})"
            + _good(pen, found.by_position),
            "WHAT": found.what,
            "EVENT": found.event,
            "DEPTH": _figure(pen, Measure.DEPTH, found.depth_nm),
            "DAY": found.day,
        }
        kind = utility_kind(found.what)
        colour = kind.value.drawing_colour if kind else BY_LAYER
        _mark_place(pen, "UTILITY", found.at, figures, colour)
    for outlet in pen.job.outlets:
        words = f"{outlet.outlet_id} outlet ({outlet.flows}){_good(pen, outlet.by_position)}"
        figures = {"LABEL": words, "WHAT": "outlet", "EVENT": outlet.flows, "DEPTH": "",
                   "DAY": outlet.day}  # fmt: skip
        _mark_place(pen, "UTILITY", outlet.at, figures)
    for point in pen.job.points:
        _mark_place(
            pen, "PERMANENT-POINT", point.at, {"LABEL": point.point_id, "POINT": point.point_id}
        )
    for tie in pen.job.ties:
        if tie.point is not None and tie.end is not None:
            pen.draw_line(styles.TIE, tie.point, tie.end)
            (x1, y1), (x2, y2) = pen.flat(tie.point), pen.flat(tie.end)
            words = tie.distance_typed or pen.job.figures.length(tie.distance_nm)
            turn = readable_turn((x1, y1), (x2, y2))
            pen.text(styles.TIE, words, ((x1 + x2) / 2, (y1 + y2) / 2), styles.NAME_MM, turn)


def _good(pen: DxfPen, by: ByPosition | None) -> str:
    """What a place by position is good to, behind its name."""
    return f", {good_words(by.good_to_nm, pen.job.figures)}" if by is not None else ""


def _draw_set_aside(pen: DxfPen) -> None:
    for one in pen.job.void_readings:
        figures = {
            "LABEL": f"{one.how}: {one.said}",
            "HOW": one.how,
            "SAID": one.said,
            "REASON": one.reason,
            "BY": one.by,
        }
        _mark_place(pen, "STRUCK", one.at, figures)


def _mark_place(
    pen: DxfPen, mark: str, at: Place | None, figures: dict[str, str], colour: int = BY_LAYER
) -> None:
    layer = {"UTILITY": styles.UTILITY, "PERMANENT-POINT": styles.POINT, "STRUCK": styles.STRUCK}
    if at is not None:
        pen.mark(layer[mark], mark, (*pen.flat(at), 0.0), figures, colour=colour)
