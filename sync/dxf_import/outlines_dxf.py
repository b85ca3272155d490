"""Outlines from a DXF drawing: one layer, in a unit that is stated and never guessed."""

from __future__ import annotations

import logging
from collections import Counter
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction
from io import BytesIO
from typing import TYPE_CHECKING

from models.counted import CountedNoun
from models.errors import CrewError, DrawingUnitError, PlanningAbsentError
from models.readers.outlines.chains import join_pieces
from models.readers.outlines.problems import FileProblem, refuse_file, refuse_whole
from models.readers.outlines.read_shapes import NamedPath, NamedPoint, PlanShapes, TracedShape
from models.science.shapes.outline import Trace
from models.units.spec import FOOT_NM, INCH_NM
from sync.dxf_import.dxf_pieces import EntityCollector

if TYPE_CHECKING:
    from ezdxf.document import Drawing
    from ezdxf.entities.dxfentity import DXFEntity

FORM = "DXF drawing"
MOST_BYTES = 50_000_000
MOST_ENTITIES = 20_000
CHORD_ERROR_NM = 1_000_000
JOIN_NM = 1_000_000


class DrawingUnit(StrEnum):
    """A unit that drawings are made in."""

    INCH = "in"
    FOOT = "ft"
    SURVEY_FOOT = "us-ft"
    YARD = "yd"
    MILLIMETRE = "mm"
    CENTIMETRE = "cm"
    DECIMETRE = "dm"
    METRE = "m"
    KILOMETRE = "km"


_NM = 10**9
NM_PER_UNIT: dict[DrawingUnit, Fraction] = {
    DrawingUnit.INCH: Fraction(INCH_NM),
    DrawingUnit.FOOT: Fraction(FOOT_NM),
    DrawingUnit.SURVEY_FOOT: Fraction(1200 * _NM, 3937),
    DrawingUnit.YARD: Fraction(3 * FOOT_NM),
    DrawingUnit.MILLIMETRE: Fraction(_NM, 1000),
    DrawingUnit.CENTIMETRE: Fraction(_NM, 100),
    DrawingUnit.DECIMETRE: Fraction(_NM, 10),
    DrawingUnit.METRE: Fraction(_NM),
    DrawingUnit.KILOMETRE: Fraction(1000 * _NM),
}
# Values of the header variable $INSUNITS, from the DXF reference.
_BY_CODE = {1: "in", 2: "ft", 4: "mm", 5: "cm", 6: "m", 7: "km", 10: "yd", 14: "dm", 21: "us-ft"}


@dataclass(frozen=True, slots=True)
class DrawingFacts:
    """Facts of a drawing to choose from: its unit, and entities by layer."""

    unit: DrawingUnit | None
    layers: dict[str, int]


@contextmanager
def _refusing() -> Iterator[None]:
    """Turn whatever a broken file brings on into one sentence: the library has no one root."""
    try:
        yield
    except CrewError:
        raise
    except Exception as error:
        met = f"{type(error).__name__}: {error}"
        refuse_whole(FORM, met, "save it anew as DXF (a DWG is not read)")


@_refusing()
def read_drawing_facts(data: bytes) -> DrawingFacts:
    """Read the unit that a drawing names and the layers it has entities on.

    Raises
    ------
    PlanFileError
        If it is no drawing that can be read.
    PlanningAbsentError
        If the library for drawings is not installed.
    """
    return _facts(_open(data))


@_refusing()
def read_drawing(
    data: bytes,
    layer: str,
    unit: DrawingUnit | None = None,
    chord_error_nm: int = CHORD_ERROR_NM,
    join_nm: int = JOIN_NM,
) -> PlanShapes:
    """Read the outlines on one layer into the local plane.

    Polylines, lines and arcs are joined where their ends lie within ``join_nm``; arcs become
    chords that lie off them by ``chord_error_nm`` at most. What stays open is given twice:
    as a shape whose fault says where, and as a path. The unit is the one chosen, or else
    the one that the drawing names; where they differ a remark says so.

    Raises
    ------
    DrawingUnitError
        If neither the drawing nor the caller names a unit.
    PlanFileError
        If the drawing or the layer can't be read; ``problems`` lists every fault.
    PlanningAbsentError
        If the library for drawings is not installed.
    """
    drawing = _open(data)
    facts = _facts(drawing)
    if layer not in facts.layers:
        names = ", ".join(facts.layers) or "none"
        refuse_whole(FORM, f"no entity on layer {layer!r}", f"its layers are: {names[:500]}")
    own = unit or facts.unit
    if own is None:
        raise DrawingUnitError(
            met=f"$INSUNITS is {drawing.header.get('$INSUNITS', 'missing')}",
            accepted=", ".join(DrawingUnit),
        )
    pieces = EntityCollector(NM_PER_UNIT[own], chord_error_nm)
    for entity in drawing.modelspace():
        if _layer_of(entity) == layer:
            pieces.take(entity)
    problems = pieces.problems
    chains = join_pieces(pieces.open, join_nm, problems)
    if not problems and not chains and not pieces.closed and not pieces.points:
        kinds = ", ".join(sorted(pieces.left_out)) or "nothing"
        accepted = "polylines, lines, arcs, circles and points are read"
        problems.append(FileProblem(f"layer {layer!r}", f"{kinds} alone", accepted))
    if problems:
        refuse_file(FORM, problems)
    traces = [Trace(points, True) for points in pieces.closed]
    traces += [Trace(chain.points, chain.is_closed) for chain in chains]
    return _shapes(layer, traces, pieces, _remarks(pieces.left_out, facts.unit, own))


def _shapes(
    layer: str, traces: list[Trace], pieces: EntityCollector, remarks: tuple[str, ...]
) -> PlanShapes:
    """All that a layer draws, named for the layer and numbered."""
    named = [
        TracedShape(name, Trace(trace.points, trace.is_closed, name))
        for name, trace in ((f"{layer} {n}", trace) for n, trace in enumerate(traces, start=1))
    ]
    paths = [NamedPath(one.name, one.edge.points) for one in named if not one.edge.is_closed]
    points = [NamedPoint(f"{layer} point {n + 1}", at) for n, at in enumerate(pieces.points)]
    unread = tuple(pieces.left_out)
    return PlanShapes(tuple(named), tuple(paths), tuple(points), remarks=remarks, unread=unread)


@contextmanager
def _without_log() -> Iterator[None]:
    """Keep the library from telling in its own words what the auditor tells as well."""
    log = logging.getLogger("ezdxf")
    was_disabled, log.disabled = log.disabled, True
    try:
        yield
    finally:
        log.disabled = was_disabled


def _open(data: bytes) -> Drawing:
    """The drawing in the bytes, whatever version or encoding."""
    try:
        from ezdxf import recover
    except ImportError as error:
        raise PlanningAbsentError(missing=error.name or "ezdxf") from error
    if not data.strip():
        refuse_whole(FORM, "nothing", "give a drawing saved as DXF")
    if len(data) > MOST_BYTES:
        refuse_whole(FORM, f"{len(data)} bytes", f"at most {MOST_BYTES} are read")
    with _without_log():
        drawing, auditor = recover.read(BytesIO(data))
    if auditor.has_errors:
        listed = [FileProblem("the file", e.message, "save it anew") for e in auditor.errors]
        refuse_file(FORM, listed)
    return drawing


def _layer_of(entity: DXFEntity) -> str:
    """The layer of an entity; "0", as the DXF reference has it, where it names none."""
    return str(getattr(entity.dxf, "layer", "0"))


def _facts(drawing: Drawing) -> DrawingFacts:
    """What a drawing says of itself."""
    code = drawing.header.get("$INSUNITS", 0)
    word = _BY_CODE.get(code) if isinstance(code, int) else None
    layers = Counter(_layer_of(entity) for entity in drawing.modelspace())
    if layers.total() > MOST_ENTITIES:
        refuse_whole(
            FORM,
            f"{CountedNoun(layers.total()):entity|entities}",
            f"at most {MOST_ENTITIES} are read",
        )
    return DrawingFacts(DrawingUnit(word) if word else None, dict(sorted(layers.items())))


def _remarks(
    left_out: Counter[str], named: DrawingUnit | None, own: DrawingUnit
) -> tuple[str, ...]:
    """What a reader of the result should know."""
    remarks = [f"{count} {kind} not read." for kind, count in sorted(left_out.items())]
    if named is not None and named is not own:
        remarks.append(f"The drawing says {named}; it was read in {own}, as chosen.")
    return tuple(remarks)
