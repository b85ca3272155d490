"""``crewapp plan compare``: what each bearing would cost, in one table."""

from __future__ import annotations

import argparse
import json
import sys
from collections.abc import Iterator
from dataclasses import asdict

from crewapp.cli.books import book_to_read
from crewapp.cli.example import Example
from crewapp.cli.plan.arguments import USES
from crewapp.cli.plan.layout_request import read_layout_request
from crewapp.handlers.plan.layout import compare_bearings_of_use
from crewapp.imports.plan.typed_layout import TypedLayoutError
from crewapp.words.translate import translate_later
from models.science.layout.bearings import BearingRow
from models.units import parse_bearing, show_bearing
from models.units.job_units import Figures

EXAMPLES = (
    Example(
        "crewapp plan compare larkfield.book --surface G5",
        translate_later("Sand slits of the green at every 15 degrees"),
    ),
    Example(
        "crewapp plan compare larkfield.book --surface F2 --lines piped",
        translate_later("Piped slits of the field"),
    ),
)


MOST_BEARINGS = 360
_EVERY_UDEG = 15_000_000
_HALF_TURN_UDEG = 180_000_000
_HEADS = (
    "bearing", "lines", "pieces", "drives", "turns", "lifts", "stubs",
    "length", "stubs left out", "driven", "headland",
)  # fmt: skip


def run(args: argparse.Namespace) -> int:
    """Print one row a bearing; nothing is recommended and nothing written."""
    bearings = _bearings(args.bearings)
    with book_to_read(args.book) as job:
        asked = read_layout_request(args, job)
        found = compare_bearings_of_use(job, args.surface, USES[args.lines], bearings, **asked)
        rows = list(_watched(found, len(bearings)))
        figures = job.figures
    if args.json:
        print(json.dumps({"surface": args.surface, "rows": [asdict(row) for row in rows]}))
    else:
        _print([_HEADS, *(_cells(row, figures) for row in rows)])
    return 0


def _bearings(text: str | None) -> list[int]:
    if text is None:
        return list(range(0, _HALF_TURN_UDEG, _EVERY_UDEG))
    bearings = [parse_bearing(part) for part in text.split(",")]
    if len(bearings) > MOST_BEARINGS:
        forms = f"at most {MOST_BEARINGS}, such as 0,15,30"
        raise TypedLayoutError(text=text[:40], what="bearings", forms=forms)
    return bearings


def _watched(rows: Iterator[BearingRow], count: int) -> Iterator[BearingRow]:
    """Rows as they come, with a line that counts them where somebody watches."""
    is_watched = sys.stderr.isatty()
    for number, row in enumerate(rows, start=1):
        if is_watched:
            end = "\n" if number == count else "\r"
            print(f"bearing {number} of {count}", end=end, file=sys.stderr, flush=True)
        yield row


def _cells(row: BearingRow, figures: Figures) -> tuple[str, ...]:
    counts = (row.lines, row.segments, row.passes, row.turns, row.lifts, row.stubs)
    lengths = (row.length_nm, row.stub_length_nm, row.driven_nm, row.headland_nm)
    return (
        show_bearing(row.bearing_udeg),
        *map(str, counts),
        *(figures.distance(length) for length in lengths),
    )


def _print(rows: list[tuple[str, ...]]) -> None:
    widths = [max(len(cell) for cell in column) for column in zip(*rows, strict=True)]
    for row in rows:
        print("  ".join(cell.rjust(wide) for cell, wide in zip(row, widths, strict=True)))
