"""Keep an entry of every kind and set of fields for ever, as files in fixtures/bodies.

``python -m tests.house.keep_bodies`` adds a file for every kind whose fields are others than
those of its files: a field was added, or the kind is new. What is there is never changed.
"""

from __future__ import annotations

import json
from typing import Any

from models.book.row import Draft, make_row
from models.entries.envelope import body_fields, body_needs, build_body, read_stored_entry
from tests.house.tree import ROOT
from tests.models.entries.frozen_bodies import (
    FOLDER,
    WRITER,
    FrozenBody,
    content_of,
    frozen_bodies,
    not_frozen,
)
from tests.models.entries.full_bodies import full_bodies

FIRST_MS = 1_778_500_800_000


def raw_of(kind: str, fields: dict[str, Any], seq: int) -> bytes:
    """The bytes of an entry of a kind in its place in the stream of all of them."""
    body = build_body(kind, fields)
    draft = Draft(
        id=f"0196b000-0000-7000-8000-{seq:012x}",
        kind=kind,
        v=body.version,
        body=body_fields(body),
        at_ms=FIRST_MS + 60_000 * seq,
        offset_min=-300,
        zone="America/Chicago",
        author="Дмитро",
        job="green-7",
        day="2026-05-11",
        needs=tuple(sorted(body_needs(body))),
    )
    return make_row(draft, WRITER.stream, seq, seq, bytes(32)).raw


def keep() -> list[str]:
    """Write the files that are missing; return their names."""
    kept = frozen_bodies()
    made = []
    wanted = [(kind, fields) for kind in not_frozen(kept) for fields in full_bodies(kind)]
    for seq, (kind, fields) in enumerate(wanted, start=len(kept) + 1):
        raw = raw_of(kind, fields, seq)
        body = read_stored_entry(raw).body
        assert body is not None, f"{kind} is not read as it was written"
        folder = FOLDER / kind
        folder.mkdir(parents=True, exist_ok=True)
        number = 1 + len(list(folder.glob(f"{body.version}.*.json")))
        path = folder / f"{body.version}.{number}.json"
        before = kept[-1].digest if kept else ""
        path.write_text(content_of(raw, body.model_dump(mode="json"), before), encoding="utf-8")
        kept.append(FrozenBody.read(path))
        made.append(str(path.relative_to(ROOT)))
    return made


if __name__ == "__main__":
    print(json.dumps(keep(), indent=1))
