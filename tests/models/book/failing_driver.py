"""A driver under the book whose statements fail when a test says so."""

from __future__ import annotations

import sqlite3
from typing import Any


class Faults:
    """Says which statements fail next, with what code, and whether they are carried out."""

    def __init__(self) -> None:
        self.start = "never"
        self.left = 0
        self.is_carried_out = False
        self.code = sqlite3.SQLITE_IOERR

    def plan(self, start: str, times: int, *, is_carried_out: bool = False, code: int = 0) -> None:
        """Let the next statements that start so fail this often."""
        self.start, self.left, self.is_carried_out = start, times, is_carried_out
        self.code = code or sqlite3.SQLITE_IOERR

    def meet(self, statement: str) -> bool:
        """Whether this statement is to fail."""
        is_hit = self.left > 0 and statement.startswith(self.start)
        self.left -= is_hit
        return is_hit

    def under(self, driver: type[sqlite3.Connection]) -> type[sqlite3.Connection]:
        """Return a driver that meets these faults."""
        planned = self

        class Failing(driver):  # type: ignore[valid-type, misc]
            def execute(self, statement: str, *values: Any) -> sqlite3.Cursor:
                if not planned.meet(statement):
                    return super().execute(statement, *values)
                if planned.is_carried_out:
                    super().execute(statement, *values)
                fault = sqlite3.OperationalError("disk I/O error")
                fault.sqlite_errorcode = planned.code
                raise fault

        return Failing
