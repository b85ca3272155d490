"""Errors of keys and the list of tablets, each with its code and sentence; none holds a secret."""

from __future__ import annotations

from models.errors import CrewError


class TrustError(CrewError):
    """Root of everything that can go wrong with keys and the list of tablets."""


class KeyUnreadableError(TrustError, ValueError):
    """A private key was to be used that is none."""

    code = "trust.key_unreadable"
    sentence = (
        "Cannot use the tablet's key for stream {stream}: {why}. What was inked is safe on this "
        "tablet, but can't be signed. A backup of the app's folder on this tablet would hold it."
    )


class NoKeyError(TrustError, LookupError):
    """A stream's key that is needed to sign is not on this tablet."""

    code = "trust.no_key"
    sentence = (
        "Cannot sign for tablet {tablet}: its key is not on this tablet. "
        "The tablet that wrote the entries can send them."
    )
