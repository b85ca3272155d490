"""Question of a collector's page, as a value."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from crewapp.pages.grade.view import Choice


@dataclass(frozen=True, slots=True)
class Question:
    """Question by keys: its words, the answers to tap, and what should be known before."""

    title: str
    answers: Sequence[Choice]
    known: Sequence[str] = ()
    status: str = ""
    status_text: str = ""
