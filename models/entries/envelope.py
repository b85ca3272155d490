"""The envelope round every entry, and its exact bytes."""

from __future__ import annotations

import hashlib
import json
import json.encoder
from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Any

from pydantic import ValidationError
from pydantic_core import from_json

from models.entries.body import Body
from models.entries.bounds import (
    UNTIMED,
    Unfit,
    envelope_fault,
    is_timed,
    types_fault,
    within_bounds,
)
from models.entries.kinds import KINDS
from models.entries.upgrades import STEPS, upgrade
from models.errors import CrewError
from models.units.times import NO_TIME, local_time

_encoder = json.JSONEncoder(
    sort_keys=True, separators=(",", ":"), ensure_ascii=False, allow_nan=False
)


def _quick_encode() -> Callable[[object], str]:
    """Return what the encoder does, without making its inner part anew for every value."""
    make = getattr(json.encoder, "c_make_encoder", None)
    quote = getattr(json.encoder, "encode_basestring", None)
    if make is None or quote is None:  # a Python without it
        return _encoder.encode
    inner = make(None, _encoder.default, quote, None, ":", ",", True, False, False)
    return lambda value: "".join(inner(value, 0))


_encode = _quick_encode()


class EntryUnreadableError(CrewError, ValueError):
    """Stored bytes are not an entry of ours."""

    code = "entries.unreadable"
    sentence = (
        "Cannot read entry {id}: {why}. The entry is kept as it is; "
        "an entry of a known kind with the fields of its version would be read."
    )


class EntryRefusedError(CrewError, ValueError):
    """What was to be written does not fit its kind."""

    code = "entries.refused"
    sentence = "Nothing was written: {field} of this {kind} {why}. {forms} would be accepted."


@dataclass(frozen=True, slots=True)
class Entry:
    """One thing written: who, when, where in its stream, and what.

    ``body`` is None when the entry can't be read here, and ``unfit`` says why: it was written
    by a newer version of the app, or does not fit its kind, or has a time that is none.
    """

    id: str
    stream: str
    seq: int
    lc: int
    kind: str
    v: int
    at_ms: int
    offset_min: int
    zone: str
    author: str
    job: str
    day: str
    strikes: tuple[str, ...]
    reason: str
    body: Body | None
    raw: bytes
    unfit: Unfit = ""

    def written_at(self, form: str = "%Y-%m-%d %H:%M") -> str:
        """Wall time at which it was written by its tablet's clock; "(no time)" if it has none."""
        return NO_TIME if self.unfit in UNTIMED else local_time(self.at_ms, self.offset_min, form)


def canonical_bytes(value: object) -> bytes:
    """JSON as it is stored and hashed: sorted keys, no spaces, UTF-8, no floats."""
    return _encode(value).encode()


def body_fields(body: Body) -> dict[str, Any]:
    """Return the fields of a body as they are stored; unset ones are kept as null.

    Those named by ``left_out`` are stored only where they say something.
    """
    fields = body.model_dump(mode="json")
    for name in body.left_out:
        if fields[name] == type(body).model_fields[name].default:
            del fields[name]
    return fields


def read_entry(raw: bytes) -> Entry:
    """Read the stored bytes of one entry.

    Raises
    ------
    EntryUnreadableError
        If the bytes are not JSON, lack a field, or the body does not fit its kind.
    """
    try:
        fields = from_json(raw)
        entry = _entry(fields, raw, None)
        body = read_body(entry.kind, entry.v, fields["body"])
        return replace(entry, body=body, unfit="" if body is not None else "newer")
    except (ValueError, KeyError, TypeError) as fault:
        raise EntryUnreadableError(id=_id_of(raw), why=_first_fault(fault)) from fault


def read_kept_entry(raw: bytes) -> Entry:
    """Read an entry that a book holds, whatever its bytes are; what can't be read says why.

    One whose envelope is out of bounds comes with the nearest within, so that it can be
    shown and nothing overflows; ``raw`` stays what it is. Never raises.
    """
    try:
        fields = from_json(raw)
    except (ValueError, RecursionError):
        return _unread({}, raw, "not_json")
    if type(fields) is not dict or types_fault(fields):
        return _unread(fields if type(fields) is dict else {}, raw, "not_json")
    if envelope_fault(fields):
        return _unread(fields, raw, "bounds")
    if not is_timed(fields):
        return _unread(fields, raw, "time")
    if fields.get("needs"):
        return _entry(fields, raw, None, "needs")
    try:
        body = read_body(fields["kind"], fields["v"], fields["body"])
    except Exception:  # whatever a body may bring on, it costs this entry alone
        return _entry(fields, raw, None, "body")
    return _entry(fields, raw, body, "" if body is not None else "newer")


def _unread(fields: dict[str, Any], raw: bytes, why: Unfit) -> Entry:
    within = within_bounds(fields)
    if not within["id"]:
        within["id"] = f"unreadable-{hashlib.sha256(raw).hexdigest()[:16]}"
    return _entry(within, raw, None, why)


def _entry(fields: dict[str, Any], raw: bytes, body: Body | None, unfit: Unfit = "") -> Entry:
    return Entry(
        fields["id"],
        fields["stream"],
        fields["seq"],
        fields["lc"],
        fields["kind"],
        fields["v"],
        fields["at_ms"],
        fields["offset_min"],
        fields["zone"],
        fields["author"],
        fields["job"],
        fields["day"],
        tuple(fields["strikes"]),
        fields["reason"],
        body,
        raw,
        unfit,
    )


def build_body(kind: str, fields: dict[str, Any]) -> Body:
    """Make the body of a new entry, or say which field is wrong.

    Raises
    ------
    EntryRefusedError
        If a field does not fit; nothing has been written.
    """
    try:
        return KINDS[kind].model_validate(fields)
    except ValidationError as fault:
        first = fault.errors()[0]
        field = ".".join(str(part) for part in first["loc"]) or "the amount"
        known = KINDS[kind].model_fields.get(str(first["loc"][0])) if first["loc"] else None
        forms = (known.description if known else None) or "The fields of its kind"
        raise EntryRefusedError(
            kind=kind.replace("_", " "),
            field=field,
            why=f"was refused: {first['msg']}",
            forms=forms,
        ) from fault


def read_body(kind: str, version: int, fields: dict[str, Any]) -> Body | None:
    """Read a stored body; None if its kind or version is not known here.

    Raises
    ------
    ValueError
        If it does not fit its kind.
    """
    model = KINDS.get(kind)
    if model is None or version > model.version:
        return None
    if version < model.version:
        fields = upgrade(kind, version, fields, model.version, STEPS)
    return model.model_validate(fields)


def _id_of(raw: bytes) -> str:
    try:
        return str(json.loads(raw)["id"])
    except (ValueError, KeyError, TypeError):
        return "without a readable id"


def _first_fault(fault: Exception) -> str:
    if isinstance(fault, ValidationError):
        first = fault.errors()[0]
        return f"{'.'.join(str(part) for part in first['loc'])} {first['msg']}"
    if isinstance(fault, KeyError):
        return f"it has no field {fault}"
    return str(fault)
