"""The part of ``crewapp plan import`` that reads drawings: outlines, keep-outs, courses."""

from __future__ import annotations

import argparse
import csv
import io
import json
from pathlib import Path
from typing import Any

from crewapp.cli.books import book_to_write
from crewapp.cli.plan.layout_request import read_surface
from crewapp.cli.plan.layout_text import audit_facts, audit_lines, layout_lines
from crewapp.commands.plan.layout import LayoutRequest
from crewapp.handlers.plan.layout import accept, preview
from crewapp.handlers.plan.local_plane import plane_for, plane_to_write
from crewapp.handlers.plan.outlines import (
    bring_course,
    course_gap_nm,
    keep_outs_request,
    outline_request,
    unused_outlines_text,
)
from crewapp.handlers.plan.traced_rings import MendedOfferError
from crewapp.imports.plan.outline_file import OutlineForm, ReadingOptions, read_outline_file
from crewapp.imports.plan.typed_layout import TypedLayoutError, read_pair
from crewapp.job.open_job import OpenJob
from crewapp.tablet.read_files import read_bytes
from models.counted import CountedNoun
from models.entries.bodies.planning import LocalPlane
from models.entries.kind_names import LAYOUT, SURFACE
from models.errors import CrewError
from models.readers.outlines.read_shapes import PlanShapes
from models.science.shapes.offsets import ORIGIN
from models.science.shapes.outline import Outline
from models.science.shapes.rings import PointNm
from models.units import LengthUnit, parse_bearing, parse_latitude, parse_longitude

_FORMS = "GeoJSON, DXF, or CSV of points or of offsets from a baseline"


class OfferNotWrittenError(CrewError, OSError):
    """A mended outline was offered and could not be put where it can be looked at."""

    code = "commands.offer_not_written"
    sentence = "The mended outline was not written to {path}: {why}. Another --out would do."


class NothingNamedError(CrewError, ValueError):
    """A drawing was brought in for nothing."""

    code = "commands.nothing_named"
    sentence = (
        "Nothing was written: it was not said whose {what} {name} holds. "
        "Name it with {option}, such as {option} {example}."
    )


def bring_drawing(args: argparse.Namespace) -> int:
    """Read a drawing and write what it shows, all or nothing."""
    _need_names(args)
    data = read_bytes(args.file, _FORMS)
    with book_to_write(args.book, args.author) as job:
        plane = _given_plane(args)
        shapes = read_outline_file(args.file.name, data, _reading(args, job, plane))
        if args.brought_as == "collector":
            return _bring_course(args, job, shapes)
        try:
            asked = _asked(args, job, shapes)
        except MendedOfferError as offer:
            raise MendedOfferedError(offer, _put_offers(args, offer)) from offer
        asked["source"] = _source(args)
        laid = preview(job, args.surface, **asked)
        changed = accept(job, laid, plane_to_write(job, shapes, args.file.name))
        facts: dict[str, Any] = {
            "written": len(changed.entries),
            "surface": laid.surface.model_dump(mode="json"),
            "layout": laid.layout.model_dump(mode="json"),
        }
        lines = list(layout_lines(laid.surface, laid.layout, job.figures))
        if args.brought_as == "outline":
            lines.append(unused_outlines_text(shapes, args.pick))
        parts = {("surface", args.surface), ("layout", args.surface)}
        facts |= audit_facts(job, parts)
        _tell(args, facts, shapes, [*lines, *audit_lines(job, parts)])
    return 0


class MendedOfferedError(CrewError, ValueError):
    """Mended outlines lie in files to be looked at."""

    code = "commands.mended_offered"
    sentence = (
        "Nothing was written to the book. {offer}\n"
        "{lies} in {paths}, to be looked at. If {it} right, give the same words and --mended."
    )

    def __init__(self, offer: MendedOfferError, paths: list[Path]) -> None:
        lies, it = ("It lies", "it is") if len(paths) == 1 else ("They lie", "they are")
        super().__init__(offer=offer, lies=lies, it=it, paths=", ".join(map(str, paths)))


def _need_names(args: argparse.Namespace) -> None:
    needs_collector = args.brought_as == "collector"
    if needs_collector and not args.collector:
        raise NothingNamedError(what="course", name=args.file, option="--collector", example="C1")
    if not needs_collector and not args.surface:
        raise NothingNamedError(
            what=args.brought_as, name=args.file, option="--surface", example="G9"
        )


def _given_plane(args: argparse.Namespace) -> LocalPlane | None:
    """The plane's origin as it was typed: latitude, longitude."""
    if args.plane is None:
        return None
    parts = args.plane.split(",")
    if len(parts) != 2:
        forms = "41.5868, -93.625; 41.5868 N, 93.625 W"
        raise TypedLayoutError(text=args.plane, what="a latitude and longitude", forms=forms)
    lat_ndeg, lon_ndeg = parse_latitude(parts[0]), parse_longitude(parts[1])
    return LocalPlane(lon_ndeg=lon_ndeg, lat_ndeg=lat_ndeg, how="as typed")


def _reading(args: argparse.Namespace, job: OpenJob, plane: LocalPlane | None) -> ReadingOptions:
    form = OutlineForm(args.form) if args.form else None
    is_degrees = form is OutlineForm.GEOJSON or args.file.suffix.lower() in {".json", ".geojson"}
    origin = PointNm(*read_pair(args.origin, job.figures)) if args.origin else ORIGIN
    return ReadingOptions(
        form=form,
        unit=args.unit,
        job_unit=LengthUnit.FT if job.figures.is_us else LengthUnit.M,
        stations=job.figures.stations,
        layer=args.layer,
        origin=origin,
        bearing_udeg=parse_bearing(args.bearing),
        plane=plane_for(job, plane, _replaced(args)) if is_degrees else None,
    )


def _replaced(args: argparse.Namespace) -> tuple[str, str] | None:
    """What the file draws as a whole; keep-outs are added to an outline that stays."""
    if args.brought_as == "outline":
        return "surface", args.surface
    return ("collector", args.collector) if args.brought_as == "collector" else None


def _asked(args: argparse.Namespace, job: OpenJob, shapes: PlanShapes) -> LayoutRequest:
    """What the drawing and the words ask for."""
    asked = read_surface(args)
    clearance_nm = job.figures.read_depth(args.clearance)
    if args.brought_as == "outline":
        asked |= outline_request(
            shapes,
            args.file.name,
            pick=args.pick,
            clearance_nm=clearance_nm,
            takes_mended=args.mended,
        )
    else:
        asked |= keep_outs_request(
            job,
            args.surface,
            shapes,
            args.file.name,
            clearance_nm=clearance_nm,
            radius_nm=job.figures.read_depth(args.radius) if args.radius is not None else None,
            instead=args.instead,
            takes_mended=args.mended,
            left_out=args.leave_out,
        )
    if args.setback is not None:
        asked["setback_nm"] = job.figures.read_length(args.setback)
    return asked


def _source(args: argparse.Namespace) -> str:
    """What the outline was read from, for the record."""
    layer = f", layer {args.layer}" if args.layer else ""
    mended = ", mended" if args.mended else ""
    return f"{args.file.name}{layer}{mended}"


def _bring_course(args: argparse.Namespace, job: OpenJob, shapes: PlanShapes) -> int:
    changed = bring_course(job, args.collector, shapes, args.file.name, args.pick)
    lines = [f"Course of {args.collector} as drawn in {args.file.name}."]
    gap_nm = course_gap_nm(job, args.collector)
    if gap_nm:
        way = "longer" if gap_nm > 0 else "shorter"
        lines.append(f"It is {job.figures.length(abs(gap_nm))} {way} than its design says.")
    drained = [
        name
        for name in job.state.every_name(LAYOUT)
        if (surface := job.state.latest(SURFACE, name)) is not None
        and surface.collector_id == args.collector
    ]
    lines += [f"Lay out {name} again for its joints." for name in drained]
    parts = {("collector", args.collector)}
    facts = {"written": len(changed.entries), "gap_nm": gap_nm, **audit_facts(job, parts)}
    _tell(args, facts, shapes, [*lines, *audit_lines(job, parts)])
    return 0


def _tell(
    args: argparse.Namespace, facts: dict[str, Any], shapes: PlanShapes, lines: list[str]
) -> None:
    if args.json:
        print(json.dumps({**facts, "remarks": list(shapes.remarks)}, ensure_ascii=False))
        return
    for line in filter(None, (*lines, *shapes.remarks)):
        print(line)
    print(f"{CountedNoun(facts['written']):entry|entries} inked.")


def _put_offers(args: argparse.Namespace, offer: MendedOfferError) -> list[Path]:
    """Write each mended outline into a file of its own."""
    stem, count = args.file.stem, len(offer.offers)
    names = (
        [f"{stem}.mended.csv"]
        if count == 1
        else [f"{stem}.{n + 1}.mended.csv" for n in range(count)]
    )
    found = zip(names, offer.offers.values(), strict=True)
    return [_put_offer(args.out / name, mended.outline) for name, mended in found]


def _put_offer(path: Path, outline: Outline) -> Path:
    """Write a mended outline as a table of points in metres, for any drawing program."""
    page = io.StringIO()
    writer = csv.writer(page)
    writer.writerow(["point", "x", "y"])
    ring = [*outline.ring, outline.ring[0]]
    for number, point in enumerate(ring, start=1):
        writer.writerow([number, *(_metres(nm) for nm in point)])
    # Only now: what brings an outline in does not print.
    from sync.papers.paper_files import write_atomically

    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        write_atomically(path, page.getvalue().encode())
    except OSError as fault:
        raise OfferNotWrittenError(path=path, why=fault.strerror or str(fault)) from fault
    return path


def _metres(nm: int) -> str:
    """Whole nanometres as metres, exactly."""
    sign, size = ("-" if nm < 0 else ""), abs(nm)
    return f"{sign}{size // 10**9}.{size % 10**9:09d} m"
