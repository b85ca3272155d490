"""The data files of an as-built package, by name, and which of them can't be made and why."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from sync.papers.asbuilt.csv_tables import build_about_table, build_layer_table, build_table
from sync.papers.asbuilt.dxf.dxf_file import build_dxf, missing_library
from sync.papers.asbuilt.features.feature_types import AsBuilt
from sync.papers.asbuilt.features.refusals import DrawingAbsentError, NotTiedError
from sync.papers.asbuilt.geodata.geojson import FORM as GEOJSON
from sync.papers.asbuilt.geodata.geojson import build_geojson
from sync.papers.asbuilt.geodata.geopackage import build_geopackage
from sync.papers.asbuilt.geodata.kml import FORM as KML
from sync.papers.asbuilt.geodata.kml import build_kml
from sync.papers.asbuilt.geodata.landxml import build_landxml
from sync.papers.asbuilt.layers.layer_types import Layer
from sync.papers.asbuilt.layers.survey_layers import layers_of


@dataclass(frozen=True, slots=True)
class DataFile:
    """A file of the package: its name below the package's folder, what it is, how it is made."""

    name: str
    about: str
    build: Callable[[AsBuilt], bytes]


def data_files(job: AsBuilt) -> tuple[DataFile, ...]:
    """Files that can be made of a job on this device, in a fixed order."""
    absent = {name for name, _ in unavailable_files(job)}
    files = (
        DataFile("asbuilt.dxf", "drawing on named layers, in the job's plane and unit", build_dxf),
        DataFile("asbuilt.geojson", "every feature, in longitude and latitude", build_geojson),
        DataFile("asbuilt.kml", "for globe viewers and phones", build_kml),
        DataFile("asbuilt.gpkg", "every feature, in the job's plane in metres", build_geopackage),
        DataFile("pipe-run.xml", "collectors as LandXML 1.2", build_landxml),
        DataFile("csv/about.csv", "units, datum, plane of the tables", build_about_table),
        *(_table(job, layer) for layer in layers_of(job)),
    )
    return tuple(file for file in files if file.name not in absent)


def unavailable_files(job: AsBuilt) -> tuple[tuple[str, str], ...]:
    """Files that can't be made of this job or on this device, each with its sentence."""
    found = []
    if missing := missing_library():
        found.append(("asbuilt.dxf", str(DrawingAbsentError(missing=missing))))
    if job.projection is None:
        found.append(("asbuilt.geojson", str(NotTiedError(form=GEOJSON))))
        found.append(("asbuilt.kml", str(NotTiedError(form=KML))))
    return tuple(found)


def _table(job: AsBuilt, layer: Layer) -> DataFile:
    """A table; its layer is in hand for the job that was asked about, and made for any other."""

    def build(asked: AsBuilt) -> bytes:
        if asked is job:
            return build_layer_table(layer, job.is_us)
        return build_table(asked, layer.name)

    return DataFile(f"csv/{layer.name}.csv", f"{layer.title}, as a table", build)
