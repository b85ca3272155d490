"""The book that was just opened, as the shell gets it."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class OpenBookResult:
    """A book that was opened; ``read_only_reason`` is empty if it can be written.

    ``missing`` tells of entries that this tablet wrote and that are not there any more.
    """

    name: str
    read_only_reason: str = ""
    missing: str = ""
