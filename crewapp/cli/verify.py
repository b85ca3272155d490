"""``crewapp verify``: is the book as it was written, and does a sheet belong to it."""

from __future__ import annotations

import argparse
import json
from collections.abc import Iterator
from pathlib import Path

from crewapp.cli.books import BookMissingError
from crewapp.cli.days import find_day, read_day
from crewapp.cli.example import Example
from crewapp.tablet.saved_heads import SavedHeads, missing_entries
from crewapp.tablet.settings import Tablet
from crewapp.words.translate import translate_later
from models.book.row import entry_of
from models.book.store import Book
from models.book.verify import BookReport
from models.counted import CountedNoun
from models.errors import CrewError
from models.state.check_code import read_code
from models.state.indexes import DAY_ACTS, SIGNED
from models.state.job_state import JobState
from sync.papers.printed_code import Outcome, Proof, verify_day, verify_sheet

EXAMPLES = (
    Example(
        "crewapp verify larkfield.book", translate_later("Every entry and every signed day, proven")
    ),
)


_CODE_LETTERS = 20


class CodeUnreadableError(CrewError, ValueError):
    """A text was given as a check code that can't be one."""

    code = "commands.code_unreadable"
    sentence = (
        "Cannot read {text!r} as a check code: it holds {count} letters and figures of a code. "
        "Accepted: the 20 that stand at the foot of the sheet, such as 7KQ2-01XM-9P3A-TTB4-6WZE."
    )


def run(args: argparse.Namespace) -> int:
    """Prove the chain of the book, then the code or the days; exit 1 if anything is not proven."""
    code = _code(args.code)
    if args.day is not None:
        read_day(args.day)
    if not args.book.exists():
        raise BookMissingError(path=args.book)
    with Book.open(args.book, read_only=True) as book:
        report = book.verify()
        missing = list(map(str, missing_entries(book, SavedHeads(Tablet.of_user().heads))))
        proofs: list[Proof] = []
        if report.is_sound:
            state = JobState(map(entry_of, book.rows()))
            proofs = list(_proofs(state, code, args.day))
    if args.json:
        print(json.dumps(_facts(report, proofs, missing), ensure_ascii=False))
    else:
        _print(args.book, report, proofs)
        for text in missing:
            print(text)
    return 0 if report.is_sound and not missing and all(proof.is_proven for proof in proofs) else 1


def _code(text: str | None) -> str | None:
    if text is None:
        return None
    code = read_code(text)
    count = len(code.replace("-", ""))
    if count != _CODE_LETTERS:
        raise CodeUnreadableError(text=text[:60], count=count)
    return code


def _proofs(state: JobState, code: str | None, day: str | None) -> Iterator[Proof]:
    """Prove what was asked for; with nothing asked, every day that was signed or closed."""
    if code is not None:
        proof = verify_sheet(state, code)
        yield proof if day is None else _on_day(proof, find_day(state, day))
    elif day is not None:
        yield verify_day(state, find_day(state, day))
    else:
        for one in sorted(state.days):
            if any(state.current(index, one) for index in (SIGNED, DAY_ACTS)):
                yield verify_day(state, one)


def _on_day(proof: Proof, day: str) -> Proof:
    if not proof.day or proof.day == day:
        return proof
    words = f"Not proven: {proof.code} belongs to {proof.day}, not to {day}."
    return Proof(Outcome.NOT_PROVEN, day, proof.code, words)


def _facts(report: BookReport, proofs: list[Proof], missing: list[str]) -> dict[str, object]:
    return {
        "sound": report.is_sound,
        "entries": report.count,
        "streams": {name: seq for name, (seq, _) in report.heads.items()},
        "faults": list(_faults(report)),
        "missing": missing,
        "proofs": [
            {
                "outcome": proof.outcome.value,
                "day": proof.day,
                "code": proof.code,
                "sentence": proof.sentence,
                "differs": list(proof.differs),
            }
            for proof in proofs
        ],
    }


def _faults(report: BookReport) -> Iterator[str]:
    """Everything that is wrong with the book, a line each; forks are told but are no fault."""
    for fault in report.faults:
        yield f"entry {fault.seq} of stream {fault.stream} ({fault.id}): {fault.what}"
    for gap in report.gaps:
        yield f"entries {gap.first} to {gap.last} of stream {gap.stream} are not in the book"
    for structure in report.structure:
        yield f"the file: {structure}"


def _print(path: Path, report: BookReport, proofs: list[Proof]) -> None:
    tablets = f"{CountedNoun(len(report.heads)):tablet|tablets}"
    if report.is_sound:
        print(
            f"{path}: {CountedNoun(report.count):entry|entries} "
            f"of {tablets}, every one as it was written."
        )
    else:
        print(
            f"{path}: not as it was written. "
            f"{CountedNoun(report.count):entry|entries} of {tablets} looked at:"
        )
        for line in _faults(report):
            print(f"  {line}")
        print("No sheet is proven by a book in this state; compare it with another copy.")
    for fork in report.forks:
        print(f"  number {fork.seq} of stream {fork.stream} was given twice; both are kept")
    for proof in proofs:
        print(proof.sentence)
        for line in proof.differs:
            print(f"  since then: {line}")
