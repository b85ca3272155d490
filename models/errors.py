"""Every exception raised on purpose: a stable code, the facts, and a sentence.

An exception here means that a request could not be carried out. What is wrong
with recorded *data* is never an exception: it is a Finding (models/checks).
"""

from __future__ import annotations

from typing import ClassVar


class CrewError(Exception):
    """Root of the family; shown to people as its sentence, never as a traceback.

    A subclass sets ``code`` (stable, never reused) and ``sentence``, a format
    string filled from the keyword arguments. The arguments stay readable on
    ``context`` so that nobody has to parse the text. The form of a sentence:
    what could not be done, what was met, why that stops it, what would do.
    """

    code: ClassVar[str] = ""
    sentence: ClassVar[str] = ""

    def __init__(self, **context: object) -> None:
        self.context = context
        super().__init__(self.sentence.format(**context))


class UnreadableError(CrewError, ValueError):
    """A text that should hold a quantity could not be read."""

    code = "units.unreadable"
    sentence = (
        "Cannot read {text!r} as {what}: {why}, at character {place}. These would be read: {forms}."
    )


class LevelRunError(CrewError, ValueError):
    """A run of level sights that no arithmetic can reduce."""

    code = "levels.run"
    sentence = "Cannot reduce the level run at line {line} ({point}): {why}. {remedy}."


class CalculationInputError(CrewError, ValueError):
    """A figure was given that a formula has no answer for."""

    code = "calculations.input"
    sentence = "Cannot work out {what}: {why}. {accepted}."


class LevelNotesError(CrewError, ValueError):
    """A page of level notes that cannot be read; ``problems`` on ``context`` lists every fault."""

    code = "levels.notes"
    sentence = "Cannot read the level notes, {count} to put right:\n{listing}"
