"""Every exception raised on purpose: a stable code, the facts, and a sentence.

An exception here means that a request could not be carried out. What is wrong
with recorded *data* is never an exception: it is a Finding (models/checks).
"""

from __future__ import annotations

from typing import ClassVar

from models.counted import with_counts


class CrewError(Exception):
    """Root of all exceptions raised on purpose; people see its sentence, never a traceback.

    A subclass sets ``code`` (stable, never reused) and ``sentence``, a format
    string filled from the keyword arguments. The arguments stay readable on
    ``context`` so that nobody has to parse the text. The form of a sentence:
    what could not be done, what was met, why that stops it, what would do.
    """

    code: ClassVar[str] = ""
    sentence: ClassVar[str] = ""

    def __init__(self, **context: object) -> None:
        self.context = context
        super().__init__(self.sentence.format(**with_counts(context)))


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


class PlanningAbsentError(CrewError, ImportError):
    """Planning was wanted on a device without the geometry library."""

    code = "plan.absent"
    sentence = (
        "Cannot plan here: the geometry library is not installed ({missing}), and outlines and "
        "lines are worked out with it. Logging, checks and sheets go on with the lines kept in "
        "the plan. To plan on this device, install the wheel file you were given once more, "
        "with [plan] or [all] behind its name."
    )


class OutlineError(CrewError, ValueError):
    """An outline that bounds no ground; ``faults`` on ``context`` lists every fault."""

    code = "plan.outline"
    sentence = "Cannot use the outline {name}, {count} to put right:\n{listing}"


class InterleaveError(CrewError, ValueError):
    """A machine whose legs can't serve a spacing; ``spacing_nm`` and others on ``context``."""

    code = "plan.interleave"
    sentence = (
        "Cannot cut lines {spacing} apart with legs {leg_spacing} apart: the leg spacing is "
        "{times} times the line spacing, and only a whole number leaves no gap and no double "
        "cut. {offer}."
    )


class PlanFileError(CrewError, ValueError):
    """A file of points or outlines that can't be read; ``problems`` lists every fault."""

    code = "plan.file"
    sentence = "Cannot read the {form}, {count} to put right:\n{listing}"


class DrawingUnitError(CrewError, ValueError):
    """A drawing that does not say its unit, read without a unit being chosen."""

    code = "plan.drawing_unit"
    sentence = (
        "Cannot tell how large the drawing is: it names no unit that is read ({met}), and a guess "
        "could be out a thousandfold. Give the unit it was drawn in, one of: {accepted}."
    )
