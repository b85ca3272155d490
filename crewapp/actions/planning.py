"""What sets a job up: the job itself, its ground, its materials, its people."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from crewapp.open_job import Changed, OpenJob, Writing
from models.entries.body import Body
from models.entries.day import Struck
from models.entries.envelope import build_body
from models.entries.surface import Surface
from models.plan.line import PlannedLine


def set_up(job: OpenJob, kind: str, **fields: Any) -> Changed:
    """Write a plan entry; one of the same name takes the place of the one before.

    Raises
    ------
    EntryRefusedError
        If a field does not fit; nothing is written.
    """
    return set_up_all(job, [(kind, fields)])


def set_up_all(job: OpenJob, plan: Sequence[tuple[str, dict[str, Any]]]) -> Changed:
    """Write several plan entries, all or none.

    A surface that gets other lines leaves its old layout behind: that is struck.
    """
    writings = list(_outlived(job, plan))
    for kind, fields in plan:
        body = build_body(kind, fields)
        old = _standing_id(job, kind, fields)
        writings.append(
            Writing(body, strikes=(old,), reason="plan changed") if old else Writing(body)
        )
    return job.ink(*writings)


def _outlived(job: OpenJob, plan: Sequence[tuple[str, dict[str, Any]]]) -> Iterator[Writing]:
    """Strikes of layouts that tell of lines which the plan takes away."""
    laid = {fields.get("surface_id") for kind, fields in plan if kind == "layout"}
    for kind, fields in plan:
        if kind != "surface" or fields.get("surface_id") in laid:
            continue
        old: Surface | None = job.state.latest("surface", str(fields.get("surface_id")))
        layout = _standing_id(job, "layout", fields)
        if layout and old is not None and _lines(build_body(kind, fields)) != old.lines:
            why = "its surface was planned with other lines"
            yield Writing(Struck(why=why), strikes=(layout,), reason=why)


def _lines(body: Body) -> tuple[PlannedLine, ...]:
    assert isinstance(body, Surface)
    return body.lines


NAMED_BY = {
    "job": "",
    "benchmark": "benchmark_id",
    "material": "material_id",
    "locate_ticket": "ticket",
    "person": "person_id",
    "machine": "machine_id",
    "surface": "surface_id",
    "collector": "collector_id",
    "local_plane": "",
    "layout": "surface_id",
    "takeoff_terms": "",
    "unit_price": "item",
    "drainage_terms": "surface_id",
    "permanent_point": "point_id",
}
"""Kind of plan entry to the field that names it."""

PLAN_KINDS = tuple(NAMED_BY)
"""Kinds of entry that a plan is made of, in the order they are written."""


def _standing_id(job: OpenJob, kind: str, fields: dict[str, Any]) -> str:
    name = NAMED_BY[kind]
    filed = job.state.current(kind, str(fields.get(name, "")) if name else "")
    return filed[-1].id if filed else ""
