"""The pipe run of the as-built as LandXML 1.2, with slits, joints and finds as plan features.

Coordinates are northing and easting of the job's own plane. The file carries the last day of
the book for its date, since it changes only when the book does.
"""

from __future__ import annotations

from collections.abc import Iterator

from sync.papers.asbuilt.features.about import about_job, plane_words
from sync.papers.asbuilt.features.feature_types import AsBuilt
from sync.papers.asbuilt.geodata.geographic import site_plane
from sync.papers.asbuilt.geodata.landxml_pipes import PipeWriter
from sync.papers.asbuilt.geodata.xml_text import attributes, xml_text
from sync.papers.asbuilt.layers.layer_types import Layer, LayerRow, ShapeKind, cells_of
from sync.papers.asbuilt.layers.survey_layers import layers_of

NAMESPACE = "http://www.landxml.org/schema/LandXML-1.2"
_PLAN_FEATURES = ("surfaces", "keep_outs", "lines", "joints", "utilities", "ties")
_FEET = (
    '<Imperial areaUnit="squareFoot" linearUnit="foot" volumeUnit="cubicYard" '
    'temperatureUnit="fahrenheit" pressureUnit="inchHG" diameterUnit="inch" '
    'angularUnit="decimal degrees" directionUnit="decimal degrees" elevationUnit="feet"/>'
)
_METRES = (
    '<Metric areaUnit="squareMeter" linearUnit="meter" volumeUnit="cubicMeter" '
    'temperatureUnit="celsius" pressureUnit="milliBars" diameterUnit="millimeter" '
    'angularUnit="decimal degrees" directionUnit="decimal degrees" elevationUnit="meter"/>'
)


def build_landxml(job: AsBuilt) -> bytes:
    """Write the pipe run as LandXML."""
    return ("\n".join(_document(job)) + "\n").encode()


def _document(job: AsBuilt) -> Iterator[str]:
    pipes = PipeWriter(job)
    day = job.last_day or "1970-01-01"
    yield '<?xml version="1.0" encoding="UTF-8"?>'
    yield (
        f'<LandXML xmlns="{NAMESPACE}" xmlns:xsi="http://www.w3.org/2001/XMLSchema-instance" '
        f'xsi:schemaLocation="{NAMESPACE} {NAMESPACE}/LandXML-1.2.xsd" '
        f'version="1.2" date="{day}" time="00:00:00" readOnly="false" language="English">'
    )
    yield f"<Units>{_FEET if job.is_us else _METRES}</Units>"
    yield f"<CoordinateSystem{_system(job)}/>"
    yield f"<Project{attributes(name=job.job_name or 'As-built', desc=job.site or None)}>"
    yield f"{_properties('about', list(about_job(job)))}</Project>"
    yield '<Application name="crewapp" desc="as-built of a drainage job"/>'
    yield from _points(job, pipes)
    yield from pipes.alignments()
    for layer in layers_of(job):
        if layer.name in _PLAN_FEATURES and layer.rows:
            yield from _plan_features(layer, pipes)
    yield from pipes.networks()
    yield "</LandXML>"


def _system(job: AsBuilt) -> str:
    return attributes(
        name="Plane of the site",
        desc=plane_words(job),
        ogcWktCode=site_plane(job.projection) if job.projection is not None else None,
        verticalDatum=job.datum or None,
    )


def _points(job: AsBuilt, pipes: PipeWriter) -> Iterator[str]:
    """Permanent points that were measured in."""
    placed = [(point, point.at) for point in job.points if point.at is not None]
    if placed:
        yield '<CgPoints name="permanent points">'
        for point, at in placed:
            head = attributes(name=point.point_id, desc=point.where)
            yield f"<CgPoint{head}>{pipes.point(at)}</CgPoint>"
        yield "</CgPoints>"


def _plan_features(layer: Layer, pipes: PipeWriter) -> Iterator[str]:
    yield f"<PlanFeatures{attributes(name=layer.name, desc=layer.title)}>"
    for row in layer.rows:
        cells = list(cells_of(layer, row))
        yield (
            f"<PlanFeature{attributes(name=row.key)}>{_where(layer, row, pipes)}"
            f"{_properties(layer.name, cells)}</PlanFeature>"
        )
    yield "</PlanFeatures>"


def _where(layer: Layer, row: LayerRow, pipes: PipeWriter) -> str:
    if row.shape is None:
        return ""
    if layer.kind is ShapeKind.POINT:
        return f"<Location>{pipes.point(row.shape[0][0])}</Location>"
    if layer.kind is ShapeKind.AREA:
        return "".join(pipes.geometry((*ring, ring[0])) for ring in row.shape)
    return pipes.geometry(row.shape[0])


def _properties(code: str, pairs: list[tuple[str, str]]) -> str:
    held = "".join(f"<Property{attributes(label=name, value=said)}/>" for name, said in pairs)
    return f'<Feature code="{xml_text(code)}">{held}</Feature>'
