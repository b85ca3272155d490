"""Where on the Earth the plan's plane lies, when a file of longitudes is brought into it."""

from __future__ import annotations

from decimal import Decimal

from crewapp.job.open_job import OpenJob
from models.entries.bodies.planning import LocalPlane
from models.entries.kind_names import COLLECTOR, LOCAL_PLANE, SURFACE
from models.errors import CrewError
from models.readers.outlines.read_shapes import PlanShapes
from models.science.shapes.projection import LocalProjection


class PlaneUnknownError(CrewError, ValueError):
    """Longitudes were brought into a plan that does not say where on the Earth it lies."""

    code = "outlines.plane_unknown"
    sentence = (
        "Nothing was written: {drawn} drawn in a plane of which nobody said where on the Earth "
        "it begins, so longitudes would land anywhere in it. Give the latitude and longitude of "
        "its origin; north of the plan must be true north."
    )


class OtherPlaneError(CrewError, ValueError):
    """A place was given for the plan's plane, which lies elsewhere by what the plan says."""

    code = "outlines.other_plane"
    sentence = (
        "Nothing was written: the plan's plane begins at {held} (latitude, longitude), and "
        "{given} was given. What is drawn lies by the first; leave the other out."
    )


def plane_for(
    job: OpenJob, given: LocalPlane | None, replaced: tuple[str, str] | None
) -> LocalProjection | None:
    """The plane that longitudes are brought into; None where the file may choose it.

    ``replaced`` is the surface or collector whose whole drawing the file takes the place of,
    by kind and name; None where the file only adds to what is drawn, as keep-outs do.

    Raises
    ------
    PlaneUnknownError
        If other ground is drawn already and the plane's place was never said.
    OtherPlaneError
        If the plan says where its plane begins, and another place is given.
    """
    held: LocalPlane | None = job.state.latest(LOCAL_PLANE)
    if held is not None and given is not None and _begins_at(held) != _begins_at(given):
        raise OtherPlaneError(**_degrees(held, "held"), **_degrees(given, "given"))
    plane = held or given
    if plane is not None:
        return LocalProjection(plane.lon_ndeg, plane.lat_ndeg)
    drawn = [name for name in _drawn_in_plane(job) if name != replaced]
    if drawn:
        names = ", ".join(name for _, name in drawn[:6])
        raise PlaneUnknownError(drawn=f"{names} {'is' if len(drawn) == 1 else 'are'}")
    return None


def _begins_at(plane: LocalPlane) -> tuple[int, int]:
    return plane.lat_ndeg, plane.lon_ndeg


def _degrees(plane: LocalPlane, whose: str) -> dict[str, str]:
    """A plane's origin as it is typed: latitude, longitude."""
    texts = (f"{Decimal(ndeg).scaleb(-9).normalize():f}" for ndeg in _begins_at(plane))
    return {whose: ", ".join(texts)}


def _drawn_in_plane(job: OpenJob) -> list[tuple[str, str]]:
    """What has a place in the plane: surfaces and courses of collectors, by kind and name."""
    surfaces = [("surface", name) for name in job.state.every_name(SURFACE)]
    collectors = [("collector", name) for name in job.state.every_name(COLLECTOR)]
    return [one for one in (*surfaces, *collectors) if _is_drawn(job, *one)]


def _is_drawn(job: OpenJob, kind: str, name: str) -> bool:
    if kind == "collector":
        collector = job.state.latest(COLLECTOR, name)
        return collector is not None and bool(collector.design.path)
    surface = job.state.latest(SURFACE, name)
    return surface is not None and bool(surface.outline or surface.lines)


def plane_to_write(job: OpenJob, shapes: PlanShapes, source: str) -> LocalPlane | None:
    """The plane that a file was read into, if the book does not hold it yet."""
    found = shapes.projection
    if found is None or job.state.latest(LOCAL_PLANE) is not None:
        return None
    return LocalPlane(lon_ndeg=found.lon_ndeg, lat_ndeg=found.lat_ndeg, how=f"set by {source}")
