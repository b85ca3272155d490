"""``crewapp columns``: the rows and columns that ``crewapp log`` reads."""

from __future__ import annotations

import argparse
import json

from crewapp.cli.example import Example
from crewapp.imports.notes.rows import COLUMNS, ROWS
from crewapp.words.translate import translate_later
from models.readers.level_notes import PEG_COLUMNS
from models.readers.level_notes.table import ALIASES, REQUIRED

EXAMPLES = (Example("crewapp columns", translate_later("The rows and columns that log reads")),)

_PAGES = {
    "run of levels": [name + "*" * (name in REQUIRED) for name in ALIASES],
    "peg test": [name + "*" * (name not in {"remarks", "distance"}) for name in PEG_COLUMNS],
}
"""Pages of level notes, a star behind what must be filled; a peg test needs its distances too."""


def run(args: argparse.Namespace) -> int:
    """Print every kind of row with its columns; a star marks one that must be filled."""
    told = {
        row.word: [cell.column + ("*" if cell.needed else "") for cell in row.cells] for row in ROWS
    }
    if args.json:
        print(json.dumps({"columns": COLUMNS, "rows": told, "levels": _PAGES}))
        return 0
    print("Header of the CSV, any of: " + ", ".join(COLUMNS))
    print("Every row fills day (YYYY-MM-DD) and entry; * must be filled:")
    for word, columns in told.items():
        print(f"  {word:16} {', '.join(columns)}")
    print("Pages that `crewapp levels` reads, a row a reading:")
    for word, columns in _PAGES.items():
        print(f"  {word:16} {', '.join(columns)}")
    return 0
