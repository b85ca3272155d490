"""The as-built as KML 2.2, to look at on a globe or a phone: a folder for each layer.

No altitude is given, since levels are above the job's own datum; they stand in the data of
each placemark. Readings that were struck or overtaken are there, and hidden until asked for.
"""

from __future__ import annotations

from collections.abc import Iterator

from models.science.shapes.projection import LocalProjection
from sync.papers.asbuilt.features.about import about_job
from sync.papers.asbuilt.features.feature_types import AsBuilt
from sync.papers.asbuilt.geodata.geographic import DIGITS, LonLat, projection_of, rings_of
from sync.papers.asbuilt.geodata.xml_text import attributes, xml_text
from sync.papers.asbuilt.layers.layer_types import Layer, LayerRow, ShapeKind, cells_of
from sync.papers.asbuilt.layers.survey_layers import layers_of
from sync.papers.drawing.marking_code import UtilityKind, utility_kind
from sync.papers.drawing.tones import PRINT_TONES

FORM = "KML"
HIDDEN = frozenset({"struck", "stations"})

# Colours are alpha, blue, green, red; widths in pixels. Status is in width as well as colour.
# Drains are green, as the code for marking buried utilities has them.
_LABEL = "<LabelStyle><scale>0.7</scale></LabelStyle>"
_STYLES = {
    "surfaces": "<LineStyle><color>ffffffff</color><width>2</width></LineStyle>"
    "<PolyStyle><fill>0</fill></PolyStyle>",
    "keep_outs": "<LineStyle><color>ff00a5ff</color><width>2</width></LineStyle>"
    "<PolyStyle><fill>0</fill></PolyStyle>",
    "line-planned": "<LineStyle><color>80ffffff</color><width>1</width></LineStyle>",
    "line-cut": "<LineStyle><color>ff00ffff</color><width>2</width></LineStyle>",
    "line-piped": "<LineStyle><color>ff50b000</color><width>3</width></LineStyle>",
    "line-accepted": "<LineStyle><color>ff00a5ff</color><width>4</width></LineStyle>",
    "line-out": "<LineStyle><color>ff0000ff</color><width>5</width></LineStyle>",
    "pipe": "<LineStyle><color>ff408000</color><width>4</width></LineStyle>",
    "thin": "<LineStyle><color>c0ffffff</color><width>1</width></LineStyle>",
    "point": f"<IconStyle><scale>0.6</scale></IconStyle>{_LABEL}",
}
_STYLE_OF = {"surfaces": "surfaces", "keep_outs": "keep_outs", "released": "thin", "ties": "thin"}
_STYLE_OF |= {"collectors": "pipe", "collectors_laid": "pipe"}
_NAMED_BY = {
    "surfaces": ("name",),
    "keep_outs": ("name",),
    "lines": ("surface_id", "line_id"),
    "probes": ("line_id", "depth_typed"),
    "collectors": ("name",),
    "collectors_laid": ("name",),
    "stations": ("station",),
    "inverts": ("collector_id", "station"),
    "joints": ("line_id",),
    "released": ("collector_id", "day"),
    "utilities": ("what",),
    "outlets": ("outlet_id", "flows"),
    "points": ("point_id",),
    "ties": ("point_id", "name"),
    "photos": ("caption",),
    "struck": ("kind", "how"),
}


def build_kml(job: AsBuilt) -> bytes:
    """Write the as-built as KML.

    Raises
    ------
    NotTiedError
        If the job's plane is tied to no place on the Earth.
    """
    projection = projection_of(job, FORM)
    return ("\n".join(_document(job, projection)) + "\n").encode()


def _document(job: AsBuilt, projection: LocalProjection) -> Iterator[str]:
    yield '<?xml version="1.0" encoding="UTF-8"?>'
    yield '<kml xmlns="http://www.opengis.net/kml/2.2">'
    yield "<Document>"
    yield f"<name>{xml_text(job.job_name or 'As-built')}</name>"
    for name, style in _STYLES.items():
        yield f'<Style id="{name}">{style}</Style>'
    for kind in UtilityKind:
        if any(utility_kind(one.what) is kind for one in job.utilities):
            yield f'<Style id="{_utility_style(kind)}">{_icon(kind)}</Style>'
    yield _data(list(about_job(job)))
    for layer in layers_of(job):
        if layer.rows:
            yield from _folder(layer, projection)
    yield "</Document>"
    yield "</kml>"


def _folder(layer: Layer, projection: LocalProjection) -> Iterator[str]:
    seen = "0" if layer.name in HIDDEN else "1"
    yield f"<Folder><name>{xml_text(layer.title)}</name><visibility>{seen}</visibility>"
    for row in layer.rows:
        yield (
            f'<Placemark id="{row.key}"><name>{xml_text(_name(layer, row))}</name>'
            f"<visibility>{seen}</visibility><styleUrl>#{_style(layer, row)}</styleUrl>"
            f"{_data(list(cells_of(layer, row)))}"
            f"{_geometry(layer.kind, rings_of(layer, row, projection))}</Placemark>"
        )
    yield "</Folder>"


def _name(layer: Layer, row: LayerRow) -> str:
    cells = dict(cells_of(layer, row))
    return " ".join(cells[name] for name in _NAMED_BY[layer.name] if cells.get(name))


def _style(layer: Layer, row: LayerRow) -> str:
    if layer.name == "lines":
        return f"line-{dict(cells_of(layer, row))['status']}"
    if layer.name == "utilities":
        kind = utility_kind(dict(cells_of(layer, row))["what"])
        return _utility_style(kind) if kind else "point"
    return _STYLE_OF.get(layer.name, "point")


def _utility_style(kind: UtilityKind) -> str:
    return f"utility-{kind.name.lower()}"


def _icon(kind: UtilityKind) -> str:
    """A point in the colour of the marking code; its name tells what it is."""
    red, green, blue = PRINT_TONES[kind.value.tone]
    colour = f"<color>ff{blue:02x}{green:02x}{red:02x}</color>"
    return f"<IconStyle>{colour}<scale>0.6</scale></IconStyle>" + _LABEL


def _data(pairs: list[tuple[str, str]]) -> str:
    held = "".join(
        f"<Data{attributes(name=name)}><value>{xml_text(said)}</value></Data>"
        for name, said in pairs
    )
    return f"<ExtendedData>{held}</ExtendedData>"


def _geometry(kind: ShapeKind, parts: list[list[LonLat]]) -> str:
    if not parts:
        return ""
    if kind is ShapeKind.AREA:
        outer, *holes = (f"<LinearRing>{_coordinates(part)}</LinearRing>" for part in parts)
        inner = "".join(f"<innerBoundaryIs>{hole}</innerBoundaryIs>" for hole in holes)
        return f"<Polygon><outerBoundaryIs>{outer}</outerBoundaryIs>{inner}</Polygon>"
    tessellate = "<tessellate>1</tessellate>" if kind is ShapeKind.LINE else ""
    return f"<{kind.value}>{tessellate}{_coordinates(parts[0])}</{kind.value}>"


def _coordinates(part: list[LonLat]) -> str:
    listed = " ".join(f"{lon:.{DIGITS}f},{lat:.{DIGITS}f}" for lon, lat in part)
    return f"<coordinates>{listed}</coordinates>"
