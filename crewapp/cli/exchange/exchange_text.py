"""The report of an exchange as printed text and as plain facts."""

from __future__ import annotations

import json
import sys
from collections.abc import Sequence
from pathlib import Path
from typing import Any

from models.counted import CountedNoun
from models.entries.tablet_code import code_of
from sync.exchange.exchange_log import RejectedSegment
from sync.exchange.request import ExchangeReport

_MOST_TOLD = 20  # more than that is rubbish in a store, and hides what is to be read
_STEPS = {
    "list": "looking at the store",
    "fetch": "fetching",
    "seal": "putting this tablet's entries together",
    "open": "opening",
    "merge": "taking in",
    "send": "sending",
    "thumbs": "small pictures",
    "photos": "photos",
    "pack": "packing",
    "files": "taking files in",
    "index": "working figures out",
}


class Progress:
    """Prints the steps of an exchange on the error stream, on one line or line by line."""

    def __init__(self, is_quiet: bool) -> None:
        self._is_quiet = is_quiet
        self._is_glass = sys.stderr.isatty()
        self._last = ""

    def __call__(self, step: str, done: int, total: int) -> None:
        """Tell one step."""
        if self._is_quiet or (not self._is_glass and step == self._last):
            return
        self._last = step
        words = _STEPS.get(step, step)
        counted = f"{words} {done + 1} of {total}" if total > 1 else words
        end = "" if self._is_glass else "\n"
        print(f"\r\033[K{counted}" if self._is_glass else counted, end=end, file=sys.stderr)

    def end(self) -> None:
        """Clear the line that was written over."""
        if self._is_glass and not self._is_quiet:
            print("\r\033[K", end="", file=sys.stderr)


def print_report(
    book: Path, report: ExchangeReport, as_json: bool, *, held: int | None = None
) -> int:
    """Print the report of an exchange; return the exit code.

    ``held`` is how many entries a file holds that was taken in: if all of them were here, it
    is told.
    """
    is_known = held is not None and report.is_complete and not report.new_rows
    if as_json:
        told = {"held_already": held} if is_known else {}
        print(json.dumps({**_facts(report), **told}, ensure_ascii=False))
    else:
        for line in _lines(book, report):
            print(line)
        if is_known:
            print(f"  held all {held} already: the file brought nothing new")
    return 0 if report.is_complete else 1


def rejected_lines(aside: Sequence[RejectedSegment]) -> list[str]:
    """Return lines on entries that were set aside: the first few, and how many more there are."""
    lines = [f"  set aside: {one.sentence}" for one in aside[:_MOST_TOLD]]
    if len(aside) > _MOST_TOLD:
        lines.append(f"  set aside: {len(aside) - _MOST_TOLD} more; --json names them all")
    return lines


def _facts(report: ExchangeReport) -> dict[str, Any]:
    return {
        "job": report.job.key,
        "new_entries": report.new_rows,
        "segments_in": report.fetched,
        "entries_out": report.out.rows,
        "entries_to_send": report.to_send,
        "entries_without_key": report.unsigned_rows,
        "segments_out": report.out.files,
        "photos_in": report.pictures.came,
        "photos_out": report.pictures.sent,
        "photos_awaited": report.pictures.awaited,
        "set_aside": [
            {"name": one.name, "code": one.code, "sentence": one.sentence} for one in report.aside
        ],
        "notes": [*report.notes, *report.pictures.notes],
        "strange_files": report.strange,
        "took_new_identity": report.was_identity_used,
        "cut": report.cut,
        "is_whole": report.is_complete,
    }


def _went(report: ExchangeReport) -> str:
    """How many entries went out, of how many, and how many nobody here can sign for."""
    if not report.to_send:
        return f"{CountedNoun(0):entry|entries}"
    waits = (
        f"; {CountedNoun(report.unsigned_rows):waits|wait} for their tablet's key"
        if report.unsigned
        else ""
    )
    return f"sent {report.out.rows} of {CountedNoun(report.to_send):entry|entries}{waits}"


def _lines(book: Path, report: ExchangeReport) -> list[str]:
    pictures = report.pictures
    lines = [
        f"{book}, job {report.job.key}, founded by tablet {code_of(report.job.founder) or '?'}",
        f"  in: {CountedNoun(report.new_rows):new entry|new entries} in "
        f"{CountedNoun(report.fetched):segment|segments}, "
        f"{CountedNoun(pictures.came):photo|photos}",
        f"  out: {_went(report)}, {CountedNoun(report.out.files):segment|segments}, "
        f"{CountedNoun(pictures.sent):photo|photos}",
    ]
    if pictures.awaited:
        lines.append(f"  {CountedNoun(pictures.awaited):photo is|photos are} not in the store yet")
    if report.was_identity_used:
        lines.append(
            "  another tablet wrote under this one's identity, so this one took a new one; "
            "nothing was lost or overwritten"
        )
    lines += rejected_lines(report.aside)
    lines += [f"  note: {note}" for note in (*report.notes, *pictures.notes)]
    if report.cut:
        lines.append(f"  cut short: {report.cut} Run it again: it goes on where it stopped.")
    return lines
