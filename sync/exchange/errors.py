"""Errors of an exchange, each with its code and sentence."""

from __future__ import annotations

from models.errors import CrewError


class ExchangeError(CrewError):
    """Root of every error that can stop an exchange or keep a part of it out."""


class NoJobYetError(ExchangeError, LookupError):
    """A book was to be exchanged that holds no job."""

    code = "exchange.no_job"
    sentence = (
        "Cannot exchange book {path}: it holds no job yet. Start the job or read its plan, "
        "or join one that is in the store."
    )


class StoreHoldsLessError(ExchangeError):
    """The store shows less than it did last time."""

    code = "exchange.store_holds_less"
    sentence = (
        "The exchange stopped: {where} shows {missing} of the {before:file|files} of this job less "
        "than last time, such as {example}. It may be another stick or folder, or somebody "
        "cleared it. Nothing was changed. Look, then exchange again and say that less is right."
    )


class LocalStorageError(ExchangeError, OSError):
    """The tablet's own storage did not take something."""

    code = "exchange.not_kept"
    sentence = (
        "The exchange stopped: {name} could not be kept on this tablet ({why}). What came "
        "before it is safe. Make room, then exchange again."
    )


class TooManyPendingError(ExchangeError):
    """More waits on this device than any job holds; somebody may be filling it up."""

    code = "exchange.too_much_waits"
    sentence = (
        "Segment {name} was left in the store: segments of {limit} bytes wait on this tablet "
        "already, more than any crew writes. See whose they are, and add those tablets or clear "
        "the store of them."
    )


class UnknownTabletError(ExchangeError):
    """A segment comes from a tablet that is not on the job's list."""

    code = "exchange.unknown_tablet"
    sentence = (
        "Segment {name} waits: tablet {tablet} is not on this job's list of tablets. If it is "
        "one of the crew's, add it by this code; then its entries come in."
    )


class EarlierJobError(ExchangeError):
    """A segment would put another founding entry before the job's own."""

    code = "exchange.earlier_job"
    sentence = (
        "Segment {name} is set aside: tablet {tablet} puts a beginning of the job before the one "
        "it was founded with, to pass for its founder. Nothing of it was taken in. "
        "What a tablet writes after it joined the job would be."
    )


class RevokedTabletError(ExchangeError):
    """A segment goes on after a tablet was taken off the list."""

    code = "exchange.revoked_tablet"
    sentence = (
        "Segment {name} is set aside: tablet {tablet} was taken off this job's list, and these "
        "entries are not among those that were held then. Add the tablet again to take them in."
    )


class GapError(ExchangeError):
    """Entries before a segment are not here."""

    code = "exchange.gap"
    sentence = (
        "Segment {name} waits: entries {first} to {last} of tablet {tablet} are missing before "
        "it. The tablet that wrote them, or any that has them, can send them."
    )


class ForkGapError(ExchangeError):
    """A segment goes on from an entry that is not here, though its number is."""

    code = "exchange.fork_gap"
    sentence = (
        "Segment {name} waits: it does not follow from the entry {before} of tablet {tablet} "
        "that is in the book. If the tablet was put back from a backup, its other entries are "
        "still to come; otherwise its chain is broken."
    )


class ClashError(ExchangeError):
    """A segment gives an id that is in the book to another entry."""

    code = "exchange.clash"
    sentence = (
        "Segment {name} is set aside: its entry {id} is in the book and says something else. "
        "Nothing of the segment was taken in."
    )
