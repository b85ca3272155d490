"""``crewapp schema``: the JSON Schema of every kind of entry."""

from __future__ import annotations

import argparse
import json

from crewapp.cli.example import Example
from crewapp.words.translate import translate_later
from models.entries.schema import entry_schema

EXAMPLES = (Example("crewapp schema", translate_later("The JSON Schema of every kind of entry")),)


def run(args: argparse.Namespace) -> int:
    """Print the JSON Schema of all entries."""
    print(json.dumps(entry_schema(), indent=1, sort_keys=True, ensure_ascii=False))
    return 0
