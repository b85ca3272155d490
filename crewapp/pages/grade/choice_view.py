"""What a page of the collector asks, as a value."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from crewapp.pages.grade.view import Choice


@dataclass(frozen=True, slots=True)
class Question:
    """What is asked, the answers to tap, and what should be known before."""

    title: str
    answers: Sequence[Choice]
    known: Sequence[str] = ()
    status: str = ""
    status_text: str = ""
