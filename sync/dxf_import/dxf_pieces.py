"""Entities of a drawing as points in whole nanometres, arcs cut into chords."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Sequence
from fractions import Fraction
from math import acos, atan, ceil, cos, hypot, isfinite, pi, radians, sin, tan
from typing import Any

from models.readers.outlines.problems import FileProblem
from models.science.shapes.rings import PointNm

MOST_POINTS = 100_000
_FARTHEST_NM = 2**52
_MOST_CHORDS = 4_096
Vertex = tuple[float, float, float]
"""x and y in the drawing's unit, and the bulge of the side that begins there."""


class EntityCollector:
    """Collects entities: closed rings, open pieces, faults, and kinds that are not read."""

    def __init__(self, scale: Fraction, chord_error_nm: int) -> None:
        self.scale = scale
        self.chord_error = float(max(chord_error_nm, 1) / scale)
        self.closed: list[tuple[PointNm, ...]] = []
        self.open: list[tuple[PointNm, ...]] = []
        self.points: list[PointNm] = []
        self.problems: list[FileProblem] = []
        self.left_out: Counter[str] = Counter()
        self._count = 0

    def take(self, entity: Any) -> None:
        """Read one entity, if it is of a kind that is read."""
        kind = entity.dxftype()
        read = _READERS.get(kind)
        place = f"{kind} with handle {entity.dxf.get('handle', 'none')}"
        try:
            vertices = read(entity) if read else None
        except Exception:  # the library finds out now what a broken entity lacks
            self.problems.append(FileProblem(place, "less than its kind needs", "draw it anew"))
            return
        if vertices is None:
            self.left_out[kind] += 1
            return
        points, is_closed = vertices
        if not points or not all(isfinite(n) for vertex in points for n in vertex):
            met = "a coordinate that is no finite number" if points else "no point"
            self.problems.append(FileProblem(place, met, "draw it anew"))
            return
        self._keep(place, kind, points, is_closed)

    def _keep(self, place: str, kind: str, vertices: Sequence[Vertex], is_closed: bool) -> None:
        """Turn vertices into whole nanometres and file them."""
        flat = flatten_bulges(vertices, is_closed, self.chord_error)
        self._count += len(flat)
        if self._count > MOST_POINTS:
            if self._count - len(flat) <= MOST_POINTS:
                met = f"more than {MOST_POINTS} points"
                self.problems.append(FileProblem(place, met, "simplify the drawing"))
            return
        points = [
            PointNm(round(Fraction(x) * self.scale), round(Fraction(y) * self.scale))
            for x, y in flat
        ]
        if max(abs(c) for point in points for c in point) > _FARTHEST_NM:
            met = "a point farther than 4,500 km from the origin"
            self.problems.append(FileProblem(place, met, "look whether the unit is right"))
        elif kind == "POINT":
            self.points += points
        elif is_closed or (len(points) > 2 and points[0] == points[-1]):
            self.closed.append(tuple(points if points[0] != points[-1] else points[:-1]))
        elif len(set(points)) > 1:
            self.open.append(tuple(points))
        else:
            self.left_out[f"{kind} of no length"] += 1


def flatten_bulges(
    vertices: Sequence[Vertex], is_closed: bool, chord_error: float
) -> list[tuple[float, float]]:
    """Points of a run of sides, each bulging one cut into chords on its arc."""
    flat: list[tuple[float, float]] = []
    followers = [*vertices[1:], vertices[0]] if is_closed else vertices[1:]
    for (x, y, bulge), (to_x, to_y, _) in zip(vertices, followers, strict=False):
        flat.append((x, y))
        if bulge and (x, y) != (to_x, to_y):
            flat += _on_arc((x, y), (to_x, to_y), bulge, chord_error)
    if not is_closed:
        flat.append(vertices[-1][:2])
    return flat


def _on_arc(
    start: tuple[float, float], end: tuple[float, float], bulge: float, chord_error: float
) -> list[tuple[float, float]]:
    """Points between the ends of an arc; the bulge is the tangent of a quarter of its angle."""
    angle = 4 * atan(bulge)
    half_x, half_y = (end[0] - start[0]) / 2, (end[1] - start[1]) / 2
    radius = hypot(half_x, half_y) * (1 + bulge * bulge) / (2 * abs(bulge))
    rise = (1 - bulge * bulge) / (2 * bulge)  # from the chord to the centre, in half chords
    centre_x = start[0] + half_x - half_y * rise
    centre_y = start[1] + half_y + half_x * rise
    step = 2 * acos(max(1 - chord_error / radius, 0.0)) if chord_error < radius else pi / 2
    count = min(max(ceil(abs(angle) / max(step, 1e-9)), 2), _MOST_CHORDS)
    out_x, out_y = start[0] - centre_x, start[1] - centre_y
    turns = [angle * number / count for number in range(1, count)]
    return [
        (
            centre_x + out_x * cos(turn) - out_y * sin(turn),
            centre_y + out_x * sin(turn) + out_y * cos(turn),
        )
        for turn in turns
    ]


_Read = tuple[list[Vertex], bool] | None


def _facing(entity: Any) -> int:
    """1 for an entity drawn facing up, -1 facing down (its x and bulges turned), 0 aslant."""
    x, y, z = entity.dxf.get("extrusion", (0, 0, 1))
    return 0 if abs(x) > 1e-9 or abs(y) > 1e-9 else (1 if z > 0 else -1)


def _light_polyline(entity: Any) -> _Read:
    """A polyline of one plane."""
    facing = _facing(entity)
    if not facing:
        return None
    vertices = [(facing * x, y, facing * bulge) for x, y, bulge in entity.get_points("xyb")]
    return vertices, bool(entity.closed)


def _old_polyline(entity: Any) -> _Read:
    """A polyline of the old form, flat or in space; meshes are left out."""
    if not (entity.is_2d_polyline or entity.is_3d_polyline):
        return None
    facing = _facing(entity) if entity.is_2d_polyline else 1
    if not facing:
        return None
    vertices = [
        (facing * v.dxf.location.x, v.dxf.location.y, facing * v.dxf.get("bulge", 0.0))
        for v in entity.vertices
        if not v.dxf.get("flags", 0) & 16  # the frame of a spline is not its course
    ]
    return vertices, bool(entity.is_closed)


def _line(entity: Any) -> _Read:
    """A single straight line."""
    start, end = entity.dxf.start, entity.dxf.end
    return [(start.x, start.y, 0.0), (end.x, end.y, 0.0)], False


def _point(entity: Any) -> _Read:
    """A single point, such as a head."""
    place = entity.dxf.location
    return [(place.x, place.y, 0.0)], False


def _arc(entity: Any) -> _Read:
    """An arc, counterclockwise from its start as its plane is seen."""
    facing = _facing(entity)
    if not facing or entity.dxf.radius <= 0:
        return None
    start = radians(entity.dxf.start_angle % 360)
    turn = radians((entity.dxf.end_angle - entity.dxf.start_angle) % 360) or 2 * pi
    centre, radius = entity.dxf.center, entity.dxf.radius
    bulge = tan(turn / 8)  # in two halves, so that a full turn has a bulge
    places = [start, start + turn / 2, start + turn]
    return [
        (facing * (centre.x + radius * cos(a)), centre.y + radius * sin(a), facing * bulge)
        for a in places
    ], False


def _circle(entity: Any) -> _Read:
    """A full circle, as two halves."""
    if not _facing(entity) or entity.dxf.radius <= 0:
        return None
    centre, radius = entity.dxf.center, entity.dxf.radius
    x = _facing(entity) * centre.x
    return [(x + radius, centre.y, 1.0), (x - radius, centre.y, 1.0)], True


_READERS: dict[str, Callable[[Any], _Read]] = {
    "LWPOLYLINE": _light_polyline,
    "POLYLINE": _old_polyline,
    "LINE": _line,
    "ARC": _arc,
    "CIRCLE": _circle,
    "POINT": _point,
}
