"""Handlers of the job's list of tablets: added by their codes, revoked with what is held."""

from __future__ import annotations

from collections.abc import Collection

from crewapp.commands.tablets import AddTablet, RevokeTablet
from crewapp.job.dispatch import handles
from crewapp.job.open_job import JobChanges, NewEntry, OpenJob
from models.entries.bodies.tablets import TabletAdded, TabletRevoked
from models.entries.tablet_code import code_of, read_tablet_code
from models.errors import CrewError
from sync.exchange.entry_source import heads_beyond_revocation, members_of, stream_tips
from sync.exchange.exchange_log import known_job
from sync.trust.keys import KeyRing
from sync.trust.members import Head, Members
from sync.trust.succession import vouch_for


class TabletListError(CrewError, ValueError):
    """The list of tablets was to be changed in a way that makes no sense."""

    code = "tablets.list"
    sentence = "The list of tablets was not changed: tablet {code} {why}. {remedy}."


class NotOnListError(CrewError, PermissionError):
    """The list of tablets was to be changed by a tablet that is not on it."""

    code = "tablets.not_on_list"
    sentence = (
        "The list of tablets was not changed: this tablet, {code}, is not on it, so the others "
        "would not take its word. A tablet that is on it can change the list. One put back "
        "from a backup comes on it by itself at its next exchange."
    )


def job_members(job: OpenJob) -> Members:
    """Return the list of tablets of the open job.

    Raises
    ------
    NoJobYetError
        If the book holds no job.
    """
    return members_of(job.book, known_job(job.book))


@handles(AddTablet)
def add_tablet(job: OpenJob, command: AddTablet) -> JobChanges:
    """Let a tablet write to this job, by the code that its screen shows.

    Raises
    ------
    TabletCodeError
        If the code was misread.
    TabletListError
        If it is on the list already.
    NotOnListError
        If this tablet is not.
    """
    plain = read_tablet_code(command.code)
    known = _members_to_change(job).tablets.get(plain)
    if known is not None and not known.is_revoked:
        raise TabletListError(
            code=plain, why="is on it", remedy="Its entries come in by themselves"
        )
    lifts = known.revoked_by if known is not None else ()
    return job.ink(NewEntry(TabletAdded(code=plain, name=command.name.strip()[:80], lifts=lifts)))


@handles(RevokeTablet)
def revoke_tablet(job: OpenJob, command: RevokeTablet) -> JobChanges:
    """Let a tablet write no more: what is held of it here stays, what comes later is set aside.

    Raises
    ------
    TabletCodeError
        If the code was misread.
    TabletListError
        If it is not on the list, or is this tablet itself.
    NotOnListError
        If this tablet is not.
    """
    plain = read_tablet_code(command.code)
    if job.stream and plain == code_of(job.stream):
        raise TabletListError(
            code=plain,
            why="is this one, and what it wrote from then on would reach nobody",
            remedy="Another tablet that is on the list can take it off",
        )
    known = _members_to_change(job).tablets.get(plain)
    if known is None or known.is_revoked:
        raise TabletListError(
            code=plain, why="is not on it", remedy="One of those that are would be taken off"
        )
    streams = [stream for stream in job.book.heads() if code_of(stream) == plain]
    heads = {head for stream in streams for head in stream_tips(job.book, stream)}
    body = TabletRevoked(code=plain, heads=_told(heads), why=command.why.strip()[:4000])
    return job.ink(NewEntry(body))


def uphold_held(job: OpenJob, *, own_stream: str) -> JobChanges:
    """Tell the others what was held here of tablets taken off, if they know of less.

    To be done after each exchange; it writes nothing if there is nothing to tell.
    """
    members = job_members(job)
    if not members.may_write(own_stream):
        return JobChanges(())
    held = heads_beyond_revocation(job.book, members)
    writings = [
        NewEntry(TabletRevoked(code=code, heads=_told(heads), only_heads=True))
        for code, heads in sorted(held.items())
    ]
    return job.ink(*writings) if writings else JobChanges(())


def introduce_self(job: OpenJob, *, own_stream: str, ring: KeyRing, name: str = "") -> JobChanges:
    """After a restore: let the new stream of this tablet write, vouched for by its old key.

    To be done before each exchange; it writes nothing if the stream is on the list, or if
    no key here is that of a tablet that may write.
    """
    members = job_members(job)
    if members.may_write(own_stream):
        return JobChanges(())
    for stream in sorted(job.book.heads()):
        signer = ring.signer(stream) if members.may_write(stream) else None
        if signer is not None:
            body = vouch_for(signer, own_stream, members.job.key, name.strip()[:80])
            return job.ink(NewEntry(body))
    return JobChanges(())


def _members_to_change(job: OpenJob) -> Members:
    """Return the list, if this tablet's word about it counts."""
    members = job_members(job)
    if job.stream and not members.may_write(job.stream):
        raise NotOnListError(code=code_of(job.stream))
    return members


def _told(heads: Collection[Head]) -> tuple[str, ...]:
    return tuple(f"{seq}:{digest.hex()}" for seq, digest in sorted(heads))
