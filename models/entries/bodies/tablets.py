"""Entries about the tablets that may write to a job."""

from __future__ import annotations

from typing import Annotated, ClassVar

from pydantic import Field

from models.entries.body import Body
from models.plan.field_types import Words

TabletCode = Annotated[str, Field(pattern=r"^[0-9A-HJKMNP-TV-Z]{4}(-[0-9A-HJKMNP-TV-Z]{4}){3}$")]
Head = Annotated[str, Field(pattern=r"^[1-9][0-9]{0,11}:[0-9a-f]{64}$")]
Hex = Annotated[str, Field(pattern=r"^[0-9a-f]*$", max_length=128)]


class TabletAdded(Body):
    """A tablet may write to this job from now on."""

    kind: ClassVar[str] = "tablet_added"

    code: TabletCode = Field(description="the tablet's code as its screen shows it")
    name: Annotated[str, Field(max_length=80)] = Field(
        default="", description="what the crew calls the tablet"
    )
    lifts: tuple[Annotated[str, Field(min_length=1, max_length=64)], ...] = Field(
        default=(), description="ids of the entries that took it off the list and that this undoes"
    )
    by_key: Hex = Field(
        default="", description="public key of the stream that this one goes on from, or empty"
    )
    proof: Hex = Field(default="", description="signature by that key, or empty")


class TabletRevoked(Body):
    """A tablet may write no more; what leads up to its heads stays."""

    kind: ClassVar[str] = "tablet_revoked"

    code: TabletCode = Field(description="the tablet's code as its screen shows it")
    heads: tuple[Head, ...] = Field(
        default=(), description="its last entries held here when this was written, number:hash"
    )
    only_heads: bool = Field(
        default=False,
        description="true when it only tells of more that was held when the news came",
    )
    why: Words = Field(default="", description="why it was taken off the list")
