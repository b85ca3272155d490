"""A tablet put back from a backup goes on under a new stream, vouched for by its old key."""

from __future__ import annotations

from collections.abc import Callable

from models.entries.bodies.tablets import TabletAdded
from models.entries.tablet_code import code_of
from sync.trust.keys import Signer, is_signed, stream_of

_DOMAIN = b"crewapp successor\n"


def vouch_for(old: Signer, new_stream: str, job: str, name: str = "") -> TabletAdded:
    """Make the entry by which a new stream adds itself, with the key of the old one."""
    proof = old.sign(_statement(job, new_stream))
    return TabletAdded(
        code=code_of(new_stream), name=name, by_key=old.public.hex(), proof=proof.hex()
    )


def is_successor(
    body: TabletAdded, stream: str, job: str, may_write: Callable[[str], bool]
) -> bool:
    """Whether a stream adds itself, and the key of one that may write vouches for it."""
    try:
        public, proof = bytes.fromhex(body.by_key), bytes.fromhex(body.proof)
    except ValueError:
        return False
    if not public or body.code != code_of(stream) or not may_write(stream_of(public)):
        return False
    return is_signed(public, proof, _statement(job, stream))


def _statement(job: str, stream: str) -> bytes:
    return _DOMAIN + job.encode() + b"\n" + stream.encode()
