"""JSON Schema of every kind of entry, for any tool that reads a book."""

from __future__ import annotations

from typing import Any

from pydantic.json_schema import models_json_schema

from models.entries.kinds import KINDS


def entry_schema() -> dict[str, Any]:
    """Schema of an entry: the envelope, with a body per kind.

    Lengths are whole nanometres, volumes picolitres, masses micrograms; every
    field's description names its unit.
    """
    refs, definitions = models_json_schema(
        [(model, "validation") for model in KINDS.values()], title="crewapp entries"
    )
    whole = {"type": "integer"}
    text = {"type": "string"}
    envelope = {
        "id": text,
        "stream": text,
        "seq": whole,
        "lc": whole,
        "v": whole,
        "at_ms": whole,
        "offset_min": whole,
        "zone": text,
        "author": text,
        "job": text,
        "day": {"type": "string", "format": "date"},
        "strikes": {"type": "array", "items": text},
        "reason": text,
        "needs": {"type": "array", "items": text, "minItems": 1},
    }
    kinds = [
        {
            "properties": {"kind": {"const": kind}, "body": refs[(model, "validation")]},
            "required": ["kind", "body"],
        }
        for kind, model in KINDS.items()
    ]
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        **definitions,
        "type": "object",
        "properties": envelope,
        "required": sorted([*(envelope.keys() - {"needs"}), "kind", "body"]),
        "oneOf": kinds,
    }
