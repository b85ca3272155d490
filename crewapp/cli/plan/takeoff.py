"""``crewapp plan takeoff``: what a job takes, with the arithmetic, and what one input moves."""

from __future__ import annotations

import argparse
import json
import sys
from collections.abc import Callable, Iterable
from fractions import Fraction
from pathlib import Path
from typing import Any

from crewapp.cli.books import book_to_read
from crewapp.cli.example import Example
from crewapp.words.translate import translate_later
from models.errors import CrewError
from models.queries.takeoff.inputs import inputs_of
from models.queries.takeoff.job_takeoff import JobTakeoff, reckon
from models.queries.takeoff.what_if import ChangedTakeoff, read_change, try_changes
from models.science.takeoff.items import Amount, ChangedLine, TakeoffLine
from models.state.job_state import JobState

EXAMPLES = (
    Example(
        "crewapp plan takeoff larkfield.book --out takeoff",
        translate_later("What the job takes, with its arithmetic, as PDF and XLSX"),
    ),
    Example(
        "crewapp plan takeoff larkfield.book --with swell=30%",
        translate_later("What one changed figure moves; nothing is written"),
    ),
)


Show = Callable[[Amount], str]
USE_WORDS = {"sand_slit": "sand slits", "piped_slit": "piped slits", "collector": "collector"}


class TakeoffNotWrittenError(CrewError, OSError):
    """A take-off could not be put where it was to go."""

    code = "commands.takeoff_not_written"
    sentence = (
        "The take-off was not written into {folder}: {why}. "
        "A folder that can be written into would be accepted."
    )


def run(args: argparse.Namespace) -> int:
    """Print the take-off, or what moves when inputs are changed; the book stays as it is."""
    changes = [read_change(text) for text in args.changes]
    with book_to_read(args.book) as job:
        inputs = inputs_of(job.state)
        changed = try_changes(inputs, changes) if changes else None
        takeoff = changed.after if changed else reckon(inputs)
        tried = ", ".join(args.changes)
        files = _write(job.state, takeoff, tried, args.out) if args.out is not None else []
        name = job.name
    if args.json:
        print(json.dumps(_told(name, takeoff, changed, files), ensure_ascii=False))
        return 0
    print(f"{name}: take-off{f' with {tried}' if tried else ''}")
    _print_moved(changed) if changed else _print(takeoff)
    for path in files:
        print(f"  {path}")
    return 0


def _write(state: JobState, takeoff: JobTakeoff, tried: str, folder: Path) -> list[Path]:
    # Only now: looking at a book should not pay for the libraries that print.
    from sync.papers.takeoff.takeoff_files import write_takeoff_sheets

    try:
        return write_takeoff_sheets(state, takeoff, folder, tried=tried)
    except OSError as fault:
        why = fault.strerror or str(fault)
        raise TakeoffNotWrittenError(folder=folder, why=why) from fault


def _print(takeoff: JobTakeoff) -> None:
    for part in takeoff.parts:
        print(f"\n{part.subject} {part.name}")
        for use in part.uses:
            print(f"  {USE_WORDS[use.use]}")
            _print_lines(use.lines, takeoff.show, indent=4)
    print("\nWhole job")
    _print_lines(takeoff.lines, takeoff.show, indent=2)
    if takeoff.money:
        print("\nEstimate at the prices typed in; what has no price is not in it")
        _print_lines(takeoff.money, takeoff.show, indent=2)
    _print_sentences("Reckoned with", takeoff.basis)
    _print_sentences("Not in it", takeoff.missing)


def _print_lines(lines: Iterable[TakeoffLine], show: Show, indent: int) -> None:
    for line in lines:
        print(f"{' ' * indent}{line.item.value}: {line.arithmetic(show)}")


def _print_sentences(title: str, sentences: Iterable[str]) -> None:
    told = list(sentences)
    if told:
        print(f"\n{title}")
        print("\n".join(f"  {sentence}" for sentence in told))


def _print_moved(changed: ChangedTakeoff) -> None:
    """What moves, before and after; nothing was written."""
    moved = [*changed.moved, *changed.money_moved]
    if not moved:
        print("  nothing moves")
    show = changed.after.show
    for one in moved:
        print(f"  {one.item.value}: {_or_none(one.before, show)} -> {_or_none(one.after, show)}")
    news = [text for text in changed.after.missing if text not in changed.before.missing]
    _print_sentences("Not in it", news)
    print("Nothing was written.", file=sys.stderr)


def _or_none(amount: Amount | None, show: Show) -> str:
    return "not taken off" if amount is None else show(amount)


def _told(
    name: str, takeoff: JobTakeoff, changed: ChangedTakeoff | None, files: list[Path]
) -> dict[str, Any]:
    show = takeoff.show
    moved = (*changed.moved, *changed.money_moved) if changed else ()
    return {
        "job": name,
        "parts": [
            {
                "subject": part.subject,
                "name": part.name,
                "uses": {use.use: _lines(use.lines, show) for use in part.uses},
                "lines": _lines(part.lines, show),
            }
            for part in takeoff.parts
        ],
        "lines": _lines(takeoff.lines, show),
        "money": _lines(takeoff.money, show),
        "moved": [_moved(one, show) for one in moved],
        "basis": list(takeoff.basis),
        "missing": list(takeoff.missing),
        "files": [str(path) for path in files],
    }


def _lines(lines: Iterable[TakeoffLine], show: Show) -> list[dict[str, Any]]:
    return [
        {
            "item": line.item.value,
            "amount": float(Fraction(line.amount.size)),
            "unit": line.amount.kind.value,
            "shown": show(line.amount),
            "arithmetic": line.arithmetic(show),
        }
        for line in lines
    ]


def _moved(one: ChangedLine, show: Show) -> dict[str, Any]:
    return {
        "item": one.item.value,
        "before": _or_none(one.before, show),
        "after": _or_none(one.after, show),
    }
