"""The JSON Schema of entries, kept as a file so that a change of it is seen."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

from models.entries.kinds import KINDS
from models.entries.schema import entry_schema

FILE = Path(__file__).parents[3] / "fixtures" / "schema" / "entries.schema.json"


def test_schema_is_the_one_on_file() -> None:
    """A changed field shows as a changed file: `crewapp schema` prints it anew."""
    assert json.loads(FILE.read_text("utf-8")) == entry_schema()


def test_schema_has_every_kind_with_its_body() -> None:
    """Each kind stands in the schema beside a body that is defined in it."""
    schema: dict[str, Any] = entry_schema()
    kinds = {
        one["properties"]["kind"]["const"]: one["properties"]["body"]["$ref"]
        for one in schema["oneOf"]
    }

    assert set(kinds) == set(KINDS)
    assert {ref.removeprefix("#/$defs/") for ref in kinds.values()} <= set(schema["$defs"])


def test_schema_wants_the_whole_envelope() -> None:
    """No part of the envelope may be left out."""
    assert set(entry_schema()["required"]) == {
        *("at_ms", "author", "body", "day", "id", "job", "kind", "lc", "offset_min"),
        *("reason", "seq", "stream", "strikes", "v", "zone"),
    }


def test_schema_describes_every_field() -> None:
    """A tool that reads the schema is told what each figure is and its unit."""
    bare = [
        f"{name}.{field}"
        for name, definition in entry_schema()["$defs"].items()
        for field, told in definition["properties"].items()
        if not told.get("description")
    ]

    assert bare == []
