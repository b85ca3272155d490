"""Checks made of the rules of the plan audit: faults of a plan in a book, flagged."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

from models.audit.plan_view import PlanView
from models.audit.registry import RULES
from models.audit.rule import Level, PlanFault, Rule
from models.checks.finding import AnyCheck, Check, Finding, Severity
from models.checks.memo import memoize
from models.entries.envelope import AnyEntry
from models.entries.kind_names import BY_NAME
from models.state.job_state import JobState

KEY = "plan"
"""First part of the keys of these flags: plan/A03/G7/sand_slit."""

PLAN_KINDS = ("surface", "layout", "collector", "outlet", "machine")


def plan_checks() -> tuple[AnyCheck, ...]:
    """Checks for every rule of the audit that refuses a plan or asks about it."""
    return tuple(map(_check_of, filter(_is_flagged, RULES)))


def _is_flagged(rule: Rule) -> bool:
    """Whether it looks at what a book holds: a file that was read is gone."""
    return bool(rule.kinds) and any(
        saying.level is not Level.NOTE for saying in rule.sayings.values()
    )


def _check_of(rule: Rule) -> AnyCheck:
    messages = {name: saying.what for name, saying in rule.sayings.items()}
    return Check(
        id=f"{KEY}/{rule.id}",
        severity=Severity.FIX,
        problem=rule.problem,
        why=rule.why,
        cure=rule.cure,
        message=next(iter(messages.values())),
        messages=messages,
        watches={kind: lambda state, entry: ("",) for kind in rule.kinds},
        subjects=lambda state: [""],
        examine=partial(_examine, rule),
    )


def _examine(rule: Rule, state: JobState, subject: str) -> Iterator[Finding]:
    """Go through the whole plan by one rule; that costs what the plan costs."""
    view = memoize(state, "plan_view", "", lambda: PlanView.of_state(state))
    for fault in rule.examine(view):
        if rule.sayings[fault.saying].level is not Level.NOTE:
            yield _found(rule, state, fault)


def _found(rule: Rule, state: JobState, fault: PlanFault) -> Finding:
    rests_on: list[AnyEntry] = []
    for kind, name in fault.parts:
        rests_on += state.current(BY_NAME[kind], name)[-1:]
    newest = max(rests_on, key=lambda entry: (entry.lc, entry.id))
    return Finding(
        check=f"{KEY}/{rule.id}",
        subject=fault.part[1],
        place=fault.place,
        facts=fault.facts,
        entries=tuple(entry.id for entry in rests_on),
        day=newest.day,
        saying=fault.saying,
    )
