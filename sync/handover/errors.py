"""Errors of a hand-over file, each with its code and sentence."""

from __future__ import annotations

from models.errors import CrewError


class HandoverError(CrewError):
    """Root of everything that can go wrong with a hand-over file."""


class HandoverUnreadableError(HandoverError, ValueError):
    """A file was opened as a hand-over that is none, or that could do harm."""

    code = "handover.unreadable"
    sentence = (
        "Cannot open {name} as a hand-over: {why}. Nothing was taken from it. "
        "A file made by crewapp, ending in .crew, would be read."
    )


class HandoverNotMadeError(HandoverError, OSError):
    """A hand-over file could not be made."""

    code = "handover.not_made"
    sentence = "The hand-over {name} was not made: {why}. {remedy}."


class HandoverJobError(HandoverError, LookupError):
    """A hand-over does not hold the one job that it should hold."""

    code = "handover.job"
    sentence = (
        "Nothing was taken from {name}: it holds {met}, and {wanted} was wanted. "
        "Name the book that belongs to it, or a new one."
    )


class HandoverEmptyError(HandoverError, ValueError):
    """A hand-over would have held no entry of its job."""

    code = "handover.empty"
    sentence = "The hand-over {name} was not made: {why}"


class HandoverHoldsNothingError(HandoverError, LookupError):
    """A hand-over holds no entry that could be opened."""

    code = "handover.holds_nothing"
    sentence = (
        "Nothing was taken from {name}: it holds no entries of {job} that can be opened. "
        "Have it made again on the tablet that wrote them."
    )
