"""Commands of which tablets may write to a job."""

from __future__ import annotations

from dataclasses import dataclass

from crewapp.commands.command import Command


@dataclass(frozen=True, slots=True, kw_only=True)
class AddTablet(Command):
    """Let a tablet write to this job, by the code that its screen shows."""

    code: str
    name: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class RevokeTablet(Command):
    """Let a tablet write no more: what is held of it here stays, what comes later is set aside."""

    code: str
    why: str = ""
