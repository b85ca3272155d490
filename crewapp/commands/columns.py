"""``crewapp columns``: the rows and columns that ``crewapp log`` reads."""

from __future__ import annotations

import argparse
import json

from crewapp.paper.rows import COLUMNS, ROWS


def run(args: argparse.Namespace) -> int:
    """Print every kind of row with its columns; a star marks one that must be filled."""
    told = {
        row.word: [cell.column + ("*" if cell.needed else "") for cell in row.cells] for row in ROWS
    }
    if args.json:
        print(json.dumps({"columns": COLUMNS, "rows": told}))
        return 0
    print("Header of the CSV, any of: " + ", ".join(COLUMNS))
    print("Every row fills day (YYYY-MM-DD) and entry; * must be filled:")
    for word, columns in told.items():
        print(f"  {word:14} {', '.join(columns)}")
    return 0
