"""The plan's lines on the graphics chip: made once, then only a matrix and a few figures move.

One mesh a style in world units. A small program on the chip gives every line its
width in pixels at any zoom, soft edges, and its dashes, so that nothing is made
anew while a finger pulls or two enlarge.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from kivy.graphics import (
    ChangeState,
    Color,
    Mesh,
    PopMatrix,
    PushMatrix,
    RenderContext,
    Scale,
    Translate,
)

from crewapp.kit.drawing.plan_mesh import (
    FORM,
    FRAGMENT,
    VERTEX,
    Made,
    Vertices,
    area_of,
    crosses_at,
    meshes_of,
    middle_of,
    squares_at,
)
from crewapp.kit.drawing.plan_picture import LineState, PlanLine, PlanPicture, Point, Window
from crewapp.kit.look.palette import BLUE, DARK, FEINT, INK, OXIDE, PAGE
from crewapp.kit.look.theme import px, rgba

NO_EDGE_PX = 1e6
MARK_MM = 4.5
UNEVEN = 2.399963  # no small multiple of it is near a whole number of dashes
LEAST_APART_PX = 2.4  # lines nearer than this are thinned out


@dataclass(frozen=True, slots=True)
class Style:
    """How one kind of line is drawn; dashes in millimetres on the glass, 0 for none.

    ``core`` is the share of the width that stays white along its middle.
    """

    colour: str
    weight_mm: float
    dash_on_mm: float = 0.0
    dash_off_mm: float = 0.0
    core: float = 0.0


# The last is drawn on top.
STYLES: dict[LineState, Style] = {
    LineState.PLANNED: Style(DARK, 0.3, 2.4, 1.4),
    LineState.DONE: Style(INK, 0.5),
    LineState.TODAY: Style(BLUE, 1.1),
    LineState.OUT: Style(OXIDE, 1.1, 4.0, 1.0),
    LineState.COLLECTOR: Style(INK, 1.8, core=0.45),
    LineState.SELECTED: Style(INK, 1.8),
}
OUTLINE, RING = Style(INK, 0.8), Style(INK, 0.35)
HEAVIEST_MM, INKED_SHARE = 1.1, 0.6  # the widest of many lines, and of the room between them
KEPT_WIDE = (LineState.COLLECTOR, LineState.SELECTED)  # few enough not to run together


class _Knob(NamedTuple):
    """What a zoom sets for one style: its state on the chip, and its level among the lines."""

    state: ChangeState
    style: Style
    is_kept: bool
    level: int


class PlanInk:
    """Instructions that draw a plan in ``context``; ``aim`` moves it under a window."""

    def __init__(self, picture: PlanPicture) -> None:
        left, low, right, top = picture.bounds()
        self.origin = ((left + right) / 2, (low + top) / 2)
        self.picture = picture
        self._knobs: list[_Knob] = []
        self.context = RenderContext(
            use_parent_projection=True, use_parent_modelview=True, use_parent_frag_modelview=True
        )
        self.context.shader.vs, self.context.shader.fs = VERTEX, FRAGMENT
        with self.context:
            PushMatrix()
            self._middle = Translate(0, 0)
            self._scale = Scale(1, 1, 1)
            self._centre = Translate(0, 0)
            self._draw()
            PopMatrix()

    def _draw(self) -> None:
        """Lay down areas, edges, lines and marks, the lowest first."""
        picture = self.picture
        for ring in picture.keep_outs:
            self._put(FEINT_AREA, False, [], area_of([self._near(point) for point in ring]))
        for ring in picture.keep_outs:
            self._put(RING, True, self._ring(ring))
        by_state = _sorted(picture.lines)
        for state, style in STYLES.items():
            if state is LineState.COLLECTOR and len(picture.outline) > 1:
                self._put(OUTLINE, True, self._ring(picture.outline))
            for level in sorted({level for at, level in by_state if at is state}):
                lines = by_state[(state, level)]
                # Dashes begin anywhere, else those of a whole field would stand in columns.
                quads = [
                    quad
                    for number, line in enumerate(lines)
                    for quad in self._quads(line.points, 0.0, number * UNEVEN)
                ]
                self._put(style, state in KEPT_WIDE, quads, level=level)
        out = by_state.get((LineState.OUT, 0), [])
        middles = [self._near(middle_of(line.points)) for line in out]
        self._put(Style(OXIDE, MARK_MM), True, [], squares_at(middles))
        self._put(Style(PAGE, MARK_MM), True, [], crosses_at(middles))

    def _near(self, point: Point) -> Point:
        """A world point from the plan's middle: small figures keep their places exact."""
        return point[0] - self.origin[0], point[1] - self.origin[1]

    def _ring(self, ring: Sequence[Point]) -> list[Vertices]:
        return list(self._quads([*ring, ring[0]], 1.0))

    def _quads(self, points: Sequence[Point], cap: float, run: float = 0.0) -> Iterator[Vertices]:
        """Give four corners for each piece of a line; ``cap`` 1 lets them meet round corners.

        ``run`` is where its dashes begin to be counted.
        """
        for start, end in zip(points, points[1:], strict=False):
            length = math.dist(start, end)
            if length == 0:
                continue
            nx, ny = -(end[1] - start[1]) / length, (end[0] - start[0]) / length
            (ax, ay), (bx, by), stop = self._near(start), self._near(end), run + length
            yield [
                *(ax, ay, nx, ny, 1.0, -cap, run),
                *(bx, by, nx, ny, 1.0, cap, stop),
                *(bx, by, nx, ny, -1.0, cap, stop),
                *(ax, ay, nx, ny, -1.0, -cap, run),
            ]
            run = stop

    def _put(
        self,
        style: Style,
        is_kept: bool,
        quads: list[Vertices],
        areas: Iterable[Made] = (),
        level: int = 0,
    ) -> None:
        """Put the meshes of one style down, with the figures that its zoom sets."""
        made = [*meshes_of(quads), *areas]
        if not made:
            return
        knob = ChangeState(half_w=0.0)
        self._knobs.append(_Knob(knob, style, is_kept, level))
        Color(*rgba(style.colour))
        for vertices, indices, mode in made:
            Mesh(fmt=FORM, vertices=vertices, indices=indices, mode=mode)

    def aim(self, window: Window, middle: Point, size: Point) -> None:
        """Show the world as a window sees it, in a box of pixels round ``middle``.

        What lies outside the box is left out by the chip: a stencil was measured at two
        fifths of a frame, and a scissor cuts elsewhere in a picture that is exported.
        """
        self._middle.xy = middle
        self._scale.xyz = (window.scale, window.scale, 1)
        self._centre.xy = (
            self.origin[0] - window.centre[0],
            self.origin[1] - window.centre[1],
        )
        low = self._near(window.world((0.0, 0.0), (size[0] / 2, size[1] / 2)))
        high = self._near(window.world(size, (size[0] / 2, size[1] / 2)))
        self.context["clip"] = [*low, *high]
        apart_px = self.picture.spacing * window.scale
        for knob in self._knobs:
            knob.state.changes = _figures(knob, window.scale, apart_px)


FEINT_AREA = Style(FEINT, 0.0)


def line_stride(picture: PlanPicture, scale: float) -> int:
    """Return 1 where every line is drawn, else of how many one is: more would be a grey wall."""
    apart_px = picture.spacing * scale
    return next((1 << (2 - level) for level in (2, 1) if _is_seen(level, apart_px)), 4)


def _is_seen(level: int, apart_px: float) -> bool:
    """Whether the lines of a level have room between the coarser levels' lines."""
    return level == 0 or not apart_px or apart_px * (1 << (2 - level)) >= LEAST_APART_PX


def _sorted(lines: Sequence[PlanLine]) -> dict[tuple[LineState, int], list[PlanLine]]:
    """Sort lines by state and level; those that need a look are always drawn."""
    found: dict[tuple[LineState, int], list[PlanLine]] = {}
    for number, line in enumerate(lines):
        is_many = line.state in (LineState.PLANNED, LineState.DONE, LineState.TODAY)
        level = (0, 2, 1, 2)[number % 4] if is_many else 0
        found.setdefault((line.state, level), []).append(line)
    return found


def _figures(knob: _Knob, scale: float, apart_px: float) -> dict[str, float]:
    """Return a style's figures at a zoom: never so wide that neighbours run together."""
    style, is_kept = knob.style, knob.is_kept
    if not is_kept and not _is_seen(knob.level, apart_px):
        return {"half_w": 0.0, "soft_w": 0.0}
    wide_px = px(style.weight_mm)
    if apart_px and not is_kept:
        wide_px = min(wide_px, max(apart_px * INKED_SHARE * style.weight_mm / HEAVIEST_MM, 1.0))
    half_px = max(wide_px / 2, 0.5)
    every = style.dash_on_mm + style.dash_off_mm
    is_mark = style.weight_mm == MARK_MM
    return {
        "half_w": half_px / scale,
        "soft_w": (0.0 if is_mark else 0.5) / scale,
        "half_px": half_px,
        "edge_px": NO_EDGE_PX if is_mark or not style.weight_mm else half_px,
        "core_px": half_px * style.core,
        "dash_on": px(style.dash_on_mm) / scale,
        "dash_every": px(every) / scale,
    }
