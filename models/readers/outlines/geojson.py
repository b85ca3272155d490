"""Outlines, courses and points from GeoJSON (RFC 7946), projected to the local plane."""

from __future__ import annotations

from typing import Any

from models.counted import CountedNoun
from models.errors import CalculationInputError
from models.readers.outlines.geojson_positions import Position, Positions
from models.readers.outlines.json_text import read_json
from models.readers.outlines.problems import refuse_file
from models.readers.outlines.read_shapes import NamedPath, NamedPoint, PlanShapes, TracedShape
from models.science.shapes.outline import Trace
from models.science.shapes.projection import NANODEGREES, LocalProjection, to_local
from models.science.shapes.rings import PointNm

FORM = "GeoJSON"
MOST_FEATURES = 2_000
_LONGEST_NAME = 80
_DEPTHS = {
    "Point": 0,
    "MultiPoint": 1,
    "LineString": 1,
    "MultiLineString": 2,
    "Polygon": 2,
    "MultiPolygon": 3,
}
_TYPES = ", ".join([*_DEPTHS, "GeometryCollection"])


def read_geojson(data: str | bytes, projection: LocalProjection | None = None) -> PlanShapes:
    """Read a GeoJSON file into the local plane of a projection.

    Without one, the plane begins in the middle of what the file holds, rounded to a
    millionth of a degree; the result states it, so that a second file can be read into the
    same plane.

    Raises
    ------
    PlanFileError
        If anything in it cannot be read; ``problems`` on its context lists every fault.
    """
    reading = _Reading()
    reading.take(read_json(data), "")
    if reading.positions.problems and (projection is None or not reading.found):
        refuse_file(FORM, reading.positions.problems)
    if not reading.found:
        reading.fault("the file", "no geometry", "give at least one polygon, line or point")
        refuse_file(FORM, reading.positions.problems)
    plane = projection or _middle(reading.positions.read)
    return reading.project(plane)


def _middle(read: list[Position]) -> LocalProjection:
    """The plane that begins in the middle of all positions."""
    first = read[0].lon
    lons = [p.lon - 360 * round((p.lon - first) / 360) for p in read]  # across the date line
    lats = [p.lat for p in read]
    lon = (min(lons) + max(lons)) / 2
    lon = lon - 360 * round(lon / 360) if abs(lon) > 180 else lon
    middle = (lon, (min(lats) + max(lats)) / 2)
    lon_ndeg, lat_ndeg = (round(degrees * 1e6) * (NANODEGREES // 10**6) for degrees in middle)
    return LocalProjection(lon_ndeg, lat_ndeg)


class _Reading:
    """One pass over a file: what was found, and every fault on the way."""

    def __init__(self) -> None:
        self.positions = Positions()
        self.found: list[tuple[str, str, str, Any]] = []
        self.remarks: list[str] = []
        self.unread: list[str] = []

    def fault(self, place: str, met: str, accepted: str) -> None:
        """Note a fault of the file."""
        self.positions.fault(place, met, accepted)

    def take(self, value: Any, place: str) -> None:
        """Read any GeoJSON object."""
        where = place or "the file"
        if not isinstance(value, dict):
            self.fault(where, type(value).__name__, 'a GeoJSON object with a "type" is expected')
            return
        if "crs" in value and not _is_wgs84(value["crs"]):
            accepted = "export it in longitude and latitude (WGS 84), as RFC 7946 asks"
            self.fault(f"{where}, crs", str(value["crs"]), accepted)
        kind = value.get("type")
        if kind == "FeatureCollection":
            self._collection(value, place)
        elif kind == "Feature":
            self._feature(value, place, 1)
        else:
            self._geometry(value, place, "")

    def _collection(self, value: dict[str, Any], place: str) -> None:
        """Read every feature of a collection."""
        features = value.get("features")
        if not isinstance(features, list) or not features:
            self.fault(f"{place}features", _seen(features), "a list of features is expected")
        elif len(features) > MOST_FEATURES:
            met = f"{CountedNoun(len(features)):feature|features}"
            self.fault(f"{place}features", met, f"at most {MOST_FEATURES} are read")
        else:
            for number, feature in enumerate(features, start=1):
                self._feature(feature, f"{place}features[{number - 1}]", number)

    def _feature(self, value: Any, place: str, number: int) -> None:
        """Read one feature with its name."""
        where = place or "the file"
        if not isinstance(value, dict) or value.get("type") != "Feature":
            met = value.get("type") if isinstance(value, dict) else value
            self.fault(where, _seen(met), 'an object of type "Feature" is expected')
            return
        if value.get("geometry") is None:
            self.remarks.append(f"Feature {number} has no geometry and was left out.")
            self.unread.append(_name(value, number))
            return
        self._geometry(value["geometry"], f"{place}.geometry".lstrip("."), _name(value, number))

    def _geometry(self, value: Any, place: str, name: str) -> None:
        """Read one geometry, or each of a collection."""
        where = place or "the file"
        kind = value.get("type") if isinstance(value, dict) else None
        if kind == "GeometryCollection":
            members = value.get("geometries")
            if not isinstance(members, list):
                self.fault(f"{where}.geometries", _seen(members), "a list is expected")
                return
            for number, member in enumerate(members):
                self._geometry(member, f"{where}.geometries[{number}]", name)
        elif not isinstance(kind, str) or kind not in _DEPTHS:
            self.fault(f"{where}.type", _seen(kind), f"these are read: {_TYPES}")
        else:
            place = f"{place}.coordinates".lstrip(".")
            read = self.positions.read_nested(value.get("coordinates"), place, _DEPTHS[kind])
            if read is not None:
                self.found.append((kind, name, place, read))

    def project(self, plane: LocalProjection) -> PlanShapes:
        """Shapes of the file, in the local plane."""
        shapes: list[TracedShape] = []
        paths: list[NamedPath] = []
        points: list[NamedPoint] = []
        for kind, name, place, read in self.found:
            many = read if kind.startswith("Multi") else [read]
            for part, one in enumerate(many, start=1):
                own = f"{name} part {part}".strip() if len(many) > 1 else name
                if kind.endswith("Polygon"):
                    shapes.append(self._shape(own or place, place, one, plane))
                elif kind.endswith("LineString"):
                    paths.append(NamedPath(own or place, self._flat(one, plane)))
                else:
                    points += [NamedPoint(own or place, at) for at in self._flat([one], plane)]
        if self.positions.problems:
            refuse_file(FORM, self.positions.problems)
        if self.positions.heights:
            self.remarks.append(
                f"{CountedNoun(self.positions.heights):height was|heights were} left out."
            )
        return PlanShapes(
            tuple(shapes),
            tuple(paths),
            tuple(points),
            plane,
            tuple(self.remarks),
            tuple(self.unread),
        )

    def _flat(self, read: list[Position], plane: LocalProjection) -> tuple[PointNm, ...]:
        """Positions in the plane; those far off are faults."""
        points: list[PointNm] = []
        for position in read:
            try:
                points.append(to_local(position.lon, position.lat, plane))
            except CalculationInputError:
                met = f"longitude {position.lon}, latitude {position.lat}"
                accepted = "it lies too far from the rest for one site: longitude comes first"
                self.fault(position.place, met, accepted)
        return tuple(points)

    def _shape(
        self, name: str, place: str, rings: list[list[Position]], plane: LocalProjection
    ) -> TracedShape:
        """A polygon: its outer ring, and its holes turned to run like outlines."""
        edge, *holes = [self._trace(ring, plane, name) for ring in rings]
        turned: list[Trace] = []
        for number, hole in enumerate(holes, start=1):
            points = hole.points[::-1]
            if _area_sign(hole.points) > 0:
                points = hole.points
                self.remarks.append(
                    f"Hole {number} of {name} ({place}) runs counterclockwise; RFC 7946 has holes "
                    "run clockwise. It bounds the same ground."
                )
            turned.append(Trace(points, hole.is_closed, f"of hole {number} of {name}"))
        return TracedShape(name, edge, tuple(turned))

    def _trace(self, ring: list[Position], plane: LocalProjection, name: str) -> Trace:
        """One ring; closed where its last position repeats its first."""
        is_closed = len(ring) > 1 and (ring[0].lon, ring[0].lat) == (ring[-1].lon, ring[-1].lat)
        return Trace(self._flat(ring[:-1] if is_closed else ring, plane), is_closed, name)


def _area_sign(points: tuple[PointNm, ...]) -> int:
    """Above zero for points that run counterclockwise."""
    pairs = zip(points, [*points[1:], *points[:1]], strict=True)
    return sum(a.x_nm * b.y_nm - b.x_nm * a.y_nm for a, b in pairs)


def _is_wgs84(crs: Any) -> bool:
    """Tell whether an old-style crs member names longitude and latitude."""
    return crs is None or "CRS84" in str(crs) or "4326" in str(crs)


def _name(feature: dict[str, Any], number: int) -> str:
    """The name that a feature gives itself, or its number."""
    properties = feature.get("properties")
    named = properties.get("name") if isinstance(properties, dict) else None
    typed = named if isinstance(named, str) else ""
    plain = "".join(letter for letter in typed if letter.isprintable() or letter.isspace())
    return " ".join(plain.split())[:_LONGEST_NAME] or f"feature {number}"


def _seen(value: Any) -> str:
    """A wrong value in a few words."""
    if value is None:
        return "nothing"
    return repr(value) if isinstance(value, str | int | float | bool) else type(value).__name__
