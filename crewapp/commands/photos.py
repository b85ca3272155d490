"""Commands that keep photos beside the book."""

from __future__ import annotations

from dataclasses import dataclass

from crewapp.commands.command import Command


@dataclass(frozen=True, slots=True, kw_only=True)
class KeepPhoto(Command):
    """Copy a photo beside the book, durable, and log it."""

    path: str
    caption: str = ""
    where: str = ""
