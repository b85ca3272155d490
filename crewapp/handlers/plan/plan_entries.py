"""Writes what sets a job up: the job itself, its ground, its materials, its people."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import asdict
from typing import Any

from crewapp.commands.plan.plan_entries import AddTicket, SetDeepest, SetDrainageTerms, SetUnitPrice
from crewapp.job.dispatch import handles
from crewapp.job.open_job import JobChanges, NewEntry, OpenJob
from models.audit.plan_audit import audit, refuse
from models.audit.plan_view import PlanView
from models.audit.rule import PlanFault
from models.entries.bodies.day import Struck
from models.entries.bodies.surfaces import Surface
from models.entries.body import Body
from models.entries.envelope import body_fields, build_body
from models.entries.kind_names import BY_NAME, DRAINAGE_TERMS, MACHINE, SURFACE
from models.errors import CrewError
from models.plan.line import PlannedLine
from models.state.indexes import subject_of


class UnknownMachineError(CrewError, LookupError):
    """A machine was named that the plan does not have."""

    code = "laying.unknown_machine"
    sentence = "Nothing was written: the plan has no machine {machine}. Its machines are {known}."


def set_up(job: OpenJob, kind: str, **fields: Any) -> JobChanges:
    """Write a plan entry; one of the same name takes the place of the one before.

    Raises
    ------
    EntryRefusedError
        If a field does not fit; nothing is written.
    """
    return set_up_all(job, [(kind, fields)])


def set_up_all(job: OpenJob, plan: Sequence[tuple[str, dict[str, Any]]]) -> JobChanges:
    """Write several plan entries, all or none.

    A surface that gets other lines leaves its old layout behind: that is struck.

    Raises
    ------
    PlanRefusedError
        If what is written has faults that the audit of a plan refuses; all of them are told.
    EntryRefusedError
        If a field does not fit.
    """
    bodies = [build_body(kind, fields) for kind, fields in plan]
    refuse(plan_faults(job, bodies), job.figures)
    writings = list(_outlived(job, plan))
    for (kind, fields), body in zip(plan, bodies, strict=True):
        old = _standing_id(job, kind, fields)
        writings.append(
            NewEntry(body, strikes=(old,), reason="plan changed") if old else NewEntry(body)
        )
    return job.ink(*writings)


@handles(SetDeepest)
def set_deepest(job: OpenJob, command: SetDeepest) -> JobChanges:
    """Write how deep a machine cuts at most; the rest of it stays as it is.

    Raises
    ------
    UnknownMachineError
        If the job has no such machine.
    PlanRefusedError
        If a surface is planned deeper for it already.
    """
    machine = job.state.latest(MACHINE, command.machine_id)
    if machine is None:
        known = ", ".join(job.state.every_name(MACHINE)) or "none"
        raise UnknownMachineError(machine=command.machine_id, known=known)
    return set_up(job, "machine", **{**body_fields(machine), "deepest_nm": command.deepest_nm})


@handles(AddTicket)
def add_ticket(job: OpenJob, command: AddTicket) -> JobChanges:
    """Write a locate ticket; one of the same number takes the place of the one before."""
    return set_up(
        job,
        "locate_ticket",
        ticket=command.ticket,
        valid_from=command.valid_from,
        expires_on=command.expires_on,
        surfaces=command.surfaces,
    )


@handles(SetUnitPrice)
def set_unit_price(job: OpenJob, command: SetUnitPrice) -> JobChanges:
    """Write the price of an item of the take-off in place of the one before."""
    return set_up(
        job, "unit_price", item=command.item, price_cents=command.price_cents, per=command.per
    )


@handles(SetDrainageTerms)
def set_drainage_terms(job: OpenJob, command: SetDrainageTerms) -> JobChanges:
    """Write the terms of a surface's drainage: those given anew, the others as they stand."""
    old = job.state.latest(DRAINAGE_TERMS, command.surface_id)
    kept = body_fields(old) if old is not None else {}
    given = {name: value for name, value in asdict(command).items() if value is not None}
    return set_up(job, "drainage_terms", **{**kept, **given})


def plan_faults(job: OpenJob, bodies: Sequence[Body]) -> list[PlanFault]:
    """Return the audit's faults in bodies to be planned, beside the plan as it stands."""
    parts = {(body.kind, subject_of(body) or body.kind) for body in bodies}
    if not {kind for kind, _ in parts} & AUDITED:
        return []
    return list(audit(PlanView.of_state(job.state).with_bodies(bodies), parts))


def _outlived(job: OpenJob, plan: Sequence[tuple[str, dict[str, Any]]]) -> Iterator[NewEntry]:
    """Strikes of layouts that tell of lines which the plan takes away."""
    laid = {fields.get("surface_id") for kind, fields in plan if kind == "layout"}
    for kind, fields in plan:
        if kind != "surface" or fields.get("surface_id") in laid:
            continue
        old: Surface | None = job.state.latest(SURFACE, str(fields.get("surface_id")))
        layout = _standing_id(job, "layout", fields)
        if layout and old is not None and _lines(build_body(kind, fields)) != old.lines:
            why = "its surface was planned with other lines"
            yield NewEntry(Struck(why=why), strikes=(layout,), reason=why)


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
    "outlet": "outlet_id",
    "structure": "structure_id",
    "local_plane": "",
    "layout": "surface_id",
    "takeoff_terms": "",
    "unit_price": "item",
    "drainage_terms": "surface_id",
    "permanent_point": "point_id",
}
"""Kind of plan entry to the field that names it."""

AUDITED = frozenset({"surface", "layout", "collector", "outlet", "machine"})
"""Kinds that the audit of a plan looks at."""

PLAN_KINDS = tuple(NAMED_BY)
"""Kinds of entry that a plan is made of, in the order they are written."""


def _standing_id(job: OpenJob, kind: str, fields: dict[str, Any]) -> str:
    name = NAMED_BY[kind]
    filed = job.state.current(BY_NAME[kind], str(fields.get(name, "")) if name else "")
    return filed[-1].id if filed else ""
