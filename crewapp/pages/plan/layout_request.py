"""Reads what was typed on the Plan screen into the request for a surface's lines."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any

from crewapp.commands.plan.layout import LayoutRequest
from crewapp.handlers.plan.local_plane import plane_for, plane_to_write
from crewapp.handlers.plan.outlines import outline_request
from crewapp.imports.plan.outline_file import ReadingOptions, read_outline_file
from crewapp.imports.plan.typed_layout import read_terms
from crewapp.job.open_job import OpenJob
from crewapp.tablet.read_files import read_bytes
from models.counted import CountedNoun
from models.entries.bodies.planning import SurfaceLayout
from models.entries.bodies.surfaces import Surface
from models.entries.kind_names import LAYOUT, SURFACE
from models.errors import CrewError
from models.plan.line import LineUse
from models.queries.layout.lay_lines import plan_points
from models.science.shapes.offsets import OffsetRow, circle, rectangle, trace_offsets
from models.science.shapes.outline import LEAST_AREA_NM2, require_outline
from models.science.shapes.rings import PointNm
from models.units import LengthUnit, parse_bearing
from models.units.job_units import Figures

Typed = Mapping[str, Any]

USES: tuple[LineUse, ...] = ("sand_slit", "piped_slit")
_PARTS = ("spacing", "bearing", "first", "least", "machine", "turning")
_US = {"width_tolerance_nm": 6_350_000, "under_nm": 12_700_000, "over_nm": 25_400_000}
_US |= {"probe_every_nm": 7_620_000_000, "probe_end_nm": 1_524_000_000}
_METRIC = {"width_tolerance_nm": 6_000_000, "under_nm": 13_000_000, "over_nm": 25_000_000}
_METRIC |= {"probe_every_nm": 8_000_000_000, "probe_end_nm": 1_500_000_000}
"""Limits of a slit that nobody gave others: common practice, no source."""


class SizeMissingError(CrewError, ValueError):
    """A surface was to be drawn without all of its measures."""

    code = "plan.size_missing"
    sentence = "The surface can't be drawn yet: {missing} still to be typed."


class SlitSizeMissingError(CrewError, ValueError):
    """Lines were to be laid that nobody gave a width and a depth."""

    code = "plan.slit_size_missing"
    sentence = (
        "{lines}: type both the width and the depth of the slit; without them no reading can be "
        "judged."
    )


def read_request(job: OpenJob, surface_id: str, typed: Typed, new: Typed) -> LayoutRequest:
    """Read the request for a surface's lines from texts as they were typed.

    ``typed`` holds a mapping of texts for each use, and the setback; ``new`` is the
    surface's own shape where it is new.

    Raises
    ------
    CrewError
        If a text can't be read, or something needed is missing.
    """
    asked: LayoutRequest = {}
    if new:
        asked.update(shape_request(job, new))
    if typed.get("setback"):
        asked["setback_nm"] = job.figures.read_depth(str(typed["setback"]))
    asked.update(_uses_request(job, surface_id, typed))
    return asked


def _uses_request(job: OpenJob, surface_id: str, typed: Typed) -> LayoutRequest:
    """Return terms, patterns, and uses whose lines go."""
    surface: Surface | None = job.state.latest(SURFACE, surface_id)
    layout: SurfaceLayout | None = job.state.latest(LAYOUT, surface_id)
    standing = {one.use: one for one in layout.terms} if layout else {}
    terms: list[Any] = []
    patterns: dict[LineUse, Any] = {}
    without: list[LineUse] = []
    for use in USES:
        texts = {name: text for name, text in (typed.get(use) or {}).items() if text}
        if texts.get("none"):
            without.append(use)
        elif texts:
            old, pattern = standing.get(use), surface.pattern_of(use) if surface else None
            told = {part: str(texts[part]) for part in _PARTS if texts.get(part)}
            terms.append(read_terms(use, told, job.figures, old, pattern))
            if texts.get("width") or texts.get("depth") or pattern is None:
                patterns[use] = _pattern(use, texts, surface, job.figures)
    return {"terms": terms, "patterns": patterns, "without": without}


def _pattern(
    use: LineUse, texts: Typed, surface: Surface | None, figures: Figures
) -> dict[str, Any]:
    """Return the pattern of a use with its width and depth as typed."""
    old = surface.pattern_of(use) if surface else None
    fields = old.model_dump() if old else {"spacing_nm": 0, **(_US if figures.is_us else _METRIC)}
    for name in ("width", "depth"):
        if texts.get(name):
            fields[f"{name}_nm"] = figures.read_depth(str(texts[name]))
        elif old is None:
            lines = {"sand_slit": "Sand slits", "piped_slit": "Piped slits"}[use]
            raise SlitSizeMissingError(lines=lines)
    return fields


def shape_request(job: OpenJob, new: Typed) -> LayoutRequest:
    """Return name, use and outline of a new surface.

    Raises
    ------
    SizeMissingError
        If a measure is missing.
    OutlineError, CalculationInputError, UnreadableError
        If they make no outline.
    """
    asked: LayoutRequest = {
        "name": str(new.get("name") or new.get("surface_id") or ""),
        "use": str(new.get("use") or "green"),
    }
    if new.get("shape") == "file":
        asked.update(file_request(job, new))
        return asked
    ring, source = _ring(new, job.figures)
    asked.update({"outline": plan_points(ring), "source": source})
    return asked


def file_request(job: OpenJob, new: Typed) -> LayoutRequest:
    """Return the outline that a file of the inbox draws, its holes as keep-outs.

    Raises
    ------
    SizeMissingError
        If no file was chosen.
    CrewError
        If the file can't be read, or draws no one outline.
    """
    if not new.get("path"):
        raise SizeMissingError(missing="the file it is drawn in")
    path, surface_id = Path(str(new["path"])), str(new.get("surface_id", ""))
    is_degrees = path.suffix.lower() in (".json", ".geojson")
    reading = ReadingOptions(
        unit=str(new["unit"]) if new.get("unit") else None,
        job_unit=LengthUnit.FT if job.figures.is_us else LengthUnit.M,
        stations=job.figures.stations,
        layer=str(new["layer"]) if new.get("layer") else None,
        plane=plane_for(job, None, ("surface", surface_id)) if is_degrees else None,
    )
    shapes = read_outline_file(path.name, read_bytes(path, "An outline"), reading)
    asked = outline_request(shapes, path.name, takes_mended=bool(new.get("mended")))
    plane = plane_to_write(job, shapes, path.name)
    return {**asked, "source": path.name, **({"plane": plane} if plane is not None else {})}


def _ring(new: Typed, figures: Figures) -> tuple[Sequence[PointNm], str]:
    shape = str(new.get("shape") or "rectangle")
    corner = PointNm(_level(new, "east", figures), _level(new, "north", figures))
    bearing = parse_bearing(str(new["bearing"])) if new.get("bearing") else 0
    if shape == "circle":
        _need(new, ("radius",))
        radius = figures.read_length(str(new["radius"]))
        return circle(radius, corner).ring, f"circle of radius {figures.length(radius)}"
    if shape == "offsets":
        rows = [_offset(row, figures) for row in new.get("rows") or ()]
        trace = trace_offsets(rows, corner, bearing)
        return require_outline(
            trace, LEAST_AREA_NM2
        ).ring, f"{CountedNoun(len(rows)):station|stations} of a baseline"
    _need(new, ("along", "across"))
    along, across = (figures.read_length(str(new[name])) for name in ("along", "across"))
    source = f"rectangle of {figures.length(across)} x {figures.length(along)}"
    return rectangle(across, along, corner, bearing).ring, source


def _level(new: Typed, name: str, figures: Figures) -> int:
    return figures.read_level(str(new[name])) if new.get(name) else 0


def _need(new: Typed, names: tuple[str, ...]) -> None:
    missing = [name for name in names if not new.get(name)]
    if missing:
        words = {"along": "its length", "across": "its width", "radius": "its radius"}
        raise SizeMissingError(missing=" and ".join(words[name] for name in missing))


def _offset(row: Mapping[str, str], figures: Figures) -> OffsetRow:
    sides = {
        side: figures.read_level(row[side]) if row.get(side) else None for side in ("left", "right")
    }
    return OffsetRow(figures.read_length(row["station"]), sides["left"], sides["right"])
