"""Tablets that were copied or put back from a backup: they notice, and nothing is lost."""

from __future__ import annotations

import shutil
from collections.abc import Callable

import pytest

from sync.trust.keys import Signer
from tests.sync.exchange.crew import Crew, MemoryStore, draft

Recruit = Callable[[str], Crew]


def note(text: str) -> bytes:
    """The words of a note as they stand in its entry."""
    return f'"text":"{text}"'.encode()


def write(one: Crew, text: str) -> None:
    """Write a note."""
    one.ink(draft("note", text=text, needs_owner=False))


@pytest.fixture
def founder(recruit: Recruit, store: MemoryStore) -> Crew:
    """A tablet with a job, which has exchanged once."""
    one = recruit("a")
    one.found()
    write(one, "first")
    one.sync(store)
    return one


def restored(one: Crew, recruit: Recruit) -> Crew:
    """Put the backup of a tablet back, where nothing but the exchange can tell."""
    one.close()
    shutil.rmtree(one.path.parent)
    shutil.copytree(one.path.parent.with_name("saved"), one.path.parent)
    return recruit("a")


def saved(one: Crew, recruit: Recruit) -> Crew:
    """Make a backup of all files of a tablet."""
    one.close()
    shutil.copytree(one.path.parent, one.path.parent.with_name("saved"))
    return recruit("a")


@pytest.mark.parametrize("text_after", ["", "after the restore"])
def test_restored_tablet_takes_a_new_identity(
    founder: Crew, recruit: Recruit, store: MemoryStore, text_after: str
) -> None:
    """The store holds later entries of its stream than it does: both branches end in one book."""
    one = saved(founder, recruit)
    old = one.signer.stream
    write(one, "before the loss")
    one.sync(store)
    one = restored(one, recruit)
    if text_after:
        write(one, text_after)
    report = one.sync(store)

    assert report.was_identity_used
    assert one.signer.stream != old
    text = b"".join(one.raws())
    assert all(note(words) in text for words in ("first", "before the loss"))
    assert note(text_after) in text or not text_after
    assert len(one.book.verify().forks) == (1 if text_after else 0)
    assert one.book.verify().is_sound


def test_both_branches_reach_everyone(founder: Crew, recruit: Recruit, store: MemoryStore) -> None:
    """What was written under used numbers is sealed first, then the new stream goes on."""
    other = recruit("b")
    founder.add(other)
    founder.sync(store)
    one = saved(founder, recruit)
    write(one, "before the loss")
    one.sync(store)
    one = restored(one, recruit)
    write(one, "after the restore")
    one.sync(store)
    one.introduce()
    write(one, "under a new name")
    one.sync(store)
    other.close()
    other.path.unlink()
    one.book.backup(other.path)
    other = recruit("b")
    assert other.sync(store).is_complete

    assert other.raws() == one.raws()
    assert note("under a new name") in b"".join(other.raws())
    assert one.sync(store).was_identity_used is False


def test_unsent_entries_of_the_old_stream_are_sent(founder: Crew, store: MemoryStore) -> None:
    """The tablet noticed by itself, at its start, that it is a copy: the old rows still go out."""
    write(founder, "not sent yet")
    founder.renew()
    founder.introduce()
    write(founder, "under a new name")
    report = founder.sync(store)

    assert report.sealed_rows == 3
    assert len(store.files) == 3


def test_clone_and_original_both_go_on(founder: Crew, recruit: Recruit, store: MemoryStore) -> None:
    """Two tablets that believe to be one: whoever meets the other's entries takes a new name."""
    one = saved(founder, recruit)
    shutil.copytree(
        one.path.parent.with_name("saved"), one.path.parent.with_name("f"), dirs_exist_ok=True
    )
    clone = Crew(one.path.parent.with_name("f") / one.path.name, one.signer)
    write(one, "by the original")
    write(clone, "by the clone")
    one.sync(store)
    report = clone.sync(store)
    clone.introduce()
    write(clone, "by the clone, renamed")
    clone.sync(store)
    again = one.sync(store)
    one.introduce()
    one.sync(store)
    clone.sync(store)
    one.sync(store)

    assert report.was_identity_used
    assert again.was_identity_used
    assert one.raws() == clone.raws()
    clone.close()


def test_book_put_back_alone_is_filled_again(
    founder: Crew, recruit: Recruit, store: MemoryStore
) -> None:
    """Only the book's file is older; what was noted as taken in is taken in again."""
    copy = founder.path.with_name("copy.book")
    founder.book.backup(copy)
    write(founder, "later")
    founder.sync(store)
    raws = founder.raws()
    founder.close()
    for end in ("", "-wal", "-shm"):
        founder.path.with_name(founder.path.name + end).unlink(missing_ok=True)
    copy.rename(founder.path)
    one = recruit("a")
    report = one.sync(store)

    assert one.raws() == raws
    assert report.was_identity_used


def test_key_that_is_not_here_signs_nothing(founder: Crew, store: MemoryStore) -> None:
    """Rows of a stream whose key is on another tablet are left for that tablet."""
    founder.book.switch_stream(Signer.new().stream)
    write(founder, "by nobody")
    report = founder.sync(store)

    assert report.sealed_rows == 0
    assert len(store.files) == 1
