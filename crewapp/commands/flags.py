"""Commands of answering flags."""

from __future__ import annotations

from dataclasses import dataclass

from crewapp.commands.command import Command


@dataclass(frozen=True, slots=True, kw_only=True)
class AnswerFlag(Command):
    """Answer the flag of a key as it was read: ``figures`` is the digest of its facts."""

    key: str
    figures: str
    answer: str
    why: str
