"""The one base of every kind of entry."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from types import MappingProxyType
from typing import Any, ClassVar

from models.plan.record import Record


class Body(Record):
    """Body of an entry: what it says, apart from who wrote it, when and where.

    A subclass names its ``kind`` (also the name of its read view) and the ``version`` of its
    fields. ``needs`` gives, for a field without which an entry would be misread, the word
    that the envelope holds where the field says something (so each is in ``left_out``): a
    version that does not know the word shows the entry as written by a newer one.
    """

    kind: ClassVar[str]
    version: ClassVar[int] = 1
    needs: ClassVar[Mapping[str, str]] = MappingProxyType({})


def unknown_names(given: Any, made: Any, place: tuple[str, ...] = ()) -> Iterator[tuple[str, ...]]:
    """Yield each name, with its place, that was given and that what was made of it has not."""
    if isinstance(made, Record) and isinstance(given, Mapping):
        for name, value in given.items():
            if name in type(made).model_fields:
                yield from unknown_names(value, getattr(made, name), (*place, name))
            else:
                yield (*place, str(name))
    elif isinstance(made, tuple) and isinstance(given, Sequence):
        for number, (one, other) in enumerate(zip(given, made, strict=True)):
            yield from unknown_names(one, other, (*place, str(number)))
