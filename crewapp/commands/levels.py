"""``crewapp levels``: reduce a page of level notes and check it."""

from __future__ import annotations

import argparse
import json
import sys

from crewapp.commands.files import read_bytes
from models.calculations.adjustment import AdjustBy
from models.level_notes import read_allowance, reduce_notes
from models.units import LengthUnit, parse_length
from sync.sheets.level_book import build_facts, build_text

_WAYS = {"setups": AdjustBy.SETUPS, "distance": AdjustBy.DISTANCE, "no": None}
_FORMS = "A CSV of level notes with the columns point, BS, IS, FS and remarks"


def run(args: argparse.Namespace) -> int:
    """Print the reduced page; exit 1 unless every closing may stand and the arithmetic agrees."""
    unit = LengthUnit(args.unit)
    start_nm = None if args.start is None else parse_length(args.start, unit, signed=True)
    allowance = None if args.allow is None else read_allowance(args.allow, unit)
    book = reduce_notes(
        read_bytes(args.notes, _FORMS), unit, allowance, _WAYS[args.adjust], start_nm
    )
    if args.json:
        print(json.dumps(build_facts(book), ensure_ascii=False))
    else:
        sys.stdout.write(build_text(book))
    return 0 if book.is_sound else 1
