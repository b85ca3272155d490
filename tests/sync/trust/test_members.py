"""The list of tablets: made from entries alone, in whatever order they come."""

from __future__ import annotations

import hashlib
import itertools

from hypothesis import given
from hypothesis import strategies as st

from models.entries.bodies.tablets import TabletAdded, TabletRevoked
from models.entries.tablet_code import code_of
from sync.trust.keys import DEMO, Signer
from sync.trust.members import Job, Members, Statement, fold_members, may_change_list
from sync.trust.succession import vouch_for

A, B, C = (Signer(hashlib.sha256(name).digest()) for name in (b"a", b"b", b"c"))
JOB = Job(A.stream, "green-7-00112233445566aa")
HEAD = "7:" + "ab" * 32


def added(by: Signer, who: Signer, lc: int, *lifts: str, name: str = "") -> Statement:
    """Somebody adds somebody."""
    body = TabletAdded(code=code_of(who.stream), lifts=lifts, name=name)
    return Statement(by.stream, 1, (lc, f"id-{lc}"), body)


def revoked(by: Signer, who: Signer, lc: int, *heads: str, only_heads: bool = False) -> Statement:
    """Somebody takes somebody off."""
    body = TabletRevoked(code=code_of(who.stream), heads=heads, only_heads=only_heads, why="lost")
    return Statement(by.stream, 1, (lc, f"id-{lc}"), body)


def test_founder_is_the_first() -> None:
    """Nobody else may write before anyone is added."""
    members = fold_members(JOB, [])

    assert members.may_write(A.stream)
    assert not members.may_write(B.stream)
    assert list(members.tablets) == [code_of(A.stream)]


def test_last_name_given_stands() -> None:
    """A tablet may be called anew."""
    members = fold_members(
        JOB, [added(A, B, 2, name="cab"), added(A, B, 5, name="truck"), added(A, B, 6)]
    )

    assert members.tablets[code_of(B.stream)].name == "truck"


def test_lifting_counts_only_from_another_and_for_the_same_tablet() -> None:
    """Not by itself, not by a word about somebody else."""
    off = revoked(A, B, 3)

    assert not fold_members(JOB, [off, added(B, B, 4, "id-3")]).may_write(B.stream)
    assert not fold_members(JOB, [off, added(A, C, 4, "id-3"), added(A, B, 5)]).may_write(B.stream)
    assert fold_members(JOB, [off, added(A, B, 4, "id-3")]).may_write(B.stream)


def test_heads_are_gathered() -> None:
    """All that anyone held; a word about heads alone takes nobody off."""
    other = "9:" + "cd" * 32
    both = fold_members(
        JOB, [added(A, B, 2), revoked(A, B, 3, HEAD), revoked(C, B, 4, other, only_heads=True)]
    )
    alone = fold_members(JOB, [added(A, B, 2), revoked(C, B, 4, other, only_heads=True)])

    found = both.find(B.stream)
    assert found is not None
    assert {seq for seq, _ in found.heads} == {7, 9}
    assert alone.may_write(B.stream)


words = st.sampled_from(
    [
        added(A, B, 1),
        added(A, C, 2),
        revoked(A, B, 3, HEAD),
        revoked(C, B, 4),
        added(A, B, 5, "id-3"),
        added(A, B, 6, "id-3", "id-4"),
        revoked(A, C, 7),
        added(B, C, 8, "id-7"),
        revoked(B, A, 9),
    ]
)


@given(told=st.lists(words, max_size=6))
def test_order_makes_no_difference(told: list[Statement]) -> None:
    """Any order of the same words, each once or twice, makes the same list."""
    lists = {
        fold_members(JOB, order).digest()
        for order in itertools.islice(itertools.permutations(told), 24)
    }

    assert lists == {fold_members(JOB, [*told, *told]).digest()}


def test_demo_is_open_to_all() -> None:
    """The demo's key is public, so its list could keep nobody out."""
    members = Members(Job(DEMO.stream, "demo-00112233445566aa"))

    assert members.may_write(B.stream)
    assert not members.may_write("no key at all")


def test_successor_counts_by_the_key_of_one_who_may_write() -> None:
    """For this job, for itself, and while the old one is on the list."""
    body = vouch_for(A, B.stream, JOB.key)
    members = fold_members(JOB, [])

    assert may_change_list(Statement(B.stream, 1, (1, "x"), body), members)
    assert not may_change_list(Statement(C.stream, 1, (1, "x"), body), members)
    assert not may_change_list(
        Statement(B.stream, 1, (1, "x"), body), fold_members(JOB, [revoked(A, A, 1)])
    )
    assert not may_change_list(
        Statement(B.stream, 1, (1, "x"), vouch_for(A, B.stream, "blue-9-00112233445566aa")), members
    )
