"""Audit of a plan file: each fault that it refuses, where it stands in the file."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from crewapp.imports.problems import Problem
from models.audit.plan_audit import audit, faults_of_level, template_of
from models.audit.plan_view import PlanView
from models.audit.rule import Level, Part, PlanFault, accepted_text, met_text
from models.entries.body import Body
from models.entries.envelope import build_body
from models.units.job_units import Figures

Plan = list[tuple[str, dict[str, Any]]]


def audit_problems(
    before: PlanView, plan: Plan, unlaid: list[Body], places: Mapping[Part, str], figures: Figures
) -> Iterator[Problem]:
    """Faults that a plan can't be written with, beside what stands in the book.

    ``unlaid`` are layouts that were asked for and could not be laid; ``places`` tell where
    in the file each entry stands.
    """
    bodies = [*unlaid, *(build_body(kind, fields) for kind, fields in plan)]
    view = before.with_bodies(bodies)
    for fault in faults_of_level(list(audit(view, set(places))), Level.REFUSE):
        saying = template_of(fault)
        place = ", ".join(part for part in (_place(fault, places), fault.column) if part)
        what, accepted = (say(saying, fault, figures) for say in (met_text, accepted_text))
        yield Problem(0, place, "", what, accepted)


def _place(fault: PlanFault, places: Mapping[Part, str]) -> str:
    """Where the first part of a fault that stands in the file does; a layout in its surface."""
    parts = [("surface" if kind == "layout" else kind, name) for kind, name in fault.parts]
    return next((places[part] for part in parts if part in places), " ".join(fault.part))
