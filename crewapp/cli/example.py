"""Examples of a command: lines that work as they stand, for its ``--help`` and its tests."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from crewapp.words.translate import say

WIDTH = 80
"""Columns of a terminal that nobody made wider."""


@dataclass(frozen=True, slots=True)
class Example:
    """Example of a command: the line as it is typed, and what it does.

    It works in a folder that holds what ``crewapp demo`` makes and the files it names.
    """

    line: str
    does: str


def examples_text(examples: Iterable[Example]) -> str:
    """Examples as the last part of a ``--help``: what each does, and below it the line."""
    pairs = (f"  {say(one.does)}:\n    {one.line}" for one in examples)
    return "\n".join([say("examples:"), *pairs])
