"""Command that lays lines over a surface, with the request that it carries."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, TypedDict

from crewapp.commands.command import Command

if TYPE_CHECKING:
    from models.entries.bodies.planning import LocalPlane
    from models.plan.line import LineUse


class LayoutRequest(TypedDict, total=False):
    """Request for a surface's lines; what is left out stays as it stands.

    Points, keep-outs, terms, patterns and the plane may be models or mappings of their fields.
    ``terms`` stand in place of the old ones of the same use; without a bearing lines keep
    theirs, and new ones get one (``models.queries.layout.line_bearings``). ``without`` names uses
    whose lines go.
    """

    name: str
    use: str
    collector_id: str
    outline: Sequence[Any]
    keep_outs: Sequence[Any]
    setback_nm: int
    terms: Sequence[Any]
    without: Sequence[LineUse]
    patterns: Mapping[LineUse, Any]
    reach_nm: int | None
    source: str
    plane: LocalPlane | None


@dataclass(frozen=True, slots=True, kw_only=True)
class LayOut(Command):
    """Lay lines over a surface and write it with its layout, all or nothing."""

    surface_id: str
    request: LayoutRequest
