"""Turns a case of a check, written as data, into entries and a job state.

A case file is a list of cases. A case has::

    name      what it shows
    plan      names of fragments in fixtures/checks/_plans.json, taken first (may be left out)
    entries   what was written, in order; each has
        kind     kind of entry
        fields   its body; a text in a field or fact that ends in _nm, _pl or _ug is read as a
                 quantity ("8-1/2 in", "2 yd3", "3 t"), so that a case reads as it was typed
        id       name to strike it by (may be left out)
        day, stream, seq, lc, at, strikes, reason, author, zone, offset_min, v
                 of the envelope (may be left out); ``at`` is a UTC time, 2026-05-04T08:00
    now       UTC time of whoever looks (may be left out)
    findings  what the check finds: subject, place (may be left out when empty), facts, and
              severity where it is not the check's own

Sequence numbers and Lamport counters are given out in the order of writing.
"""

from __future__ import annotations

import json
from collections import Counter
from collections.abc import Iterable, Iterator
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from models.entries.envelope import (
    AnyEntry,
    body_fields,
    build_body,
    canonical_bytes,
    read_stored_entry,
)
from models.entries.kinds import KINDS
from models.state.job_state import JobState
from models.units import LengthUnit, MassUnit, VolumeUnit, parse_length, parse_mass, parse_volume

CASES = Path(__file__).parents[3] / "fixtures" / "checks"
FIRST_DAY = "2026-05-04"

Written = dict[str, Any]


def read_quantity(name: str, text: str) -> Any:
    """Read a quantity typed as text into the base unit that its name ends in."""
    if name.endswith("_nm"):
        return parse_length(text, LengthUnit.MM, signed=True)
    if name.endswith("_pl"):
        return parse_volume(text, VolumeUnit.M3)
    if name.endswith("_ug"):
        return parse_mass(text, MassUnit.TONNE)
    return text


def in_base_units(value: Any, name: str = "") -> Any:
    """Read every quantity typed as text, however deep it lies."""
    if isinstance(value, dict):
        return {key: in_base_units(one, key) for key, one in value.items()}
    if isinstance(value, list):
        return [in_base_units(one) for one in value]
    return read_quantity(name, value) if isinstance(value, str) and value else value


def ms_of(text: str) -> int:
    """Milliseconds since 1970 of a UTC time written without its zone."""
    return int(datetime.fromisoformat(text).replace(tzinfo=UTC).timestamp() * 1000)


def written_entry(written: Written, number: int, seq: int) -> AnyEntry:
    """One entry with its envelope filled in; ``number`` counts the entries of the job from 1."""
    kind = written["kind"]
    fields = in_base_units(written.get("fields", {}))
    day = written.get("day", FIRST_DAY)
    known = kind in KINDS
    raw = {
        "id": written.get("id", f"e{number:06d}"),
        "stream": written.get("stream", "tablet-a"),
        "seq": written.get("seq", seq),
        "lc": written.get("lc", number),
        "kind": kind,
        "v": written.get("v", KINDS[kind].version if known else 1),
        "at_ms": ms_of(written["at"]) if "at" in written else ms_of(day) + number * 60_000,
        "offset_min": written.get("offset_min", 0),
        "zone": written.get("zone", "UTC"),
        "author": written.get("author", "foreman"),
        "job": "demo",
        "day": day,
        "strikes": written.get("strikes", []),
        "reason": written.get("reason", "typed wrong" if "strikes" in written else ""),
        "body": body_fields(build_body(kind, fields)) if known else fields,
    }
    return read_stored_entry(canonical_bytes(raw | written.get("as_stored", {})))


def written_entries(all_written: Iterable[Written]) -> Iterator[AnyEntry]:
    """Entries in the order in which they were written."""
    turns: Counter[str] = Counter()
    for number, written in enumerate(all_written, start=1):
        stream = written.get("stream", "tablet-a")
        turns[stream] += 1
        yield written_entry(written, number, turns[stream])


def entries_of(case: dict[str, Any]) -> list[AnyEntry]:
    """Entries of a case: its plan fragments, then what was written."""
    plans = json.loads((CASES / "_plans.json").read_text("utf-8"))
    plan = [written for name in case.get("plan", []) for written in plans[name]]
    return list(written_entries([*plan, *case["entries"]]))


def state_of(case: dict[str, Any]) -> JobState:
    """Job state of a case, before any entry but with its clock."""
    state = JobState()
    state.now_ms = ms_of(case["now"]) if "now" in case else None
    return state
