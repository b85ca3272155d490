"""``crewapp levels``: reduce a page of level notes, or work out a peg test, and check it."""

from __future__ import annotations

import argparse
import json
import sys

from crewapp.cli.example import Example
from crewapp.tablet.read_files import read_bytes
from crewapp.words.translate import translate_later
from models.readers.level_notes import (
    LEAST_SQUARES,
    PEG_COLUMNS,
    PageAdjustment,
    PegPage,
    is_peg_page,
    read_allowance,
    read_peg_page,
    reduce_notes,
)
from models.science.levelling.adjustment import AdjustBy
from models.units import LengthUnit, parse_length
from sync.papers.level_book import build_facts, build_text
from sync.papers.peg_test_text import build_peg_facts, build_peg_text

EXAMPLES = (
    Example(
        "crewapp levels papers/levels.csv",
        translate_later("A page of level notes, reduced and checked"),
    ),
    Example(
        "crewapp levels papers/levels.csv --allow 0.01/setup --adjust no",
        translate_later("At 0.01 ft a setup, nothing shared out"),
    ),
)


_WAYS: dict[str, PageAdjustment | None] = {
    "setups": AdjustBy.SETUPS,
    "distance": AdjustBy.DISTANCE,
    "least-squares": LEAST_SQUARES,
    "no": None,
}
_FORMS = (
    "A CSV of level notes with the columns point, BS, IS, FS and remarks, "
    f"or of a peg test with {', '.join(PEG_COLUMNS)}"
)


def run(args: argparse.Namespace) -> int:
    """Print the reduced page; exit 1 unless every closing may stand and the arithmetic agrees.

    A page with a column of pegs is a peg test; it exits 1 when the instrument is out.
    """
    unit = LengthUnit(args.unit)
    start_nm = None if args.start is None else parse_length(args.start, unit, signed=True)
    allowance = None if args.allow is None else read_allowance(args.allow, unit)
    data = read_bytes(args.notes, _FORMS)
    if is_peg_page(data):
        return _peg_test(read_peg_page(data, unit, args.peg_limit), is_json=args.json)
    book = reduce_notes(data, unit, allowance, _WAYS[args.adjust], start_nm)
    if args.json:
        print(json.dumps(build_facts(book), ensure_ascii=False))
    else:
        sys.stdout.write(build_text(book))
    return 0 if book.is_sound else 1


def _peg_test(page: PegPage, *, is_json: bool) -> int:
    if is_json:
        print(json.dumps(build_peg_facts(page), ensure_ascii=False))
    else:
        sys.stdout.write(build_peg_text(page))
    return 0 if page.is_good else 1
