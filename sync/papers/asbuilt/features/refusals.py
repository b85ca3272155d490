"""Errors of an as-built that can't be made in some form, each with its sentence."""

from __future__ import annotations

from models.errors import CrewError


class NotTiedError(CrewError, ValueError):
    """Longitude and latitude are wanted of a job whose plane lies nowhere on the Earth."""

    code = "asbuilt.not_tied"
    sentence = (
        "Cannot write {form}: it holds longitude and latitude alone, and nobody has written down "
        "where the origin of this job's plane lies. With the origin's longitude and latitude "
        "in the book it would be written; until then the drawing, the tables and the GeoPackage "
        "hold the same features in the job's own plane."
    )


class DrawingAbsentError(CrewError, ImportError):
    """A drawing is wanted on a device without the drawing library."""

    code = "asbuilt.drawing_absent"
    sentence = (
        "Cannot write the DXF drawing here: the drawing library is not installed ({missing}). "
        "All other files of the as-built go without it. To write drawings on this device, "
        "install the wheel file you were given once more, with [plan] or [all] behind its name."
    )
