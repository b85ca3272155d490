"""Key pairs of streams: a stream's id follows from its public key, so it is its own proof."""

from __future__ import annotations

import hashlib
from collections.abc import Mapping
from typing import Protocol

from cryptography.exceptions import InvalidSignature
from cryptography.hazmat.primitives.asymmetric.ed25519 import (
    Ed25519PrivateKey,
    Ed25519PublicKey,
)

from sync.trust.errors import KeyUnreadableError

_DOMAIN = b"crewapp stream\n"
_KEY_BYTES = 32


class Signer:
    """The private key of one stream, which not even ``repr`` reveals."""

    def __init__(self, secret: bytes) -> None:
        self._key = Ed25519PrivateKey.from_private_bytes(secret)
        self.public: bytes = self._key.public_key().public_bytes_raw()
        self.stream = stream_of(self.public)

    @classmethod
    def new(cls) -> Signer:
        """Make a key pair, and with it a new stream."""
        return cls(Ed25519PrivateKey.generate().private_bytes_raw())

    @classmethod
    def read(cls, text: str, stream: str) -> Signer:
        """Make the signer of a stream from its kept key.

        Raises
        ------
        KeyUnreadableError
            If the text is no key, or the key of another stream.
        """
        try:
            signer = cls(bytes.fromhex(text.strip()))
        except ValueError as fault:
            raise KeyUnreadableError(stream=stream, why="it is damaged") from fault
        if signer.stream != stream:
            raise KeyUnreadableError(stream=stream, why="it belongs to another stream")
        return signer

    def secret_text(self) -> str:
        """Return the private key as the tablet keeps it; it goes nowhere else."""
        return self._key.private_bytes_raw().hex() + "\n"

    def sign(self, data: bytes) -> bytes:
        """Return the signature over some bytes."""
        return self._key.sign(data)

    def __repr__(self) -> str:
        return f"Signer({self.stream})"


class KeyRing(Protocol):
    """The keys that are on this tablet: of its stream, and of those that it took over from."""

    def signer(self, stream: str) -> Signer | None:
        """Return the signer of a stream, or None if its key is not here."""


class MemoryKeyRing:
    """A key ring in memory."""

    def __init__(self, *signers: Signer) -> None:
        self._signers: Mapping[str, Signer] = {one.stream: one for one in signers}

    def signer(self, stream: str) -> Signer | None:
        """Return the signer of a stream; the demo's is on every tablet."""
        return self._signers.get(stream) or (DEMO if stream == DEMO.stream else None)


def stream_of(public: bytes) -> str:
    """Return the id of the stream that a public key signs for."""
    return hashlib.sha256(_DOMAIN + public).hexdigest()[:32]


def is_signed(public: bytes, signature: bytes, data: bytes) -> bool:
    """Whether the holder of a key signed these bytes."""
    if len(public) != _KEY_BYTES:
        return False
    try:
        Ed25519PublicKey.from_public_bytes(public).verify(signature, data)
    except (InvalidSignature, ValueError):
        return False
    return True


DEMO = Signer(hashlib.sha256(b"crewapp demo").digest())
"""The key of the invented job. Everybody has it, so it proves nothing and keeps nobody out."""
