"""Those who would slip something in: nothing of theirs is taken, and each is told."""

from __future__ import annotations

import hashlib
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest

from models.book.row import GENESIS, entry_of, make_row
from sync.exchange.job_key import job_of
from sync.exchange.joining import join_book
from sync.exchange.request import ExchangeReport, ExchangeRequest
from sync.segments.reader import open_segment
from sync.segments.writer import SealedSegment, pack, seal_rows
from sync.trust.keys import Signer
from tests.sync.exchange.crew import Crew, MemoryStore, draft, forged

Recruit = Callable[[str], Crew]
THIEF = Signer(hashlib.sha256(b"thief").digest())


@pytest.fixture
def victim(recruit: Recruit, store: MemoryStore) -> Crew:
    """A tablet whose two segments are in the store."""
    one = recruit("a")
    one.found()
    one.sync(store)
    one.ink(draft(), draft())
    one.sync(store)
    return one


def newest(one: Crew) -> SealedSegment:
    """The segment of a tablet written last."""
    name = max(one.place.names())
    return SealedSegment(name, one.place.read(name))


def taken_in(reader: Crew, store: MemoryStore, *planted: SealedSegment) -> ExchangeReport:
    """Plant segments in a store, let a tablet read it, and see that nothing came of it."""
    before = reader.raws()
    for one in planted:
        store.files[f"{reader.key}/seg/{one.name}"] = one.data
    report = reader.sync(store)
    assert report.new_rows == 0
    assert reader.raws() == before
    return report


def seal_as(signer: Signer, victim: Crew, *, seq: int = 1, prev: bytes = GENESIS) -> SealedSegment:
    """Write one note in a stream and seal it."""
    row = make_row(
        draft("note", text="I owe you", needs_owner=False), signer.stream, seq, 500, prev
    )
    return seal_rows([row], prev, victim.key, signer)


def test_stranger_is_set_aside_with_the_code_to_add_it_by(victim: Crew, store: MemoryStore) -> None:
    """Rightly signed, by somebody nobody knows."""
    report = taken_in(victim, store, seal_as(THIEF, victim))

    (aside,) = report.aside
    assert aside.code == "exchange.unknown_tablet"
    assert aside.is_retryable
    assert "add it by this code" in aside.sentence


def test_altered_entry(victim: Crew, store: MemoryStore) -> None:
    """The same header over other words."""
    honest = open_segment(newest(victim).name, newest(victim).data)
    lines = [honest.lines[0].replace(b"so far", b"no way"), *honest.lines[1:]]
    name = honest.name
    planted = pack(honest.header.line(), lines, (name.stream, name.first, name.last))

    assert [one.code for one in taken_in(victim, store, planted).aside] == ["segment.chain"]


@pytest.mark.parametrize("changes", [{"job": "x"}, {"prev": b"\7" * 32}, {"key": THIEF.public}])
def test_rewritten_header(victim: Crew, store: MemoryStore, changes: dict[str, object]) -> None:
    """Signed by the thief, in the name of the tablet."""
    planted = forged(newest(victim), THIEF, **changes)

    assert [one.code for one in taken_in(victim, store, planted).aside] == ["segment.forged"]


def test_foreign_key(victim: Crew, store: MemoryStore) -> None:
    """New entries in another's name, with the thief's key."""
    row = make_row(
        draft(), victim.signer.stream, 4, 500, victim.book.heads()[victim.signer.stream][1]
    )

    class Posing:
        stream = victim.signer.stream
        public = THIEF.public

        def sign(self, data: bytes) -> bytes:
            return THIEF.sign(data)

    planted = seal_rows([row], GENESIS[:-1] + b"\1", victim.key, Posing())
    assert [one.code for one in taken_in(victim, store, planted).aside] == ["segment.forged"]


def test_replayed_under_another_name(victim: Crew, store: MemoryStore) -> None:
    """The bytes of one segment under the name of another are not its bytes."""
    one = newest(victim)
    moved = str(one.name).replace("-2-3-", "-4-5-")
    store.files[f"{victim.key}/seg/{moved}"] = one.data

    assert [one.code for one in taken_in(victim, store).aside] == ["segment.header"]


def test_replayed_into_another_job(recruit: Recruit, victim: Crew, store: MemoryStore) -> None:
    """A tablet writes to two jobs; what it wrote for one does not pass in the other."""
    other = recruit("b")
    other.found()
    other.sync(store)
    planted = newest(other)

    assert [one.code for one in taken_in(victim, store, planted).aside] == ["segment.other_job"]


def test_chain_that_breaks_off(recruit: Recruit, victim: Crew, store: MemoryStore) -> None:
    """A tablet of the crew that goes on from an entry it never wrote waits for it in vain."""
    member = recruit("b")
    victim.add(member)
    victim.sync(store)
    first = seal_as(member.signer, victim)
    store.files[f"{victim.key}/seg/{first.name}"] = first.data
    assert victim.sync(store).new_rows == 1
    broken = seal_as(member.signer, victim, seq=2, prev=b"\7" * 32)
    far = seal_as(member.signer, victim, seq=9, prev=b"\7" * 32)
    report = taken_in(victim, store, broken, far)

    assert sorted(one.code for one in report.aside) == ["exchange.fork_gap", "exchange.gap"]
    assert "entries 2 to 8" in " ".join(one.sentence for one in report.aside)


def test_id_that_is_taken(recruit: Recruit, victim: Crew, store: MemoryStore) -> None:
    """A tablet of the crew that gives an entry's id to another entry: the whole segment is out."""
    member = recruit("b")
    victim.add(member)
    taken = next(iter(victim.book.rows())).id
    rows = [make_row(draft(), member.signer.stream, 1, 500, GENESIS)]
    rows.append(make_row(replace(draft(), id=taken), member.signer.stream, 2, 501, rows[0].hash))
    planted = seal_rows(rows, GENESIS, victim.key, member.signer)

    assert [one.code for one in taken_in(victim, store, planted).aside] == ["exchange.clash"]


def test_stranger_who_adds_itself(recruit: Recruit, victim: Crew, store: MemoryStore) -> None:
    """Its word for itself does not count, with a borrowed proof neither."""
    from models.entries.envelope import body_fields
    from models.entries.tablet_code import code_of
    from sync.trust.succession import vouch_for

    for body in (
        {"code": code_of(THIEF.stream)},
        body_fields(vouch_for(THIEF, THIEF.stream, victim.key)),
        body_fields(vouch_for(victim.signer, Signer.new().stream, victim.key)),
        body_fields(vouch_for(victim.signer, THIEF.stream, "another-job-0011223344556677")),
    ):
        row = make_row(draft("tablet_added", **body), THIEF.stream, 1, 500, GENESIS)
        report = taken_in(victim, store, seal_rows([row], GENESIS, victim.key, THIEF))
        assert {one.code for one in report.aside} == {"exchange.unknown_tablet"}


def test_refused_bytes_are_not_read_again(victim: Crew, store: MemoryStore) -> None:
    """What was judged for good is left alone, so that rubbish in a store costs nothing."""
    planted = forged(newest(victim), THIEF, job="x")
    taken_in(victim, store, planted)
    store.reads = []

    assert [one.code for one in victim.sync(store).aside] == ["segment.forged"]
    assert store.reads == []


def test_strangers_can_not_fill_the_tablet(
    victim: Crew, store: MemoryStore, monkeypatch: pytest.MonkeyPatch
) -> None:
    """What waits for its tablet to be added is bounded; the rest stays in the store."""
    monkeypatch.setattr("sync.exchange.fetching.WAITING_BYTES", 1500)
    planted = [seal_as(Signer.new(), victim) for _ in range(6)]
    codes = [one.code for one in taken_in(victim, store, *planted).aside]

    assert codes.count("exchange.too_much_waits") >= 1
    assert codes.count("exchange.unknown_tablet") < 6
    monkeypatch.undo()
    again = [one.code for one in victim.sync(store).aside]
    assert again == ["exchange.unknown_tablet"] * 6


def test_tablet_that_strangers_filled_still_takes_in_the_crew(
    recruit: Recruit, victim: Crew, store: MemoryStore, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Also once the store was cleared of them; a member's name over a later form gets no room."""
    monkeypatch.setattr("sync.exchange.fetching.WAITING_BYTES", 1500)
    member = recruit("b").signer
    victim.add(member)
    victim.sync(store)
    taken_in(victim, store, *(seal_as(Signer.new(), victim) for _ in range(6)))
    honest = seal_as(member, victim)
    store.files[f"{victim.key}/seg/{honest.name}"] = honest.data
    later = pack(b'{"format":"crewapp-segment","version":2}', [b"{}"], (member.stream, 2, 2))
    store.files[f"{victim.key}/seg/{later.name}"] = later.data
    report = victim.sync(store)

    assert report.new_rows == 1
    assert "exchange.too_much_waits" in {
        one.code for one in report.aside if one.name == str(later.name)
    }
    assert later.name not in victim.place.names()


def test_another_founder_under_the_same_key(
    victim: Crew, store: MemoryStore, tmp_path: Path
) -> None:
    """Whoever joins by the key finds the one it was made from, whoever else claims the job."""
    seeds = (hashlib.sha256(bytes([number])).digest() for number in range(256))
    first = next(one for one in map(Signer, seeds) if one.stream < victim.signer.stream)
    body = {"job_id": "green-7", "name": "Green 7", "owner": "The Thief"}
    row = make_row(draft("job", **body), first.stream, 1, 1, GENESIS)
    planted = seal_rows([row], GENESIS, victim.key, first)
    store.files[f"{victim.key}/seg/{planted.name}"] = planted.data
    terms = ExchangeRequest(where="memory", own_stream=Signer.new().stream)
    report, book = join_book(tmp_path / "new.book", victim.key, store, terms)
    with book:
        assert [one.raw for one in book.rows()] == victim.raws()

    assert report.job.founder == victim.signer.stream
    assert [one.code for one in report.aside] == ["exchange.unknown_tablet"]


def test_member_can_not_pass_for_the_founder(
    recruit: Recruit, victim: Crew, store: MemoryStore
) -> None:
    """A beginning dated before the true one stays out; a change of the job's name comes in."""
    member = recruit("b").signer
    victim.add(member)
    victim.sync(store)
    body = {"job_id": "green-7", "name": "Mine", "owner": "The Thief"}
    row = make_row(replace(draft("job", **body), id="0"), member.stream, 1, 1, GENESIS)
    report = taken_in(victim, store, seal_rows([row], GENESIS, victim.key, member))
    assert [one.code for one in report.aside] == ["exchange.earlier_job"]

    row = make_row(draft("job", **body), member.stream, 1, 500, GENESIS)
    honest = seal_rows([row], GENESIS, victim.key, member)
    store.files[f"{victim.key}/seg/{honest.name}"] = honest.data
    assert victim.sync(store).new_rows == 1
    victim.place.log.unlink()
    assert job_of(victim.book).founder == victim.signer.stream


def test_clash_keeps_out_itself_and_what_follows(
    recruit: Recruit, victim: Crew, store: MemoryStore
) -> None:
    """Segments go in together where they can; one that can't takes only its own chain with it."""
    bad, good = recruit("b"), recruit("c")
    victim.add(bad, good)
    victim.sync(store)
    taken = next(iter(victim.book.rows())).id
    previous = GENESIS
    for seq, id in enumerate(("first", taken, "third"), start=1):
        row = make_row(replace(draft(), id=id), bad.signer.stream, seq, 500 + seq, previous)
        one = seal_rows([row], previous, victim.key, bad.signer)
        store.files[f"{victim.key}/seg/{one.name}"] = one.data
        previous = row.hash
    one = seal_as(good.signer, victim)
    store.files[f"{victim.key}/seg/{one.name}"] = one.data
    report = victim.sync(store)

    assert report.new_rows == 2
    assert sorted(aside.code for aside in report.aside) == ["exchange.clash", "exchange.gap"]
    assert victim.book.verify().is_sound


@pytest.mark.parametrize("leap", [2**39, 2**40])
def test_tablet_that_leaps_to_the_last_counter_stops_nobody(
    recruit: Recruit, victim: Crew, store: MemoryStore, leap: int
) -> None:
    """What the others write after it met it is taken by all, and stands in one order."""
    leaper, reader = Signer.new(), recruit("b")
    victim.add(leaper)
    row = make_row(draft(), leaper.stream, 1, leap, GENESIS)
    one = seal_rows([row], GENESIS, victim.key, leaper)
    store.files[f"{victim.key}/seg/{one.name}"] = one.data
    assert victim.sync(store).new_rows == 1
    victim.ink()
    victim.sync(store)
    reader.close()
    reader.path.unlink()
    terms = ExchangeRequest(where="memory", own_stream=reader.signer.stream)
    report, book = join_book(reader.path, victim.key, store, terms)
    with book:
        assert report.aside == ()
        assert [one.raw for one in book.rows()] == victim.raws()


def test_body_that_fits_nothing_goes_in_and_costs_itself_alone(
    victim: Crew, store: MemoryStore
) -> None:
    """Whether a body fits its kind is not looked at on the way in, so all books end alike."""
    victim.ink(draft("note", colour="red"), draft("tablet_revoked", junk=1), draft())
    victim.sync(store)
    report, book = join_book(
        victim.path.with_name("new.book"),
        victim.key,
        store,
        ExchangeRequest(where="m", own_stream=THIEF.stream),
    )

    assert [entry_of(row).unfit for row in book.rows()][-3:] == ["body", "body", ""]
    assert (report.new_rows, report.aside) == (victim.book.count(), ())
    book.close()


def test_time_out_of_bounds_is_refused_for_ever(victim: Crew, store: MemoryStore) -> None:
    """A segment that holds one is set aside, and said to be so for good."""
    far = replace(draft(), at_ms=253_402_300_799_999, offset_min=60)
    row = make_row(far, victim.signer.stream, 4, 500, row_before(victim))
    report = taken_in(
        victim, store, seal_rows([row], row_before(victim), victim.key, victim.signer)
    )

    assert "its time is none between 1970 and 2199" in report.aside[0].sentence
    assert report.aside[0].is_final


def row_before(one: Crew) -> bytes:
    """Hash of the last entry of a tablet."""
    return one.book.heads()[one.signer.stream][1]


def test_own_entry_out_of_bounds_is_not_sealed(victim: Crew, store: MemoryStore) -> None:
    """What nobody could take is not sent; what came before it is, and it is told."""
    victim.ink(draft(), replace(draft(), at_ms=253_402_300_799_999), draft())
    report = victim.sync(store)

    assert report.sealed_rows == 1
    assert "Entry 5 can't be sent" in " ".join(report.notes)
