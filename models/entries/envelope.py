"""The envelope round every entry, and its exact bytes."""

from __future__ import annotations

import hashlib
import json
import json.encoder
from collections.abc import Callable, Sequence
from operator import itemgetter
from typing import Any, Generic, NamedTuple, TypeVar, cast

from pydantic import ValidationError
from pydantic_core import from_json

from models.entries.body import Body, unknown_names
from models.entries.bounds import (
    LONGEST_AUTHOR,
    LONGEST_LABEL,
    LONGEST_TEXT,
    ORDER,
    ORDERED_TYPES,
    UNTIMED,
    WHOLE,
    Unfit,
    unfit_reason,
    within_bounds,
)
from models.entries.index import B, EntryKind
from models.entries.kinds import KINDS, NEEDS
from models.entries.upgrades import STEPS, upgrade
from models.errors import CrewError
from models.plan.record import stored_fields
from models.units.times import FURTHEST_OFFSET_MIN, LAST_MS, NO_TIME, is_day, local_time

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
_ordered = itemgetter(*ORDER)
_EARLY_MS = 86_400_000
_LATE_MS = LAST_MS - _EARLY_MS
"""A day in from the bounds: between these, no offset leads out of them."""


class EntryUnreadableError(CrewError, ValueError):
    """Stored bytes are not an entry of ours."""

    code = "entries.unreadable"
    sentence = (
        "Cannot read entry {id}: {why}. The entry is kept as it is; "
        "an entry of a known kind with the fields of its version would be read."
    )


class EntryRefusedError(CrewError, ValueError):
    """An entry that was to be written does not fit its kind."""

    code = "entries.refused"
    sentence = "Nothing was written: {field} of this {kind} {why}. {forms} would be accepted."


B_co = TypeVar("B_co", bound=Body | None, covariant=True)


class Entry(NamedTuple, Generic[B_co]):
    """A written entry: who, when, where in its stream, and what.

    A tuple, because a job has 50,000 of them to read. Typed by its body: ``Entry[PassCut]``.

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
    body: B_co
    raw: bytes
    unfit: Unfit = ""

    def written_at(self, form: str = "%Y-%m-%d %H:%M") -> str:
        """Wall time at which it was written by its tablet's clock; "(no time)" if it has none."""
        return NO_TIME if self.unfit in UNTIMED else local_time(self.at_ms, self.offset_min, form)


AnyEntry = Entry[Body | None]
"""An entry of any kind, read or not."""
UnreadEntry = Entry[None]
"""An entry that can't be read here; its ``unfit`` says why."""


def canonical_bytes(value: object) -> bytes:
    """JSON as it is stored and hashed: sorted keys, no spaces, UTF-8, no floats."""
    return _encode(value).encode()


def body_fields(body: Body) -> dict[str, Any]:
    """Return the fields of a body as they are stored; unset ones are kept as null.

    Those named by ``left_out`` are stored only where they say something.
    """
    return stored_fields(body)


def body_needs(body: Body) -> frozenset[str]:
    """Words for the envelope of a body: of the stored fields without which it'd be misread."""
    if not body.needs:
        return frozenset()
    stored = body_fields(body)
    return frozenset(word for name, word in body.needs.items() if name in stored)


def read_entry(raw: bytes) -> AnyEntry:
    """Read the stored bytes of one entry.

    Raises
    ------
    EntryUnreadableError
        If the bytes are not JSON, lack a field, or the body does not fit its kind.
    """
    try:
        fields = from_json(raw)
        values = [fields[key] for key in ORDER]
        if not _is_known(fields.get("needs")):
            return _made(values, raw, None, "needs")
        body = read_body(fields["kind"], fields["v"], fields["body"])
        return _made(values, raw, body, "newer" if body is None else "")
    except (ValueError, KeyError, TypeError) as fault:
        raise EntryUnreadableError(id=_id_of(raw), why=_first_fault(fault)) from fault


def read_stored_entry(raw: bytes) -> AnyEntry:
    """Read an entry that a book holds, whatever its bytes are; what can't be read says why.

    One whose envelope is out of bounds comes with the nearest within, so that it can be
    shown and nothing overflows; ``raw`` stays what it is. Never raises.
    """
    try:
        fields = from_json(raw)
        values = _ordered(fields)
    except (ValueError, KeyError, TypeError, RecursionError):
        return _unread(raw)
    if tuple(map(type, values)) != ORDERED_TYPES:
        return _unread(raw)
    # Each by its name, and the usual bounds at once: a book is read whole at every opening.
    (id, stream, seq, lc, kind, v, at_ms, offset, zone, author, job, day, strikes, reason, body) = (
        values
    )
    is_usual = (
        _EARLY_MS < at_ms < _LATE_MS
        and -FURTHEST_OFFSET_MIN <= offset <= FURTHEST_OFFSET_MIN
        and 0 <= seq <= lc < WHOLE
        and len(raw) <= LONGEST_TEXT
        and 0 < len(id) <= LONGEST_LABEL
        and len(zone) <= len(stream) <= LONGEST_LABEL
        and len(author) <= LONGEST_AUTHOR
        and not strikes
        and is_day(day)
    )
    if not is_usual and unfit_reason(fields):
        return _unread(raw)
    told: Body | None = None
    unfit: Unfit = "needs" if "needs" in fields and not _is_known(fields["needs"]) else ""
    if not unfit:
        try:
            told = read_body(kind, v, body)
            unfit = "" if told is not None else "newer"
        except Exception:  # whatever a body may bring on, it costs this entry alone
            unfit = "body"
    return Entry(
        id, stream, seq, lc, kind, v, at_ms, offset, zone, author, job, day,
        tuple(strikes), reason, told, raw, unfit,
    )  # fmt: skip


def _is_known(needs: Any) -> bool:
    """Whether every word is known without which an entry would be misread."""
    if not needs:
        return True
    return type(needs) is list and all(type(word) is str and word in NEEDS for word in needs)


def _made(values: Sequence[Any], raw: bytes, body: Body | None, unfit: Unfit) -> AnyEntry:
    return AnyEntry._make((*values[:12], tuple(values[12]), values[13], body, raw, unfit))


def _unread(raw: bytes) -> AnyEntry:
    """Make the entry of an envelope that is out of bounds: the nearest within, and no body."""
    try:
        read = from_json(raw)
    except (ValueError, RecursionError):
        read = None
    fields: dict[str, Any] = read if type(read) is dict else {}
    within = within_bounds(fields)
    if not within["id"]:
        within["id"] = f"unreadable-{hashlib.sha256(raw).hexdigest()[:16]}"
    return _made(_ordered(within), raw, None, unfit_reason(fields))


def build_body(kind: str, fields: dict[str, Any]) -> Body:
    """Make the body of a new entry, or say which field is wrong.

    Raises
    ------
    EntryRefusedError
        If a field does not fit, or is none of its kind; nothing has been written.
    """
    try:
        body = KINDS[kind].model_validate(fields)
    except ValidationError as fault:
        raise refusal(fault) from fault
    for place in unknown_names(fields, body):
        raise EntryRefusedError(
            kind=kind.replace("_", " "),
            field=".".join(place),
            why="is no field of it",
            forms="The fields of its kind",
        )
    return body


def build_kind(kind: EntryKind[B], fields: dict[str, Any]) -> B:
    """Make the body of a new entry of a kind, typed by the kind; else as ``build_body``.

    Raises
    ------
    EntryRefusedError
        If a field does not fit, or is none of its kind; nothing has been written.
    """
    return cast("B", build_body(kind.name, fields))


def refusal(fault: ValidationError) -> EntryRefusedError:
    """Say which field of a body that was to be written is wrong, and what it takes."""
    kind = next((one for one in KINDS.values() if one.__name__ == fault.title), None)
    first = fault.errors()[0]
    field = ".".join(str(part) for part in first["loc"]) or "the amount"
    known = kind.model_fields.get(str(first["loc"][0])) if kind and first["loc"] else None
    return EntryRefusedError(
        kind=(kind.kind if kind else fault.title).replace("_", " "),
        field=field,
        why=f"was refused: {first['msg']}",
        forms=(known.description if known else None) or "The fields of its kind",
    )


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
        fields = known_form(model, version, fields)
    read: Body = model.__pydantic_validator__.validate_python(fields)  # at once: it is done often
    return read


def known_form(model: type[Body], version: int, fields: dict[str, Any]) -> dict[str, Any]:
    """Bring the fields of a stored body to the form of the newest version known here."""
    return upgrade(model.kind, version, fields, model.version, STEPS)


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
