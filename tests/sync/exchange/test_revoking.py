"""Tablets taken off the list: what was held stays, what comes later does not get in."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from models.book.row import make_row
from sync.exchange.entry_source import members_of
from sync.exchange.exchange_log import known_job
from sync.exchange.job_key import job_of
from sync.segments.writer import seal_rows
from tests.sync.exchange.crew import Crew, MemoryStore, draft

Recruit = Callable[[str], Crew]
Trio = tuple[Crew, Crew, Crew]


@pytest.fixture
def trio(recruit: Recruit, store: MemoryStore) -> Trio:
    """A founder, a second tablet and one that will be lost; all alike after a first exchange."""
    founder, second, lost = recruit("a"), recruit("b"), recruit("c")
    founder.found()
    founder.add(second, lost)
    for other in (second, lost):
        other.close()
        other.path.unlink()
        founder.book.backup(other.path)
    second, lost = recruit("b"), recruit("c")
    for one in (founder, second, lost):
        one.sync(store)
    return founder, second, lost


def codes(one: Crew, store: MemoryStore) -> list[str]:
    """Exchange, and return the codes of what is set aside."""
    return [aside.code for aside in one.sync(store).aside]


def test_later_entries_are_set_aside_and_earlier_stay(trio: Trio, store: MemoryStore) -> None:
    """The thief of a lost tablet writes for nobody."""
    founder, second, lost = trio
    lost.ink(draft("note", text="honest", needs_owner=False))
    lost.sync(store)
    founder.sync(store)
    founder.revoke(lost)
    founder.sync(store)
    lost.ink(draft("note", text="stolen", needs_owner=False))
    lost.sync(store)

    for one in (founder, second):
        assert codes(one, store) == ["exchange.revoked_tablet"]
        assert any(b"honest" in raw for raw in one.raws())
        assert not any(b"stolen" in raw for raw in one.raws())
    assert founder.raws() == second.raws()


def test_dating_back_does_not_help(trio: Trio, store: MemoryStore) -> None:
    """Another first entry, with the lowest counter: it leads to nothing that was held."""
    founder, second, lost = trio
    lost.ink()
    lost.sync(store)
    founder.sync(store)
    founder.revoke(lost)
    founder.sync(store)
    row = make_row(draft(), lost.signer.stream, 1, 1, bytes(32))
    planted = seal_rows([row], bytes(32), founder.key, lost.signer)
    store.files[f"{founder.key}/seg/{planted.name}"] = planted.data

    assert codes(second, store) == ["exchange.revoked_tablet"]
    assert codes(founder, store) == ["exchange.revoked_tablet"]
    assert founder.raws() == second.raws()


def test_newcomer_meets_everything_at_once(
    trio: Trio, store: MemoryStore, recruit: Recruit
) -> None:
    """Whatever the order of files, who was taken off is known before the first row goes in."""
    founder, second, lost = trio
    lost.ink()
    lost.sync(store)
    founder.sync(store)
    founder.revoke(lost)
    lost.ink(draft("note", text="stolen", needs_owner=False))
    lost.sync(store)
    founder.sync(store)
    second.close()
    for path in second.path.parent.iterdir():
        if path.is_file():
            path.unlink()
    from sync.exchange.joining import join_book
    from sync.exchange.request import ExchangeRequest

    terms = ExchangeRequest(where="x", own_stream=second.signer.stream)
    report, book = join_book(second.path, founder.key, store, terms)
    book.close()

    assert [one.code for one in report.aside] == ["exchange.revoked_tablet"]
    assert recruit("b").raws() == founder.raws()


def test_what_another_held_in_good_faith_comes_to_all(trio: Trio, store: MemoryStore) -> None:
    """The second tablet had met more of the lost one than the founder knew; it says so."""
    founder, second, lost = trio
    lost.ink(draft("note", text="seen by one", needs_owner=False))
    stick = MemoryStore()
    lost.sync(stick, where="stick")
    second.sync(stick, where="stick")
    founder.revoke(lost)
    founder.sync(store)
    assert not any(b"seen by one" in raw for raw in founder.raws())
    second.sync(store)
    second.uphold()
    second.sync(store)
    founder.sync(store)

    assert any(b"seen by one" in raw for raw in founder.raws())
    second.sync(store)
    assert founder.raws() == second.raws()
    assert founder.sync(store).aside == ()


def test_tablet_found_again_is_added_again(trio: Trio, store: MemoryStore) -> None:
    """What was set aside then comes in by itself."""
    founder, second, lost = trio
    founder.revoke(lost)
    founder.sync(store)
    lost.ink()
    lost.sync(store)
    assert codes(founder, store) == ["exchange.revoked_tablet"]
    founder.add(lost)
    founder.sync(store)
    second.sync(store)
    lost.sync(store)
    founder.sync(store)

    assert founder.raws() == second.raws()
    assert len(founder.raws()) == len(lost.raws())
    assert members_of(founder.book, job_of(founder.book)).may_write(lost.signer.stream)


def test_late_word_of_what_was_held_takes_nobody_off_again(trio: Trio, store: MemoryStore) -> None:
    """A late statement of what was held adds entries to keep and revokes nobody again."""
    founder, second, lost = trio
    lost.ink()
    stick = MemoryStore()
    lost.sync(stick, where="stick")
    second.sync(stick, where="stick")
    founder.revoke(lost)
    founder.sync(store)
    second.sync(store)
    founder.add(lost)
    second.uphold()
    for one in (founder, second, founder, second):
        one.sync(store)

    for one in (founder, second):
        assert members_of(one.book, known_job(one.book)).may_write(lost.signer.stream)
    assert founder.raws() == second.raws()


def test_revoked_tablet_can_add_nobody(trio: Trio, store: MemoryStore, recruit: Recruit) -> None:
    """A revoked tablet's later word about the list does not count, nor that of whom it adds."""
    founder, second, lost = trio
    founder.revoke(lost)
    founder.sync(store)
    friend = recruit("d")
    lost.add(friend, lost)
    lost.sync(store)
    row = make_row(draft(), friend.signer.stream, 1, 900, bytes(32))
    planted = seal_rows([row], bytes(32), founder.key, friend.signer)
    store.files[f"{founder.key}/seg/{planted.name}"] = planted.data

    found = sorted(codes(second, store))
    assert found == ["exchange.revoked_tablet", "exchange.unknown_tablet"]


def test_added_by_one_who_is_only_now_added(recruit: Recruit, store: MemoryStore) -> None:
    """A chain of trust that arrives in one exchange, in any order of names."""
    a, b, c = recruit("a"), recruit("b"), recruit("c")
    a.found()
    a.sync(store)
    for other in (b, c):
        other.close()
        other.path.unlink()
        a.book.backup(other.path)
    b, c = recruit("b"), recruit("c")
    c.ink()
    c.sync(store)
    b.add(c)
    b.sync(store)
    assert sorted(codes(a, store)) == ["exchange.unknown_tablet"] * 2
    a.add(b)
    assert codes(a, store) == []
    assert a.book.count() == 4


def test_it_can_not_put_itself_back(trio: Trio, store: MemoryStore) -> None:
    """Not by a word before the news, not with the news in hand, however high its counter."""
    founder, second, lost = trio
    founder.revoke(lost)
    founder.sync(store)
    (gone,) = members_of(founder.book, job_of(founder.book)).tablets[lost.code].revoked_by
    lost.ink(draft("tablet_added", code=lost.code, lifts=[gone]))
    lost.ink(*(draft() for _ in range(50)))
    stick = MemoryStore()
    lost.sync(stick, where="stick")
    second.sync(stick, where="stick")  # it has not heard of it, and takes all of it
    second.sync(store)

    members = members_of(second.book, known_job(second.book))
    assert not members.may_write(lost.signer.stream)
    lost.ink()
    lost.sync(store)
    assert codes(second, store) == ["exchange.revoked_tablet"]


def test_two_who_take_one_off_need_one_who_knows_of_both(trio: Trio, store: MemoryStore) -> None:
    """Lifting one of two words against a tablet leaves the other standing."""
    founder, second, lost = trio
    second.revoke(lost)
    founder.revoke(lost)
    founder.add(lost)  # knows of its own word alone
    founder.sync(store)
    second.sync(store)
    founder.sync(store)
    assert not members_of(founder.book, known_job(founder.book)).may_write(lost.signer.stream)
    founder.add(lost)

    assert members_of(founder.book, known_job(founder.book)).may_write(lost.signer.stream)


def test_all_that_leads_up_to_the_cut_comes_in(trio: Trio, store: MemoryStore) -> None:
    """Every earlier segment, for one who meets them only after the news."""
    founder, second, lost = trio
    for _ in range(3):
        lost.ink()
        lost.sync(store)
    founder.sync(store)
    founder.revoke(lost)
    founder.sync(store)

    assert second.sync(store).aside == ()
    assert second.raws() == founder.raws()


def test_two_thieves_do_not_let_each_other_in(
    trio: Trio, store: MemoryStore, recruit: Recruit
) -> None:
    """The lost tablet adds a friend, the friend lifts the word against it: neither gets in."""
    founder, second, lost = trio
    founder.revoke(lost)
    founder.sync(store)
    (gone,) = members_of(founder.book, job_of(founder.book)).tablets[lost.code].revoked_by
    friend = recruit("d")
    lost.add(friend)
    lost.sync(store)
    row = make_row(
        draft("tablet_added", code=lost.code, lifts=[gone]), friend.signer.stream, 1, 9, bytes(32)
    )
    planted = seal_rows([row], bytes(32), founder.key, friend.signer)
    store.files[f"{founder.key}/seg/{planted.name}"] = planted.data

    assert sorted(codes(second, store)) == ["exchange.revoked_tablet", "exchange.unknown_tablet"]
    assert second.raws() == founder.raws()
