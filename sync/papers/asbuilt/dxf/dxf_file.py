"""The as-built as a DXF drawing of release 2010: named layers, real units, figures attached.

Release 2010 is the oldest that most programs open in which names of any script are plain
text. The plan lies in the job's own plane; collector inverts carry their levels. Nothing of
the clock or of chance goes into the file.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from io import StringIO
from typing import TYPE_CHECKING

from sync.papers.asbuilt.dxf.ground import (
    LINE_TAGS,
    POINT_TAGS,
    STRUCK_TAGS,
    UTILITY_TAGS,
    draw_ground,
    name_height_mm,
)
from sync.papers.asbuilt.dxf.notes import draw_notes
from sync.papers.asbuilt.dxf.pen import DxfPen
from sync.papers.asbuilt.dxf.pipes import INVERT_TAGS, JOINT_TAGS, draw_pipes
from sync.papers.asbuilt.dxf.scale import PlotScale, plot_scale
from sync.papers.asbuilt.dxf.styles import NAME_MM, add_mark, add_styles
from sync.papers.asbuilt.features.feature_types import AsBuilt
from sync.papers.asbuilt.features.refusals import DrawingAbsentError

if TYPE_CHECKING:
    from ezdxf.document import Drawing

RELEASE = "R2010"
_FOOT, _METRE = 2, 6  # values of the header's $INSUNITS
_DECIMAL = 2
_CROSS_IN_RING = 34
_TAGS = {
    "LINE-TAG": LINE_TAGS,
    "PROBE-OUT": (),
    "INVERT": INVERT_TAGS,
    "INVERT-OUT": INVERT_TAGS,
    "JOINT": JOINT_TAGS,
    "UTILITY": UTILITY_TAGS,
    "PERMANENT-POINT": POINT_TAGS,
    "STRUCK": STRUCK_TAGS,
    "NORTH": (),
}


def missing_library() -> str:
    """Reason why no drawing can be written on this device; empty where one can."""
    try:
        import ezdxf  # noqa: F401 - asked for alone
    except ImportError as error:
        return str(error)
    return ""


def build_dxf(job: AsBuilt) -> bytes:
    """Write the as-built drawing as DXF.

    Raises
    ------
    DrawingAbsentError
        If the drawing library is not installed on this device.
    """
    missing = missing_library()
    if missing:
        raise DrawingAbsentError(missing=missing)
    with _without_a_clock():
        drawing = _drawing(job)
        _name_classes_in_order(drawing)
        out = StringIO()
        drawing.write(out)
    return out.getvalue().encode(errors="dxfreplace")


def _name_classes_in_order(drawing: Drawing) -> None:
    """List the kinds of entity before the library does, which takes them as a set falls out."""
    for kind in sorted(drawing.entitydb.dxf_types_in_use()):
        drawing.classes.add_class(kind)


@contextmanager
def _without_a_clock() -> Iterator[None]:
    """Let the library write a fixed date and no chance numbers, so that bytes can be compared."""
    from ezdxf import options  # type: ignore[attr-defined] # public, though not listed as such

    before = options.write_fixed_meta_data_for_testing
    options.write_fixed_meta_data_for_testing = True
    try:
        yield
    finally:
        options.write_fixed_meta_data_for_testing = before


def _drawing(job: AsBuilt) -> Drawing:
    from ezdxf.filemanagement import new

    drawing, scale = new(RELEASE), plot_scale(job)
    _set_units(drawing, job, scale)
    add_styles(drawing, scale.per_mm)
    pen = DxfPen(drawing, job, scale)
    for mark, tags in _TAGS.items():
        height = name_height_mm(pen) if mark == "LINE-TAG" else NAME_MM
        add_mark(drawing, mark, tags, scale.per_mm, pen.mm(height))
    draw_ground(pen)
    draw_pipes(pen)
    draw_notes(pen)
    (left, low), (right, high) = scale.low, scale.high
    drawing.set_modelspace_vport(
        height=max(high - low, (right - left) / 2, pen.mm(50)) * 1.4,
        center=((left + right) / 2, (low + high) / 2),
    )
    return drawing


def _set_units(drawing: Drawing, job: AsBuilt, scale: PlotScale) -> None:
    header = drawing.header
    drawing.units = _FOOT if job.is_us else _METRE
    header["$MEASUREMENT"] = 0 if job.is_us else 1
    header["$LUNITS"], header["$LUPREC"] = _DECIMAL, 3
    header["$LTSCALE"] = 1.0
    header["$PDMODE"], header["$PDSIZE"] = _CROSS_IN_RING, 0.9 * scale.per_mm
    header["$ATTMODE"] = 1  # figures stay unseen, labels are seen
