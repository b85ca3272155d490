"""Entries that are kept as files for ever: one for every kind, version and set of fields.

Each file holds the bytes of an entry, what its body was read as when it was kept, and the
SHA-256 of the file before it. They are one stream of one tablet, in the order they were kept
in, so none can be changed or taken away unnoticed. ``python -m tests.house.keep_bodies``
adds what is missing.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from models.entries.kinds import KINDS
from models.plan.record import Record, records_in
from sync.trust.keys import Signer

FOLDER = Path(__file__).parents[3] / "fixtures" / "bodies"
WRITER = Signer(b"frozen bodies".ljust(32, b"."))


@dataclass(frozen=True, slots=True)
class FrozenBody:
    """One file: where it lies, and what it holds."""

    path: Path
    raw: bytes
    reading: dict[str, Any]
    before: str
    digest: str

    @classmethod
    def read(cls, path: Path) -> FrozenBody:
        """Read a file."""
        content = path.read_bytes()
        held = json.loads(content)
        digest = hashlib.sha256(content).hexdigest()
        return cls(path, held["raw"].encode(), held["reading"], held["before"], digest)

    @property
    def entry(self) -> dict[str, Any]:
        """The entry as JSON, read anew each time."""
        found: dict[str, Any] = json.loads(self.raw)
        return found

    @property
    def fields(self) -> set[str]:
        """Every field of its body, at every depth."""
        return set(stored_places(self.entry["body"]))


def frozen_bodies() -> list[FrozenBody]:
    """Every file, in the order in which they were kept."""
    return sorted(map(FrozenBody.read, FOLDER.rglob("*.json")), key=lambda one: one.entry["seq"])


def content_of(raw: bytes, reading: dict[str, Any], before: str) -> str:
    """What a file holds."""
    held = {"before": before, "raw": raw.decode(), "reading": reading}
    return json.dumps(held, indent=1, ensure_ascii=False) + "\n"


def stored_places(value: Any, at: str = "") -> Iterator[str]:
    """Yield the name of every field in some stored fields, with its place; members of a list alike.

    >>> sorted(set(stored_places({"terms": [{"use": "x"}]})))
    ['terms', 'terms.use']
    """
    if isinstance(value, dict):
        for name, inner in value.items():
            yield at + name
            yield from stored_places(inner, f"{at}{name}.")
    elif isinstance(value, list):
        for inner in value:
            yield from stored_places(inner, at)


def model_places(model: type[Record], at: str = "") -> Iterator[str]:
    """Yield the name of every field of a record, with its place, and of the records in it."""
    for name, field in model.model_fields.items():
        yield at + name
        for inner in records_in(field.annotation):
            yield from model_places(inner, f"{at}{name}.")


def not_frozen(kept: list[FrozenBody]) -> list[str]:
    """Kinds of which no file holds exactly the fields that they have now."""
    held = {(one.entry["kind"], one.entry["v"], frozenset(one.fields)) for one in kept}
    return [
        kind
        for kind, model in KINDS.items()
        if (kind, model.version, frozenset(model_places(model))) not in held
    ]
