"""Reasons to keep a segment out of the book, each with its code and sentence."""

from __future__ import annotations

from models.errors import CrewError


class SegmentError(CrewError, ValueError):
    """Root of every reason to keep a segment out of the book."""


class SegmentNameError(SegmentError):
    """A name is not that of a segment."""

    code = "segment.name"
    sentence = (
        "Cannot take {name} for a segment: its name has another form. It has been left alone. "
        "<stream>-<first>-<last>-<sha256>.seg in small letters would be read."
    )


class SegmentBytesError(SegmentError):
    """The bytes are not those that the name was made of."""

    code = "segment.bytes"
    sentence = (
        "Segment {name} is set aside: its bytes are not those it was written with ({met}), as "
        "after a copy that was cut short. It is read again at the next exchange."
    )


class SegmentTooLargeError(SegmentError):
    """A segment holds more than one may hold."""

    code = "segment.too_large"
    sentence = (
        "Segment {name} is set aside: it holds more than {limit} {unit}, which no tablet "
        "writes. Nothing of it was taken in."
    )


class SegmentPackingError(SegmentError):
    """The bytes are as named, but do not unpack."""

    code = "segment.packing"
    sentence = (
        "Segment {name} is set aside: it can't be unpacked ({why}). Nothing of it was taken in."
    )


class SegmentHeaderError(SegmentError):
    """The header line has another form, or says something else than the name."""

    code = "segment.header"
    sentence = "Segment {name} is set aside: its header line {why}. Nothing of it was taken in."


class SegmentTooNewError(SegmentError):
    """A later version of the app wrote the segment."""

    code = "segment.too_new"
    sentence = (
        "Segment {name} is written by a newer version (form {version}, this app reads form "
        "{known}). It is kept and passed on. Install the newer version to read it."
    )


class SegmentForgedError(SegmentError):
    """The signature is not that of the stream."""

    code = "segment.forged"
    sentence = (
        "Segment {name} is set aside: it was not signed by tablet {tablet}, in whose name it "
        "comes. Nothing of it was taken in."
    )


class SegmentOfAnotherJobError(SegmentError):
    """The segment belongs to another job."""

    code = "segment.other_job"
    sentence = (
        "Segment {name} is set aside: it belongs to job {met}, not to {job}. "
        "Nothing of it was taken in."
    )


class SegmentChainError(SegmentError):
    """The entries do not follow from each other as the header says."""

    code = "segment.chain"
    sentence = (
        "Segment {name} is set aside: its entries do not end in the hash that its header "
        "gives, so one of them was altered. Nothing of it was taken in."
    )


class SegmentEntryError(SegmentError):
    """A line is not an entry that may stand there."""

    code = "segment.entry"
    sentence = (
        "Segment {name} is set aside: line {line} is no entry of this segment ({why}). "
        "Nothing of it was taken in."
    )


class EntryTooLongError(SegmentError):
    """An entry is longer than one that can be sent."""

    code = "segment.entry_too_long"
    sentence = (
        "Entry {seq} of this tablet can't be sent: it has {size} bytes, and {limit} is the most. "
        "It stays in the book; the entries before it were sent."
    )


class EntryOutOfBoundsError(SegmentError, ValueError):
    """An entry of this tablet's own breaks the bounds of the format, and can't travel."""

    code = "segment.entry_out_of_bounds"
    sentence = (
        "Entry {seq} can't be sent, nor what this tablet wrote after it: {why}. All of it stays "
        "on this tablet; others refuse an entry that breaks the bounds of the format."
    )
