"""A group of fields that is stored: in an entry, or as a part of one."""

from __future__ import annotations

from functools import cache
from typing import Any, ClassVar, get_args

from pydantic import BaseModel, ConfigDict


class Record(BaseModel):
    """Fields that are stored together; they are frozen, since a reading is never altered.

    Fields that it does not know are passed over on reading: a newer version may have
    written them. Whoever writes is refused them (``models.entries.envelope.build_body``).
    ``left_out`` names optional fields that came to a record that was in use: they are not
    stored while they say nothing, so that what has none keeps its bytes.
    """

    model_config = ConfigDict(frozen=True, extra="ignore")

    left_out: ClassVar[frozenset[str]] = frozenset()


def stored_fields(record: Record) -> dict[str, Any]:
    """Return the fields of a record as they are stored; unset ones are kept as null."""
    fields = record.model_dump(mode="json")
    _leave_out(record, fields)
    return fields


def _leave_out(record: Record, fields: dict[str, Any]) -> None:
    model = type(record)
    for name in model.left_out:
        if getattr(record, name) == model.model_fields[name].default:
            del fields[name]
    for name in _leading_on(model):
        value = getattr(record, name)
        if isinstance(value, Record):
            _leave_out(value, fields[name])
        elif isinstance(value, tuple):
            for one, inner in zip(value, fields[name], strict=True):
                _leave_out(one, inner)


@cache
def _leading_on(model: type[Record]) -> tuple[str, ...]:
    """Names of the fields that lead to a record which leaves some out."""
    return tuple(
        name
        for name, field in model.model_fields.items()
        if any(one.left_out or _leading_on(one) for one in records_in(field.annotation))
    )


def records_in(annotation: Any) -> tuple[type[Record], ...]:
    """Return the records that the type of a field speaks of."""
    if isinstance(annotation, type) and issubclass(annotation, Record):
        return (annotation,)
    return tuple(one for part in get_args(annotation) for one in records_in(part))
