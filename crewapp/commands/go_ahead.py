"""Commands of going on without what is missing."""

from __future__ import annotations

from dataclasses import dataclass

from crewapp.commands.command import Command


@dataclass(frozen=True, slots=True, kw_only=True)
class GoOnAnyway(Command):
    """Ink why work goes on at a surface or collector without what is ``missing``."""

    place: str
    missing: str
    reason: str
