"""Keys: a stream is what its key signs for, and the key is shown nowhere."""

from __future__ import annotations

import hashlib

import pytest

from sync.trust.errors import KeyUnreadableError
from sync.trust.keys import DEMO, MemoryKeyRing, Signer, is_signed, stream_of

SECRET = hashlib.sha256(b"wren").digest()


def test_stream_follows_from_the_key() -> None:
    """By the rule of FORMAT.md, worked here in its own words."""
    signer = Signer(SECRET)
    told = hashlib.sha256(b"crewapp stream\n" + signer.public).hexdigest()[:32]

    assert signer.stream == told == stream_of(signer.public)
    assert Signer.new().stream != Signer.new().stream


def test_signature_holds_for_its_bytes_and_key_alone() -> None:
    """Ed25519, as RFC 8032 has it: test 2 of its section 7.1, written down from memory."""
    signer = Signer(
        bytes.fromhex("4ccd089b28ff96da9db6c346ec114e0f5b8a319f35aba624da8cf6ed4fb8a6fb")
    )
    signature = signer.sign(b"\x72")

    assert signer.public.hex() == "3d4017c3e843895a92b70aa74d1b7ebc9c982ccf2ec4968cc0cd55f12af4660c"
    assert signature.hex().startswith(
        "92a009a9f0d4cab8720e820b5f642540a2b27b5416503f8fb3762223ebdb69da"
    )
    assert is_signed(signer.public, signature, b"\x72")
    assert not is_signed(signer.public, signature, b"\x73")
    assert not is_signed(Signer(SECRET).public, signature, b"\x72")
    assert not is_signed(b"", signature, b"\x72")
    assert not is_signed(signer.public, b"", b"\x72")


def test_key_is_not_shown() -> None:
    """Not in a log, not in a trace."""
    assert SECRET.hex() not in repr(Signer(SECRET))
    assert not any(SECRET.hex() in str(value) for value in vars(Signer(SECRET)).values())


@pytest.mark.parametrize("text", ["", "x", "00", "\u00e9" * 64, "5a" * 32])
def test_kept_key_that_is_damaged_or_of_another_stream_is_told(text: str) -> None:
    """And what it held is not in the sentence."""
    with pytest.raises(KeyUnreadableError) as fault:
        Signer.read(text, Signer(SECRET).stream)
    assert not text.strip() or text.strip() not in str(fault.value).replace(" x", "")


def test_kept_key_reads_back() -> None:
    """As it was made."""
    signer = Signer(SECRET)

    assert Signer.read(signer.secret_text(), signer.stream).stream == signer.stream


def test_everybody_holds_the_key_of_the_demo() -> None:
    """The invented job can be sent from any tablet."""
    from crewapp.demo.story import STREAM

    assert MemoryKeyRing().signer(STREAM) is DEMO
    assert MemoryKeyRing().signer("0" * 32) is None
