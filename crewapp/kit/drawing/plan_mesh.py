"""The small program that draws the plan's lines on the chip, and the meshes that it is fed."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from kivy.graphics.tesselator import Tesselator

from crewapp.kit.drawing.plan_picture import Point

VERTEX = """$HEADER$
attribute vec2 vNormal;
attribute vec3 vMore;
uniform float half_w;
uniform float soft_w;
uniform float half_px;
varying float from_middle;
varying float along;
varying vec2 place;
void main(void) {
    frag_color = color * vec4(1.0, 1.0, 1.0, opacity);
    tex_coord0 = vTexCoords0;
    vec2 ahead = vec2(vNormal.y, -vNormal.x);
    vec2 at = vPosition + vNormal * vMore.x * (half_w + soft_w) + ahead * vMore.y * half_w;
    from_middle = vMore.x * (half_px + 0.5);
    along = vMore.z;
    place = at;
    gl_Position = projection_mat * modelview_mat * vec4(at, 0.0, 1.0);
}
"""
FRAGMENT = """$HEADER$
uniform float edge_px;
uniform float core_px;
uniform float dash_on;
uniform float dash_every;
uniform vec4 clip;
varying float from_middle;
varying float along;
varying vec2 place;
void main(void) {
    float away = abs(from_middle);
    float cover = clamp(edge_px + 0.5 - away, 0.0, 1.0);
    if (dash_every > 0.0 && mod(along, dash_every) > dash_on) cover = 0.0;
    if (any(lessThan(place, clip.xy)) || any(greaterThan(place, clip.zw))) cover = 0.0;
    float core = clamp(core_px + 0.5 - away, 0.0, 1.0) * step(0.25, core_px);
    gl_FragColor = vec4(mix(frag_color.rgb, vec3(1.0), core), frag_color.a * cover);
}
"""
FORM = [(b"vPosition", 2, "float"), (b"vNormal", 2, "float"), (b"vMore", 3, "float")]
MOST_VERTICES = 65_000  # an index of a mesh has 16 bits
Vertices = list[float]
Made = tuple[Vertices, list[int], str]


def meshes_of(quads: list[Vertices]) -> Iterator[Made]:
    """Return as few meshes for quads as their indices allow."""
    most = MOST_VERTICES // 4
    for first in range(0, len(quads), most):
        part = quads[first : first + most]
        indices: list[int] = []
        for corner in range(0, 4 * len(part), 4):
            indices += (corner, corner + 1, corner + 2, corner, corner + 2, corner + 3)
        yield [number for quad in part for number in quad], indices, "triangles"


def area_of(ring: Sequence[Point]) -> Iterator[Made]:
    """Return triangles inside a ring; one that crosses itself has none."""
    tess = Tesselator()
    tess.add_contour([number for point in ring for number in point])
    if len(ring) < 3 or not tess.tesselate():
        return
    for flat, indices in tess.meshes:
        corners = range(0, len(flat), 4)
        vertices = [n for at in corners for n in (flat[at], flat[at + 1], 0, 0, 0, 0, 0)]
        yield vertices, indices, "triangle_fan"


def middle_of(points: Sequence[Point]) -> Point:
    """Return the place between the ends of a line."""
    (ax, ay), (bx, by) = points[0], points[-1]
    return (ax + bx) / 2, (ay + by) / 2


def squares_at(middles: list[Point]) -> Iterator[Made]:
    """Return a square at each place; its corners are shares of half its side."""
    return _shapes(middles, [[(-1, -1), (1, -1), (1, 1), (-1, 1)]])


def crosses_at(middles: list[Point]) -> Iterator[Made]:
    """Return two crossed strokes at each place."""
    a, b = 0.44, 0.62
    stroke = [(-b, -a), (-a, -b), (b, a), (a, b)]
    return _shapes(middles, [stroke, [(-x, y) for x, y in stroke]])


def _shapes(middles: list[Point], shapes: list[list[tuple[float, float]]]) -> Iterator[Made]:
    quads = [
        [number for dx, dy in shape for number in (x, y, dx, dy, 1.0, 0.0, 0.0)]
        for x, y in middles
        for shape in shapes
    ]
    return meshes_of(quads)
