"""A collector as laid, for a sheet of its own: profile with ground, deviations, figures below.

Three strips stand on one axis of stations drawn to a scale of the trade: the pipe under its
ground at a stated stretch, the shots less the design, and the figures of every shot.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

from models.units.spec import FOOT_NM
from sync.papers.asbuilt.pages.profile_rows import FigureRow, draw_rows, rows_height
from sync.papers.asbuilt.plans.paper_sizes import Scale, trade_scales
from sync.papers.drawing.label_room import Room
from sync.papers.drawing.primitives import (
    Anchor,
    Dash,
    Drawing,
    Line,
    Mark,
    Polygon,
    Primitive,
    Shape,
    Text,
    Tone,
    text_width_mm,
)
from sync.papers.drawing.profile import (
    EXAGGERATIONS,
    ProfileCanvas,
    Scales,
    Strips,
    draw_deviation,
    is_adverse,
    joinable_pairs,
    shot_mark,
)
from sync.papers.drawing.round_steps import round_step
from sync.papers.drawing.station_axis import draw_stations

CAP_MM = 1.9
_LEFT_MM, _RIGHT_MM = 17.0, 9.0
_PROFILE_SHARE = 0.64
_MM_NM = 1_000_000
_STEPS_US = tuple(count * FOOT_NM // 100 for count in (5, 10, 20, 50, 100, 200, 500, 1000))
_STEPS_SI = tuple(count * _MM_NM for count in (10, 20, 50, 100, 200, 500, 1000, 2000, 5000))


@dataclass(frozen=True, slots=True)
class Low:
    """A belly: where it begins and ends, its deepest station, the level water stands at."""

    from_nm: int
    to_nm: int
    deepest_nm: int
    water_nm: float
    words: str


@dataclass(frozen=True, slots=True)
class ProfileFacts:
    """Facts that a profile sheet draws beside the shots."""

    view: ProfileCanvas
    bore_nm: int
    lows: tuple[Low, ...]
    joints: tuple[tuple[int, str], ...]
    rows: tuple[FigureRow, ...]


@dataclass(frozen=True, slots=True)
class ProfileDrawing:
    """A drawn profile with the scale along it and how many times heights are stretched."""

    drawing: Drawing
    scale: Scale
    stretch: int


def draw_profile_sheet(facts: ProfileFacts, width_mm: float, height_mm: float) -> ProfileDrawing:
    """Draw all three strips into a box."""
    view = facts.view
    scale = scale_along(view, width_mm - _LEFT_MM - _RIGHT_MM)
    strips, rows_top = _strips(facts, width_mm, height_mm, scale)
    scales, stretch = _scales(facts, strips, scale)
    room = Room()
    items: list[Primitive] = [
        *_levels(facts, scales, strips),
        *_ground(facts, scales),
        *_lows(facts, scales),
        *_design(facts, scales),
        *_pipe(facts, scales, strips, room),
        *_low_words(facts, scales, strips, room),
        *_joints(facts, scales, strips, room),
        *_captions(facts, strips, f"Profile: {scale.words} along, heights x {stretch}"),
        *draw_deviation(view, scales, strips, Room()),
        *draw_stations(
            view.from_nm,
            view.to_nm,
            scales.x,
            view.figures,
            (strips.low[0] - 2.2 * CAP_MM, strips.low[0]),
            CAP_MM,
        ),
        *draw_rows(facts.rows, scales.x, rows_top, strips.right),
    ]
    return ProfileDrawing(Drawing(width_mm, height_mm, tuple(items)), scale, stretch)


def scale_along(view: ProfileCanvas, room_mm: float) -> Scale:
    """Largest scale of the trade at which the whole collector fits."""
    run_nm = max(view.to_nm - view.from_nm, 1)
    scales = trade_scales(view.figures.is_us)
    fitting = (scale for scale in scales if run_nm * scale.mm_per_nm <= room_mm)
    found = next(fitting, None)
    while found is None:
        last = scales[-1]
        scales = (Scale(last.denominator * 2, last.is_us),)
        found = scales[0] if run_nm * scales[0].mm_per_nm <= room_mm else None
    return found


def used_mm(view: ProfileCanvas, width_mm: float) -> float:
    """Width that a profile takes up of a box, since it is drawn to a scale of the trade."""
    scale = scale_along(view, width_mm - _LEFT_MM - _RIGHT_MM)
    return _LEFT_MM + max(view.to_nm - view.from_nm, 1) * scale.mm_per_nm + _RIGHT_MM


def _strips(
    facts: ProfileFacts, width_mm: float, height_mm: float, scale: Scale
) -> tuple[Strips, float]:
    """Strips from the top, and the height that the rows of figures hang from."""
    rows_top = rows_height(facts.rows)
    foot = rows_top + 4.2 * CAP_MM
    gap, head = 2.6 * CAP_MM, 2.4 * CAP_MM
    tall = height_mm - foot - gap - head
    low_top = foot + tall * (1 - _PROFILE_SHARE)
    right = _LEFT_MM + (facts.view.to_nm - facts.view.from_nm) * scale.mm_per_nm
    right = min(max(right, _LEFT_MM + 40.0), width_mm - 1.0)
    return (
        Strips(_LEFT_MM, right, (foot, low_top), (low_top + gap, height_mm - head), CAP_MM),
        rows_top,
    )


def _scales(facts: ProfileFacts, strips: Strips, scale: Scale) -> tuple[Scales, int]:
    """The largest stretch of the list at which pipe and ground fit into their strip."""
    view = facts.view
    levels = [*view.design_nm, *(shot.level_nm for shot in view.shots)]
    levels += [level + facts.bore_nm for level in levels]
    levels += [level for _, level in view.ground_nm]
    spread = max(levels) - min(levels) or 1
    bottom, top = strips.high
    room = top - bottom - 6.0
    fitting = [times for times in EXAGGERATIONS if spread * scale.mm_per_nm * times <= room]
    times = fitting[-1] if fitting else 1
    middle = (max(levels) + min(levels)) / 2
    centre = (bottom + top) / 2
    across = scale.mm_per_nm
    return Scales(strips.left, view.from_nm, across, centre, middle, across * times), times


def _levels(facts: ProfileFacts, scales: Scales, strips: Strips) -> Iterator[Primitive]:
    """Levels at round steps, a thin line across at each."""
    bottom, top = strips.high
    yield Line((strips.left, bottom), (strips.left, top), 0.25, Tone.RULE)
    yield Line((strips.left, bottom), (strips.right, bottom), 0.25, Tone.RULE)
    steps = _STEPS_US if facts.view.figures.is_us else _STEPS_SI
    step = round_step(steps, 3.0 * CAP_MM / scales.mm_per_level_nm)
    least = scales.middle_nm + (bottom - scales.middle_mm) / scales.mm_per_level_nm
    level = (int(least) // step + 1) * step
    while (y := scales.y(level)) <= top - 0.4 * CAP_MM:
        if y >= bottom + 0.4 * CAP_MM:
            yield Line((strips.left, y), (strips.right, y), 0.1, Tone.RULE, Dash.DOTTED)
            words = facts.view.figures.level(level)
            yield Text((strips.left - 1.2, y - CAP_MM / 2), words, CAP_MM, Anchor.RIGHT)
        level += step


def _ground(facts: ProfileFacts, scales: Scales) -> Iterator[Primitive]:
    """Finished ground, with short strokes under it as a section is drawn."""
    points = [(scales.x(at), scales.y(level)) for at, level in facts.view.ground_nm]
    for start, end in pairwise(points):
        yield Line(start, end, 0.6, Tone.RULE)
        count = int((end[0] - start[0]) // 9.0)
        for number in range(count):
            share = (number + 0.5) / count
            x, y = start[0] + share * (end[0] - start[0]), start[1] + share * (end[1] - start[1])
            yield Line((x, y), (x - 1.3, y - 1.3), 0.25, Tone.RULE)


def _design(facts: ProfileFacts, scales: Scales) -> Iterator[Primitive]:
    view = facts.view
    start = (scales.x(view.from_nm), scales.y(view.design_nm[0]))
    end = (scales.x(view.to_nm), scales.y(view.design_nm[1]))
    yield Line(start, end, 0.3, Tone.PLANNED, Dash.DASHED)


def _lows(facts: ProfileFacts, scales: Scales) -> Iterator[Primitive]:
    """Water that a belly holds, shaded up to its sill."""
    for low in facts.lows:
        inside = [s for s in facts.view.shots if low.from_nm <= s.station_nm <= low.to_nm]
        y = scales.y(low.water_nm)
        bed = [(scales.x(shot.station_nm), min(scales.y(shot.level_nm), y)) for shot in inside]
        if bed:
            left, right = (scales.x(low.from_nm), y), (scales.x(low.to_nm), y)
            yield Polygon((left, *bed, right), Tone.BAND)
            yield Line(left, right, 0.25)


def _low_words(
    facts: ProfileFacts, scales: Scales, strips: Strips, room: Room
) -> Iterator[Primitive]:
    """What a belly is, under its deepest place where that is free."""
    for low in facts.lows:
        deepest = scales.y(low.water_nm)
        for shot in facts.view.shots:
            if shot.station_nm == low.deepest_nm:
                deepest = scales.y(shot.level_nm)
        at = (scales.x(low.deepest_nm), deepest - 4.0)
        yield from room.place(low.words, at, CAP_MM, strips.high, is_needed=True)


def _pipe(facts: ProfileFacts, scales: Scales, strips: Strips, room: Room) -> Iterator[Primitive]:
    """Invert and obvert as shot; a gap longer than shots may lie apart stays a gap."""
    view, top_mm = facts.view, facts.bore_nm * scales.mm_per_level_nm
    places = {shot: (scales.x(shot.station_nm), scales.y(shot.level_nm)) for shot in view.shots}
    for at in places.values():
        room.take(at, 1.8, 1.8)
    for one, other in joinable_pairs(view):
        start, end = places[one], places[other]
        adverse = is_adverse(view, one, other)
        yield Line(start, end, 1.1 if adverse else 0.5)
        yield Line((start[0], start[1] + top_mm), (end[0], end[1] + top_mm), 0.25)
        room.take_line(start, end, 1.0)
        if adverse:
            middle = ((start[0] + end[0]) / 2, max(start[1], end[1]))
            yield from room.place("falls the wrong way", middle, CAP_MM, strips.high)
    for shot, at in places.items():
        yield shot_mark(shot, at)


def _joints(facts: ProfileFacts, scales: Scales, strips: Strips, room: Room) -> Iterator[Primitive]:
    """Where piped slits come in: a tick over the pipe and the slit's name on end."""
    top_mm = facts.bore_nm * scales.mm_per_level_nm
    last = -100.0
    for station_nm, name in sorted(facts.joints):
        x = scales.x(station_nm)
        y = scales.y(facts.view.design_at(station_nm)) + top_mm
        yield Line((x, y), (x, y + 2.0), 0.35)
        if x - last < 1.4 * CAP_MM:
            continue
        long = text_width_mm(name, CAP_MM)
        if y + 3.0 + long < strips.high[1]:
            yield Text((x + CAP_MM / 2, y + 3.0), name, CAP_MM, angle_deg=90.0)
            room.take((x, y + 3.0 + long / 2), 1.2 * CAP_MM, long)
            last = x


def _captions(facts: ProfileFacts, strips: Strips, title: str) -> Iterator[Primitive]:
    """What each strip shows, and which way water runs."""
    view, head = facts.view, strips.high[1] + 0.9 * CAP_MM
    yield Text((0.0, head), title, CAP_MM * 1.15, is_bold=True)
    left, right = strips.right - 16.0, strips.right
    y = head + CAP_MM / 2
    tip, shape = (left, Shape.ARROW_LEFT) if view.flows_left else (right, Shape.ARROW_RIGHT)
    yield Line((left, y), (right, y), 0.4)
    yield Mark((tip, y), shape, CAP_MM * 1.1)
    yield Text((left - 2.4, head), "flow", CAP_MM, Anchor.RIGHT)
    unit = "hundredths of a foot" if view.figures.is_us else "mm"
    words = f"Inverts less design, {unit}; shaded: tolerance; crossed squares and arrows: OUT"
    yield Text((0.0, strips.low[1] + 0.9 * CAP_MM), words, CAP_MM * 1.15, is_bold=True)
