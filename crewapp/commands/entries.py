"""Commands of single entries as such: strike, correct."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, fields, is_dataclass

from crewapp.commands.command import Command


@dataclass(frozen=True, slots=True, kw_only=True)
class Strike(Command):
    """Cross out an entry; it stays readable, with the reason."""

    entry_id: str
    reason: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Correct(Command):
    """Strike an entry and put a corrected one in its place; fields not given are carried over."""

    entry_id: str
    reason: str
    fields: Mapping[str, object] = field(default_factory=dict)
    """New values by the name of the body's field."""


def given_fields(command: Command) -> dict[str, object]:
    """Return the fields of a command that say something: neither None nor an empty text."""
    assert is_dataclass(command)
    named = {one.name: getattr(command, one.name) for one in fields(command)}
    return {name: value for name, value in named.items() if value not in (None, "")}
