"""Collectors in the drawing: course, stations, inverts in space, joints, stretches released."""

from __future__ import annotations

from math import cos, radians, sin

from sync.papers.asbuilt.dxf import styles as styles
from sync.papers.asbuilt.dxf.pen import DxfPen, readable_turn
from sync.papers.asbuilt.features.course import place_along
from sync.papers.asbuilt.features.feature_types import CollectorRun
from sync.papers.asbuilt.features.station_features import InvertShot, StationMark
from sync.papers.day.csv_file import plain_number

INVERT_TAGS = ("COLLECTOR", "STATION", "INVERT", "DESIGN", "OFF", "VERDICT", "ANSWER")
JOINT_TAGS = ("COLLECTOR", "LINE", "SURFACE", "STATION", "MADE")
_DIGITS = 6
_TICK_MM = 1.5
_BACK_NM = 1_000_000
"""How far back along a course its direction at a station is looked for."""


def draw_pipes(pen: DxfPen) -> None:
    """Draw every collector with all that hangs on it."""
    for run in pen.job.collectors:
        pen.draw_course(styles.PLANNED_PIPE, run.course)
        pen.draw_course_3d(styles.LAID_PIPE, run.laid)
        for mark in run.marks:
            _draw_station(pen, run, mark)
        if run.marks:
            x, y = pen.flat(run.marks[0].at)
            pen.text(styles.STATION, run.name, (x, y - pen.mm(6)), styles.TEXT_MM)
    runs = {run.collector_id: run for run in pen.job.collectors}
    for shot in pen.job.inverts:
        run = runs[shot.collector_id]
        _draw_invert(pen, shot, turn_across(pen, run, shot.station_nm - run.start_nm))
    for joint in pen.job.joints:
        figures = {
            "LABEL": str(joint.number),
            "COLLECTOR": joint.collector_id,
            "LINE": joint.line_id,
            "SURFACE": joint.surface_id,
            "STATION": pen.job.figures.station(joint.station_nm),
            "MADE": "yes" if joint.is_made else "no",
        }
        pen.mark(styles.JOINT, "JOINT", (*pen.flat(joint.at), 0.0), figures)
    for part in pen.job.released:
        pen.draw_course(styles.RELEASED, part.course)


def turn_across(pen: DxfPen, run: CollectorRun, along_nm: int) -> float:
    """Turn of a text that stands across a course, so that nobody reads it upside down."""
    step = _BACK_NM if along_nm < _BACK_NM else -_BACK_NM
    here, near = place_along(run.course, along_nm), place_along(run.course, along_nm + step)
    if here is None or near is None:
        return 90.0
    (x, y), (near_x, near_y) = pen.flat(here), pen.flat(near)
    return readable_turn((0.0, 0.0), (y - near_y, near_x - x))


def _draw_station(pen: DxfPen, run: CollectorRun, mark: StationMark) -> None:
    """A tick across the course; the station ends at it, so that inverts have the other side."""
    x, y = pen.flat(mark.at)
    turn = turn_across(pen, run, mark.station_nm - run.start_nm)
    half = pen.mm(_TICK_MM)
    ux, uy = cos(radians(turn)) * half, sin(radians(turn)) * half
    ends = (x - ux, y - uy), (x + ux, y + uy)
    pen.paper.add_line(*ends, dxfattribs={"layer": styles.STATION.name})
    words = pen.job.figures.station(mark.station_nm)
    place = (x - 1.5 * ux, y - 1.5 * uy)
    pen.text(styles.STATION, words, place, styles.NAME_MM, turn, ends_there=True)


def _draw_invert(pen: DxfPen, shot: InvertShot, turn: float) -> None:
    if shot.at is None or shot.at.level_nm is None:
        return
    is_out = shot.verdict.is_out
    level = pen.job.figures.level(round(shot.invert_nm))
    figures = {
        "LABEL": f"{level} {shot.verdict.value}" if is_out else level,
        "COLLECTOR": shot.collector_id,
        "STATION": pen.job.figures.station(shot.station_nm),
        "INVERT": plain_number(round(float(shot.invert_nm / pen.per), _DIGITS)),
        "DESIGN": plain_number(round(float(shot.design_nm / pen.per), _DIGITS)),
        "OFF": plain_number(round(float(shot.off_nm / pen.per), _DIGITS)),
        "VERDICT": shot.verdict.value,
        "ANSWER": shot.answered.text,
    }
    layer = styles.INVERT_OUT if is_out else styles.INVERT
    at = (*pen.flat(shot.at), shot.at.level_nm / pen.per)
    pen.mark(layer, "INVERT-OUT" if is_out else "INVERT", at, figures, turn)
