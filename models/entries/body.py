"""The one base of every kind of entry."""

from __future__ import annotations

from typing import ClassVar

from pydantic import BaseModel, ConfigDict


class Body(BaseModel):
    """What one entry says, apart from who wrote it, when and where.

    Frozen: a recorded reading is never altered. A subclass names its ``kind``
    (also the name of its read view) and the ``version`` of its fields.
    ``left_out`` names optional fields that came to a version that was in use: they are
    not stored while they say nothing, so that what has none keeps its bytes.
    """

    model_config = ConfigDict(frozen=True, extra="forbid")

    kind: ClassVar[str]
    version: ClassVar[int] = 1
    left_out: ClassVar[frozenset[str]] = frozenset()
