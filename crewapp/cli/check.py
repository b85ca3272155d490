"""``crewapp check``: what is out of tolerance or missing, worst first."""

from __future__ import annotations

import argparse
import json
from typing import Any

from crewapp.cli.books import book_to_read
from crewapp.cli.example import Example
from crewapp.words.translate import translate_later
from models.checks.finding import Severity
from models.checks.finding_text import sentence
from models.checks.flag_board import Flag
from models.checks.registry import BY_ID
from models.counted import CountedNoun
from models.units.job_units import Figures

EXAMPLES = (
    Example(
        "crewapp check larkfield.book",
        translate_later("What is out of tolerance or missing, worst first"),
    ),
    Example(
        "crewapp check larkfield.book --all", translate_later("With what was answered already")
    ),
)


def run(args: argparse.Namespace) -> int:
    """Print the flags; exit 1 while one that stops the work is open."""
    with book_to_read(args.book) as job:
        flags = [flag for flag in job.board.flags() if args.all or flag.answer is None]
        told = [_tell(flag, job.figures, is_plain=args.json) for flag in flags]
        name = job.name
    stops = any(flag.severity is Severity.STOP and flag.answer is None for flag in flags)
    if args.json:
        print(json.dumps({"job": name, "flags": told}, ensure_ascii=False))
    else:
        _print(name, told)
    return 1 if stops else 0


def _tell(flag: Flag, figures: Figures, *, is_plain: bool) -> dict[str, Any]:
    """A flag's facts; plain for machines, which read days as YYYY-MM-DD."""
    check = BY_ID[flag.finding.check]
    answer = flag.answer.body if flag.answer is not None else None
    return {
        "flag": flag.finding.key,
        "severity": flag.severity.value,
        "day": flag.finding.day,
        "entries": list(flag.finding.entries),
        "found": sentence(flag.finding, figures, shown_day=str if is_plain else None),
        "why": check.why,
        "cure": check.cure_of(flag.finding),
        "answer": answer.answer if answer is not None else None,
        "answered_because": answer.why if answer is not None else None,
    }


def _print(name: str, told: list[dict[str, Any]]) -> None:
    if not told:
        print(f"{name}: nothing stands open.")
        return
    print(f"{name}: {CountedNoun(len(told)):flag|flags}.")
    for flag in told:
        print(f"\n{flag['severity'].upper():5} {flag['day']}  {flag['found']}")
        if flag["answer"]:
            print(f"      answered: {flag['answer']}. {flag['answered_because']}")
        else:
            print(f"      why: {flag['why']}\n      do:  {flag['cure']}")
