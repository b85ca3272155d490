"""Entries that hold the worst that a field can: one of every kind, every field at its extremes.

They are written as any tablet would write them; ``poisoned_book`` takes them into a book.
"""

from __future__ import annotations

import copy
import json
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from models.book.row import GENESIS, Row, chain_hash, from_raw
from models.book.store import Book
from models.entries.envelope import canonical_bytes
from models.entries.kinds import KINDS
from models.entries.tablet_code import code_of
from sync.segments.lines import line_fault
from sync.trust.keys import Signer

DAY, LATER = "2026-05-13", "2026-05-14"
NOON_MS = 1_778_691_600_000
FEW_WORDS = "poison"
WRITER = Signer(b"poison".ljust(32, b"."))
OTHER = code_of(Signer(b"nobody".ljust(32, b".")).stream)

FT = 304_800_000
BY_HAND: dict[str, dict[str, Any]] = {
    "unit_price": {"item": "end caps", "price_cents": 250, "per": "1", "note": ""},
    "instrument": {
        "instrument_id": "laser 1",
        "what": "rotating_laser",
        "serial": "7",
        "plane_asec10": 100,
        "rod_step_nm": FT // 100,
        "peg_limit_millionths": 50,
        "peg_every_days": 30,
        "calibrated_on": "2026-01-02",
    },
    "structure": {"structure_id": "MH1", "what": "manhole", "rim_nm": 97 * FT, "about": "brick"},
    "blade_set": {"machine_id": "twin", "leg": 1, "what": "changed", "note": "worn"},
    "instrument_event": {"instrument_id": "laser 1", "what": "dropped", "note": "off the tripod"},
    "peg_test": {
        "instrument_id": "laser 1",
        **{f"{name}_nm": FT for name in ("mid_a", "mid_b", "end_a", "end_b", "to_a", "to_b")},
    },
    "trench_protection": {
        "collector_id": "C1",
        "from_nm": 0,
        "to_nm": 10 * FT,
        "depth_nm": 6 * FT,
        "depth_typed": "6",
        "protection": "shored",
        "judged_by": "Wren",
    },
    "photo": {"sha256": "ab" * 32, "suffix": "jpg", "caption": "outlet", "where": "C1"},
    "outlet_seen": {
        "outlet_id": "C1",
        "flows": "slow",
        "note": "leaves in it",
        "placed_by": "position",
        "lat_ndeg": 41_500_000_000,
        "lon_ndeg": -93_600_000_000,
        "placed_sd_nm": 10 * FT,
    },
    "go_ahead": {"place": "C1", "missing": "locate_ticket", "reason": "the owner dug here"},
    "tablet_added": {"code": OTHER, "name": "office", "lifts": ["x"], "by_key": "", "proof": ""},
    "tablet_revoked": {
        "code": OTHER,
        "heads": [f"1:{'0' * 64}"],
        "only_heads": True,
        "why": "lost",
    },
}
"""Bodies of kinds that the demo writes none of."""

TEXTS = (
    "",
    " ",
    "x" * 80,
    "y" * 4_000,
    "z" * 20_000,
    "\x00\x01\x1b[2J\x7f\r\n\t",
    "\u202e\u2066evil\u2069\u200d\ufeff",
    "o" + "\u0301" * 40,
    "=cmd|' /C calc'!A0",
    "<script>&amp;</script>]]>",
    "{0}{text}{text.__class__}%s%n",
    "../../../etc/passwd",
    "\U0001f9d1\u200d\U0001f33e\U0010ffff\ue000\ufdd0",
    "9999-12-31",
    "0001-01-01",
    "2026-02-30",
    "9" * 40,
)
NUMBERS = (0, 1, -1, 2**31, 2**53 + 1, 2**63 - 1, -(2**63))
LISTS = (0, 40, 2_000)
"""How often the first member stands in a list; of long members fewer, so that a line holds them."""
LONGEST_LINE = 900_000
OTHERS: tuple[Any, ...] = (None, True, 7, "seven", [], {}, [[[[[[[[[[[[]]]]]]]]]]]])
"""Values of every type, one of them as deep as a body may be."""

Place = tuple[str | int, ...]


@dataclass(frozen=True, slots=True)
class Poison:
    """One entry: what stands where, and the keys of its envelope that are not the usual ones."""

    kind: str
    about: str
    body: dict[str, Any]
    envelope: dict[str, Any] = field(default_factory=dict)


def samples(books: Iterable[Path]) -> dict[str, dict[str, Any]]:
    """A good body of every kind: the longest that the demo has, or one made by hand."""
    found: dict[str, bytes] = {}
    for path in books:
        with Book.open(path, read_only=True) as book:
            for row in book.rows():
                if len(row.raw) > len(found.get(row.kind, b"")):
                    found[row.kind] = row.raw
    return {**BY_HAND, **{kind: json.loads(raw)["body"] for kind, raw in sorted(found.items())}}


def places_in(value: Any, at: Place = ()) -> Iterator[Place]:
    """Yield every place in a body; of a list the first member stands for all."""
    if isinstance(value, dict):
        for key in value:
            yield (*at, key)
            yield from places_in(value[key], (*at, key))
    elif isinstance(value, list) and value:
        yield (*at, 0)
        yield from places_in(value[0], (*at, 0))


def at_place(body: dict[str, Any], place: Place) -> Any:
    """What stands in a place."""
    found: Any = body
    for key in place:
        found = found[key]
    return found


def changed(body: dict[str, Any], place: Place, value: Any) -> dict[str, Any]:
    """A copy of a body with another value in a place."""
    made = copy.deepcopy(body)
    at_place(made, place[:-1])[place[-1]] = value
    return made


def extremes(value: Any) -> Iterator[Any]:
    """The worst that can stand where a value stands, and values of other types."""
    if isinstance(value, bool):
        yield not value
    elif isinstance(value, int):
        yield from NUMBERS
    elif isinstance(value, str):
        yield from TEXTS
    elif isinstance(value, list):
        for times in LISTS if value else ():
            size = len(canonical_bytes(value[0]))
            yield value[:1] * min(times, LONGEST_LINE // size)
    yield from (*NUMBERS[-2:], *TEXTS[3:4]) if value is None else ()
    yield from OTHERS


def bodies(kind: str, body: dict[str, Any]) -> Iterator[Poison]:
    """Every field of a kind at its extremes, missing, and beside one that is not known."""
    for place in places_in(body):
        name = ".".join(map(str, place))
        for value in extremes(at_place(body, place)):
            shown = canonical_bytes(value)[:40].decode("utf-8", "replace")
            yield Poison(kind, f"{name} = {shown}", changed(body, place, value))
        if isinstance(place[-1], str):
            made = copy.deepcopy(body)
            del at_place(made, place[:-1])[place[-1]]
            yield Poison(kind, f"without {name}", made)
    yield Poison(kind, "an unknown field", {**body, "no_such_field": {"deep": [1]}})
    yield Poison(kind, "no field", {})


def envelopes(kind: str, body: dict[str, Any]) -> Iterator[Poison]:
    """Every key of the envelope at the extremes that an exchange lets in."""
    end_ms = 7_258_118_399_999
    said: list[dict[str, Any]] = [
        {"at_ms": 0, "offset_min": 0, "day": "1970-01-01"},
        {"at_ms": end_ms, "offset_min": 0, "day": "2199-12-31"},
        {"at_ms": end_ms, "offset_min": -1_080},
        {"at_ms": 0, "offset_min": 1_080},
        *({"v": v} for v in (0, -1, 2, 2**63 - 1, -(2**63))),
        *({"kind": text} for text in ("", "x" * 4_000, TEXTS[5], TEXTS[6], "no_such_kind")),
        *({key: text} for key in ("zone", "author") for text in TEXTS if len(text) <= 64),
        *({key: text} for key in ("job", "reason") for text in TEXTS),
        {"strikes": ["x" * 64] * 1_000},
        {"strikes": [""]},
        {"strikes": [f"poison-{number}" for number in range(1_000)]},
        {"needs": ["note.colour"]},
        {"needs": [TEXTS[5], TEXTS[6]]},
    ]
    for changes in said:
        shown = canonical_bytes(changes)[:60].decode("utf-8", "replace")
        yield Poison(kind, f"envelope {shown}", body, changes)


def every_poison(good: dict[str, dict[str, Any]]) -> list[Poison]:
    """All of them, kinds mixed, so that a batch is not all of one kind."""
    found = [one for kind, body in good.items() for one in bodies(kind, body)]
    for kind in ("note", "pass", "surface", "day_closed", "tablet_revoked", "job"):
        found += envelopes(kind, good[kind])
    found = [one for one in found if not line_fault(raw_of(one, 1, 1))]
    step = 997  # a prime that the number of them is no multiple of
    return [found[number * step % len(found)] for number in range(len(found))]


def one_a_kind(good: dict[str, dict[str, Any]]) -> list[Poison]:
    """For every kind one entry that fits it and holds extremes, and one that does not fit it."""
    found = []
    for kind, body in good.items():
        fitting = [one for one in bodies(kind, body) if fits(one)]
        widest = [one for one in fitting if str(2**63 - 1) in one.about] or fitting
        found.append(widest[len(kind) % len(widest)])
        found.append(Poison(kind, "no field", {"no_such_field": TEXTS[6]}))
    return [*found, *list(envelopes("note", good["note"]))[::4]]


def fits(one: Poison) -> bool:
    """Whether a body fits its kind."""
    try:
        KINDS[one.kind].model_validate(one.body)
    except ValueError:
        return False
    return True


def rows_of(poisons: Sequence[Poison], lc: int) -> list[Row]:
    """Write poisons into the stream of their writer, as a tablet of the crew would."""
    rows: list[Row] = []
    for seq, one in enumerate(poisons, start=1):
        raw = raw_of(one, seq, lc + seq)
        rows.append(from_raw(raw, chain_hash(rows[-1].hash if rows else GENESIS, raw)))
    return rows


def raw_of(one: Poison, seq: int, lc: int) -> bytes:
    """The bytes of a poison in its place."""
    fields: dict[str, Any] = {
        "id": f"poison-{seq}",
        "stream": WRITER.stream,
        "seq": seq,
        "lc": lc,
        "kind": one.kind,
        "v": KINDS[one.kind].version,
        "at_ms": NOON_MS + seq,
        "offset_min": -300,
        "zone": "America/Chicago",
        "author": FEW_WORDS,
        "job": "larkfield",
        "day": DAY,
        "strikes": [],
        "reason": "",
        "body": one.body,
    }
    return canonical_bytes(fields | one.envelope)
