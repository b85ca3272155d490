"""Audit of a plan: every rule run over it, the faults written as sentences."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterator, Sequence
from dataclasses import replace

from models.audit.plan_view import PlanView
from models.audit.registry import BY_RULE, RULES
from models.audit.rule import FaultTemplate, Level, Part, PlanFault, accepted_text, met_text
from models.errors import CrewError
from models.units.job_units import Figures

MOST_TOLD = 40


class PlanRefusedError(CrewError, ValueError):
    """A plan has faults that keep it from being written; ``faults`` on ``context`` lists them."""

    code = "audit.refused"
    sentence = "Nothing was written: the plan has {count:thing|things} to put right.\n{listing}"


def audit(view: PlanView, parts: Collection[Part] | None = None) -> Iterator[PlanFault]:
    """Every fault of a plan, or every one that rests on one of these parts of it."""
    for rule in RULES:
        for fault in rule.examine(view):
            if parts is None or any(part in parts for part in fault.parts):
                yield fault


def template_of(fault: PlanFault) -> FaultTemplate:
    """Sentence template and weight of a fault."""
    return BY_RULE[fault.rule].sayings[fault.saying]


def faults_of_level(faults: Sequence[PlanFault], *levels: Level) -> list[PlanFault]:
    """Faults of one weight, out of all."""
    return [fault for fault in faults if template_of(fault).level in levels]


def fault_text(
    fault: PlanFault, figures: Figures, translate: Callable[[str], str] = lambda text: text
) -> str:
    """Two sentences on a fault: what was met, and what would be accepted.

    ``translate`` gives a template in another language.
    """
    own = template_of(fault)
    saying = FaultTemplate(own.level, translate(own.what), translate(own.accepted))
    words = {"lines": translate(str(fault.facts["lines"]))} if "lines" in fault.facts else {}
    fault = replace(fault, facts={**fault.facts, **words})
    accepted = accepted_text(saying, fault, figures)
    lead = translate("Accepted: {accepted}.")
    return f"{met_text(saying, fault, figures)}. {lead.format(accepted=accepted)}"


def refuse(faults: Sequence[PlanFault], figures: Figures) -> None:
    """Refuse a plan that has a fault of the level REFUSE; the error lists every one of them.

    Raises
    ------
    PlanRefusedError
        If there is a fault that a plan can't be written with.
    """
    barred = faults_of_level(faults, Level.REFUSE)
    if barred:
        lines = [fault_text(fault, figures) for fault in barred]
        more = [f"... and {len(barred) - MOST_TOLD} more"] if len(barred) > MOST_TOLD else []
        listing = "\n".join([*lines[:MOST_TOLD], *more])
        raise PlanRefusedError(count=len(barred), listing=listing, faults=tuple(lines))
