"""View after a tap: what was inked, and what it raised."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from crewapp.commands.query import Query

if TYPE_CHECKING:
    from crewapp.job.open_job import JobChanges


@dataclass(frozen=True, slots=True)
class UndoView:
    """Line on the undo strip, and the worst new flag if there is one.

    ``raised_key`` names that flag, ``gone`` names those that it has cured.
    """

    text: str
    can_undo: bool
    open_flags: int
    raised_status: str = ""
    raised_title: str = ""
    raised_text: str = ""
    raised_key: str = ""
    gone: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True, kw_only=True)
class ShowUndoLine(Query[UndoView]):
    """Query for the undo line after something was inked, and the worst new flag."""

    changed: JobChanges
