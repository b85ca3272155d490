"""A collector as primitives: its profile, and under it how far each shot lies off design.

Both strips share one station axis. The profile is stretched upward by a stated round
number; a tolerance of a hundredth of a foot would still be thinner than its line, so the
lower strip shows the shots less the design, two tolerances high either way.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

from models.units.job_units import Figures
from models.units.spec import FOOT_NM
from sync.papers.drawing.label_room import Room
from sync.papers.drawing.primitives import (
    Anchor,
    Dash,
    Drawing,
    Line,
    Mark,
    Point,
    Polygon,
    Primitive,
    Shape,
    Text,
    Tone,
    text_width_mm,
)
from sync.papers.drawing.round_steps import round_step
from sync.papers.drawing.station_axis import draw_stations

EXAGGERATIONS = (1, 2, 5, 10, 20, 25, 50, 100)
PROFILE_SHARE = 0.56
BAND_TOLERANCES = 2
_MM_NM = 1_000_000
_LEVEL_STEPS_US = tuple(count * FOOT_NM // 100 for count in (1, 2, 5, 10, 20, 50, 100, 200, 500))
_LEVEL_STEPS_SI = tuple(count * _MM_NM for count in (5, 10, 20, 50, 100, 200, 500, 1000, 2000))
_MARGIN_NM = 3 * _MM_NM


@dataclass(frozen=True, slots=True)
class ProfileShot:
    """An invert as it lies; ``off_nm`` is positive where it lies high."""

    station_nm: int
    level_nm: int
    off_nm: int
    is_out: bool
    is_today: bool = True


@dataclass(frozen=True, slots=True)
class ProfileCanvas:
    """Contents of a profile; ``flows_left`` when water runs toward smaller stations."""

    name: str
    from_nm: int
    to_nm: int
    design_nm: tuple[int, int]
    high_nm: int
    low_nm: int
    shot_every_nm: int
    shots: tuple[ProfileShot, ...]
    flows_left: bool
    figures: Figures
    ground_nm: tuple[tuple[int, int], ...] = ()

    def design_at(self, station_nm: int) -> float:
        """Design invert at a station, straight between its ends."""
        run = self.to_nm - self.from_nm
        share = (station_nm - self.from_nm) / run if run else 0.0
        return self.design_nm[0] + share * (self.design_nm[1] - self.design_nm[0])


@dataclass(frozen=True, slots=True)
class Scales:
    """How stations and levels become millimetres; the stretch is the ratio of the two."""

    left_mm: float
    from_nm: int
    mm_per_station_nm: float
    middle_mm: float
    middle_nm: float
    mm_per_level_nm: float

    def x(self, station_nm: float) -> float:
        """Place of a station along the drawing, in mm."""
        return self.left_mm + (station_nm - self.from_nm) * self.mm_per_station_nm

    def y(self, level_nm: float) -> float:
        """Place of a level up the drawing, in mm."""
        return self.middle_mm + (level_nm - self.middle_nm) * self.mm_per_level_nm

    @property
    def exaggeration(self) -> float:
        """How many times heights are drawn larger than lengths."""
        return self.mm_per_level_nm / self.mm_per_station_nm


@dataclass(frozen=True, slots=True)
class Strips:
    """Where things go: the plot between ``left`` and ``right``, two strips above each other."""

    left: float
    right: float
    low: tuple[float, float]
    high: tuple[float, float]
    cap: float


def draw_profile(
    view: ProfileCanvas, width_mm: float, height_mm: float, cap_mm: float = 1.8
) -> Drawing:
    """Draw a profile and its deviations into a box: the same list for paper and glass."""
    strips = _strips(view, width_mm, height_mm, cap_mm)
    scales = scales_of(view, strips.left, strips.right, strips.high)
    room = Room()
    items = [
        *_axes(view, scales, strips),
        *_design(view, scales),
        *_ground(view, scales, strips),
        *_laid(view, scales, strips, room),
        *_captions(view, scales, strips),
        *draw_deviation(view, scales, strips, room),
        *draw_stations(
            view.from_nm, view.to_nm, scales.x, view.figures, (0.3 * cap_mm, strips.low[0]), cap_mm
        ),
    ]
    return Drawing(width_mm, height_mm, tuple(items))


def _strips(view: ProfileCanvas, width_mm: float, height_mm: float, cap: float) -> Strips:
    levels = [view.figures.level(level) for level in view.design_nm]
    left = max(text_width_mm(text, cap) for text in levels) + 1.5
    label = text_width_mm(view.figures.station(view.to_nm), cap)
    foot, gap, head = 2.2 * cap, 2.4 * cap, 2.0 * cap
    tall = height_mm - foot - gap - head
    low_top = foot + tall * (1 - PROFILE_SHARE)
    high = (low_top + gap, height_mm - head)
    return Strips(max(left, label / 2), width_mm - label / 2, (foot, low_top), high, cap)


def scales_of(
    view: ProfileCanvas, left_mm: float, right_mm: float, strip: tuple[float, float]
) -> Scales:
    """Choose the largest stretch of the list at which every level fits into the strip."""
    levels = [*view.design_nm, *(shot.level_nm for shot in view.shots)]
    spread = max(levels) - min(levels) + 2 * _MARGIN_NM
    run = max(view.to_nm - view.from_nm, 1)
    across, tall = (right_mm - left_mm) / run, strip[1] - strip[0]
    fitting = [times for times in EXAGGERATIONS if spread * across * times <= tall]
    if not fitting:  # steeper than the strip is tall: draw it shorter, unstretched
        across = tall / spread
    times = fitting[-1] if fitting else 1
    middle = (max(levels) + min(levels)) / 2
    return Scales(left_mm, view.from_nm, across, sum(strip) / 2, middle, across * times)


def _axes(view: ProfileCanvas, scales: Scales, strips: Strips) -> Iterator[Primitive]:
    """Frame of the profile with levels at round steps."""
    bottom, top = strips.high
    yield Line((strips.left, bottom), (strips.left, top), 0.25, Tone.RULE)
    yield Line((strips.left, bottom), (strips.right, bottom), 0.25, Tone.RULE)
    steps = _LEVEL_STEPS_US if view.figures.is_us else _LEVEL_STEPS_SI
    step = round_step(steps, 2.4 * strips.cap / scales.mm_per_level_nm)
    least = scales.middle_nm + (bottom - scales.middle_mm) / scales.mm_per_level_nm
    level = (int(least) // step + 1) * step
    while (y := scales.y(level)) <= top - 0.4 * strips.cap:
        if y >= bottom + 0.4 * strips.cap:
            yield Line((strips.left - 0.8, y), (strips.left, y), 0.25, Tone.RULE)
            text = view.figures.level(level)
            yield Text((strips.left - 1.2, y - strips.cap / 2), text, strips.cap, Anchor.RIGHT)
        level += step


def _design(view: ProfileCanvas, scales: Scales) -> Iterator[Primitive]:
    start = (scales.x(view.from_nm), scales.y(view.design_nm[0]))
    end = (scales.x(view.to_nm), scales.y(view.design_nm[1]))
    yield Line(start, end, 0.25, Tone.PLANNED, Dash.DASHED)


def _ground(view: ProfileCanvas, scales: Scales, strips: Strips) -> Iterator[Primitive]:
    """Finished ground, where all of it fits above the pipe."""
    points = [(scales.x(at), scales.y(level)) for at, level in view.ground_nm]
    if points and max(y for _, y in points) <= strips.high[1]:
        for one, other in pairwise(points):
            yield Line(one, other, 0.25, Tone.RULE, Dash.DOTTED)


def joinable_pairs(view: ProfileCanvas) -> Iterator[tuple[ProfileShot, ProfileShot]]:
    """Neighbours near enough to be joined; a longer gap stays a gap."""
    for one, other in pairwise(view.shots):
        if other.station_nm - one.station_nm <= view.shot_every_nm:
            yield one, other


def is_adverse(view: ProfileCanvas, one: ProfileShot, other: ProfileShot) -> bool:
    """Whether the pipe between two shots falls against the flow."""
    rise = other.level_nm - one.level_nm
    return rise < 0 if view.flows_left else rise > 0


def _laid(view: ProfileCanvas, scales: Scales, strips: Strips, room: Room) -> Iterator[Primitive]:
    """Pipe as shot, straight between neighbours; reaches that fall the wrong way are named."""
    places = {shot: (scales.x(shot.station_nm), scales.y(shot.level_nm)) for shot in view.shots}
    for at in places.values():
        room.take(at, 1.6, 1.6)
    for one, other in joinable_pairs(view):
        room.take_line(places[one], places[other], 1.0)
    for one, other in joinable_pairs(view):
        adverse = is_adverse(view, one, other)
        weight, tone = (1.0, Tone.OUT) if adverse else (0.5, Tone.INK)
        yield Line(places[one], places[other], weight, tone)
        if adverse:
            middle = (places[one][0] + places[other][0]) / 2, places[other][1]
            yield from room.place("adverse", middle, strips.cap, strips.high, Tone.OUT)
    for shot, at in places.items():
        yield shot_mark(shot, at)


def shot_mark(shot: ProfileShot, at: Point) -> Mark:
    """Mark of a shot: crossed where it is out, open where it is older than the day drawn."""
    if shot.is_out:
        return Mark(at, Shape.CROSSED_SQUARE, 1.7, Tone.OUT)
    return Mark(at, Shape.DISC, 1.3, Tone.INK, is_filled=shot.is_today)


def _captions(view: ProfileCanvas, scales: Scales, strips: Strips) -> Iterator[Primitive]:
    """What the strips show, at which stretch, and which way water runs."""
    cap = strips.cap
    head = strips.high[1] + 0.6 * cap
    title = f"Profile, heights x {scales.exaggeration:.0f}"
    yield Text((0, head), title, cap, is_bold=True)
    y, long = head + cap / 2, 5 * cap
    left, right = strips.right - long, strips.right
    tip, shape = (left, Shape.ARROW_LEFT) if view.flows_left else (right, Shape.ARROW_RIGHT)
    yield Line((left, y), (right, y), 0.35)
    yield Mark((tip, y), shape, cap)
    words = left - 1.2 * cap
    if words - text_width_mm("flow", cap) > text_width_mm(title, cap, True):
        yield Text((words, head), "flow", cap, Anchor.RIGHT)
    unit = "hundredths of a foot" if view.figures.is_us else "mm"
    text = f"Shots less design, {unit}"
    if text_width_mm(text, cap, True) > strips.right:
        text = "Off design, 0.01 ft" if view.figures.is_us else "Off design, mm"
    yield Text((0, strips.low[1] + 0.6 * cap), text, cap, is_bold=True)


def draw_deviation(
    view: ProfileCanvas, scales: Scales, strips: Strips, room: Room
) -> Iterator[Primitive]:
    """Shots less design: band shaded, zero dashed, points beyond the strip held at its edge."""
    bottom, top = strips.low
    middle, most = (bottom + top) / 2, BAND_TOLERANCES * max(view.high_nm, view.low_nm, 1)
    per_nm = (top - bottom) / 2 / most
    yield from _band(view, strips, middle, per_nm)
    places = {
        shot: (scales.x(shot.station_nm), middle + per_nm * max(-most, min(most, shot.off_nm)))
        for shot in view.shots
    }
    for one, other in joinable_pairs(view):
        yield Line(places[one], places[other], 0.5)
        room.take_line(places[one], places[other], 0.6)
    for at in places.values():
        room.take(at, 1.6, 1.6)
    for shot, at in places.items():
        yield _held(shot, at, most)
    for shot, at in places.items():
        if shot.is_out:
            text = _hundredths(shot.off_nm, view.figures)
            yield from room.place(text, at, strips.cap, strips.low, Tone.OUT, is_needed=True)


def _held(shot: ProfileShot, at: Point, most: int) -> Mark:
    if abs(shot.off_nm) <= most:
        return shot_mark(shot, at)
    shape = Shape.ARROW_UP if shot.off_nm > 0 else Shape.ARROW_DOWN
    return Mark(at, shape, 2.0, Tone.OUT)


def _band(view: ProfileCanvas, strips: Strips, middle: float, per_nm: float) -> Iterator[Primitive]:
    left, right = strips.left, strips.right
    low, high = middle - view.low_nm * per_nm, middle + view.high_nm * per_nm
    yield Polygon(((left, low), (right, low), (right, high), (left, high)), Tone.BAND)
    yield Line((left, middle), (right, middle), 0.25, Tone.PLANNED, Dash.DASHED)
    bottom, top = strips.low
    yield Line((left, bottom), (left, top), 0.25, Tone.RULE)
    yield Line((left, bottom), (right, bottom), 0.25, Tone.RULE)
    marks = [(high, view.high_nm), (middle, 0), (low, -view.low_nm)]
    if high - middle < 1.2 * strips.cap or middle - low < 1.2 * strips.cap:
        marks = [(high, view.high_nm), (low, -view.low_nm)]
    for y, off in marks:
        text = _hundredths(off, view.figures) if off else "0"
        yield Text((left - 1.2, y - strips.cap / 2), text, strips.cap, Anchor.RIGHT)


def _hundredths(off_nm: int, figures: Figures) -> str:
    """Height off design as a signed whole number of hundredths of a foot, or of mm."""
    return f"{round(off_nm * 100 / FOOT_NM if figures.is_us else off_nm / _MM_NM):+d}"
