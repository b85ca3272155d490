"""``crewapp plan audit``: what the plan of a book says against itself, worst first."""

from __future__ import annotations

import argparse
import json
from collections.abc import Iterable
from typing import Any

from crewapp.cli.books import book_to_read
from crewapp.cli.example import Example
from crewapp.job.open_job import OpenJob
from crewapp.words.translate import translate_later
from models.audit.plan_audit import audit, template_of
from models.audit.plan_view import PlanView
from models.audit.registry import BY_RULE, RULES
from models.audit.rule import Level, PlanFault, accepted_text, met_text
from models.checks.flag_board import Flag
from models.checks.plan_questions import KEY
from models.counted import CountedNoun
from models.units.job_units import Figures

EXAMPLES = (
    Example(
        "crewapp plan audit larkfield.book",
        translate_later("What the plan says against itself, and what it would be instead"),
    ),
)

_WORST_FIRST = tuple(Level)


def run(args: argparse.Namespace) -> int:
    """Print every finding; exit 1 while one that asks or refuses stands without an answer."""
    with book_to_read(args.book) as job:
        answers = _answers(job)
        faults = sorted(audit(PlanView.of_state(job.state)), key=_weight)
        told = [_tell(fault, answers.get(_key(fault)), job.figures) for fault in faults]
        name = job.name
    if args.json:
        print(json.dumps({"job": name, "findings": told}, ensure_ascii=False))
    else:
        _print(name, told)
    is_open = any(one["level"] != Level.NOTE and one["answer"] is None for one in told)
    return 1 if is_open else 0


def _weight(fault: PlanFault) -> tuple[int, str]:
    return _WORST_FIRST.index(template_of(fault).level), fault.rule


def _key(fault: PlanFault) -> tuple[str, str, str, str]:
    return f"{KEY}/{fault.rule}", fault.part[1], fault.place, fault.saying


def _answers(job: OpenJob) -> dict[tuple[str, str, str, str], Flag]:
    """Flags that the audit's findings raised in the book, by what they were found by."""
    flags = (flag for flag in job.board.flags() if flag.finding.check.startswith(f"{KEY}/"))
    return {
        (one.finding.check, one.finding.subject, one.finding.place, one.finding.saying): one
        for one in flags
    }


def _tell(fault: PlanFault, flag: Flag | None, figures: Figures) -> dict[str, Any]:
    saying, rule = template_of(fault), BY_RULE[fault.rule]
    answer = flag.answer.body if flag is not None and flag.answer is not None else None
    return {
        "rule": fault.rule,
        "level": saying.level.value,
        "flag": flag.finding.key if flag is not None else None,
        "part": list(fault.part),
        "column": fault.column,
        "found": f"{met_text(saying, fault, figures)}.",
        "accepted": accepted_text(saying, fault, figures),
        "why": rule.why,
        "cure": rule.cure,
        "answer": answer.answer if answer is not None else None,
        "answered_because": answer.why if answer is not None else None,
    }


def _print(name: str, told: Iterable[dict[str, Any]]) -> None:
    found = list(told)
    if not found:
        looked = sum(bool(rule.kinds) for rule in RULES)
        print(f"{name}: the plan was gone through by {looked} rules, and nothing was found.")
        return
    print(f"{name}: {CountedNoun(len(found)):finding|findings} in the plan.")
    for one in found:
        print(f"\n{one['level'].upper():6} {one['rule']}  {one['found']}")
        print(f"       accepted: {one['accepted']}.")
        if one["answer"]:
            print(f"       answered: {one['answer']}. {one['answered_because']}")
        else:
            print(f"       why: {one['why']}\n       do:  {one['cure']}")
