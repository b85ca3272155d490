"""Entries that were ever written are read for ever, and their bytes stay wherever they go."""

from __future__ import annotations

import copy
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from models.book.row import GENESIS, Row, chain_hash, from_raw
from models.entries.bodies.job import Benchmark
from models.entries.envelope import canonical_bytes, known_form, read_stored_entry
from models.entries.kinds import KINDS
from models.entries.unknown_fields import holds_more
from models.plan.record import Record
from sync.exchange.request import ExchangeRequest
from sync.handover.maker import make_handover
from sync.handover.taker import take_new_handover
from sync.office.database import Office
from sync.office.intake import take_store
from sync.segments.reader import open_segment
from sync.segments.writer import seal_rows
from sync.trust.keys import MemoryKeyRing, Signer
from tests.models.entries.frozen_bodies import (
    WRITER,
    FrozenBody,
    content_of,
    frozen_bodies,
    not_frozen,
)
from tests.models.entries.full_bodies import full_bodies
from tests.sync.exchange.crew import Crew, MemoryStore

KEPT = frozen_bodies()
TERMS = ExchangeRequest(where="memory")


def name_of(one: FrozenBody) -> str:
    """Kind and file."""
    return f"{one.path.parent.name}/{one.path.name}"


def with_more(value: Any) -> Any:
    """Stored fields with one more at every depth that nobody knows."""
    if isinstance(value, dict):
        return {**{key: with_more(one) for key, one in value.items()}, "zz_unknown": {"deep": [1]}}
    return list(map(with_more, value)) if isinstance(value, list) else value


def came_since(body: Record, reading: Any, at: str = "") -> Iterator[tuple[str, Any, Any]]:
    """Yield the fields of a body that a reading lacks: where, what stands there, its default."""
    for name, field in type(body).model_fields.items():
        value = getattr(body, name)
        if name not in reading:
            yield at + name, value, field.get_default()
        elif isinstance(value, Record):
            yield from came_since(value, reading[name], f"{at}{name}.")
        elif isinstance(value, tuple):
            for one, told in zip(value, reading[name], strict=True):
                if isinstance(one, Record):
                    yield from came_since(one, told, f"{at}{name}.")


def without(dump: Any, reading: Any) -> Any:
    """What a body is dumped to, apart from fields that a reading lacks."""
    if isinstance(dump, dict) and isinstance(reading, dict):
        return {key: without(value, reading[key]) for key, value in dump.items() if key in reading}
    if isinstance(dump, list) and isinstance(reading, list):
        return list(map(without, dump, reading))
    return dump


def test_every_kind_is_kept_with_exactly_its_fields() -> None:
    """A field that was added asks for a file: ``python -m tests.house.keep_bodies`` makes it."""
    assert not_frozen(KEPT) == [], "run: python -m tests.house.keep_bodies"


def test_a_field_that_was_added_is_missed(monkeypatch: pytest.MonkeyPatch) -> None:
    """The kind whose body grew is the one that no file holds."""

    class Grown(Benchmark):
        """A benchmark that says who set it."""

        set_by: str = ""

    monkeypatch.setitem(KINDS, "benchmark", Grown)

    assert not_frozen(KEPT) == ["benchmark"]


@pytest.mark.parametrize("kind", KINDS)
def test_every_field_is_filled(kind: str) -> None:
    """Each field holds something other than its default in one of the files of its kind."""
    bodies = [KINDS[kind].model_validate(fields) for fields in full_bodies(kind)]
    fields = KINDS[kind].model_fields.items()

    assert [
        name
        for name, field in fields
        if not field.is_required()
        and all(getattr(body, name) == field.get_default() for body in bodies)
    ] == []


@pytest.mark.parametrize("one", KEPT, ids=name_of)
def test_it_reads_as_it_did(one: FrozenBody) -> None:
    """Each field says what it said when it was kept; those that came since say nothing."""
    entry = read_stored_entry(one.raw)
    assert entry.body is not None, entry.unfit
    reading = known_form(type(entry.body), entry.v, one.reading)

    assert without(entry.body.model_dump(mode="json"), reading) == reading
    assert [told for told in came_since(entry.body, reading) if told[1] != told[2]] == []
    assert not holds_more(entry)


@pytest.mark.parametrize("one", KEPT, ids=name_of)
def test_unknown_fields_are_passed_over(one: FrozenBody) -> None:
    """With a field more in every object it reads the same, and is known to hold more."""
    entry = one.entry
    more = read_stored_entry(canonical_bytes({**entry, "body": with_more(entry["body"])}))

    assert more.body is not None, more.unfit
    assert more.body == read_stored_entry(one.raw).body
    assert holds_more(more)


def test_none_was_changed_or_taken_away() -> None:
    """Each file names the one before it by its digest, and what it holds is in the one form."""
    assert [one.entry["seq"] for one in KEPT] == list(range(1, len(KEPT) + 1))
    assert [one.before for one in KEPT] == ["", *(one.digest for one in KEPT[:-1])]
    assert [
        name_of(one)
        for one in KEPT
        if one.path.read_text("utf-8") != content_of(one.raw, one.reading, one.before)
        or canonical_bytes(one.entry) != one.raw
        or not one.path.name.startswith(f"{one.entry['v']}.")
        or one.path.parent.name != one.entry["kind"]
    ] == []


def rows_of(raws: list[bytes]) -> list[Row]:
    """Rows of one stream, chained."""
    rows: list[Row] = []
    for raw in raws:
        rows.append(from_raw(raw, chain_hash(rows[-1].hash if rows else GENESIS, raw)))
    return rows


@pytest.fixture(scope="module")
def rows() -> list[Row]:
    """Every kept entry; then each once more with fields and words that nobody knows."""
    raws = [one.raw for one in KEPT]
    for one in KEPT:
        entry = copy.deepcopy(one.entry)
        seq = len(raws) + 1
        grown: dict[str, Any] = {"body": with_more(entry["body"]), "needs": ["zz.word"]}
        raws.append(
            canonical_bytes({**entry, **grown, "seq": seq, "lc": seq, "id": f"grown-{seq}"})
        )
    return rows_of(raws)


def test_bytes_stay_wherever_they_go(rows: list[Row], tmp_path: Path) -> None:
    """Through a segment, a book, a store, a hand-over file and the office none is altered."""
    raws = [row.raw for row in rows]
    sealed = seal_rows(rows, GENESIS, "green-7-00112233445566aa", WRITER)
    assert [row.raw for row in open_segment(sealed.name, sealed.data).rows()] == raws

    tablet, store = Crew(tmp_path / "a.book", WRITER), MemoryStore()
    tablet.book.import_rows(rows)
    assert tablet.raws() == raws
    assert tablet.sync(store).is_complete

    file = make_handover(tablet.book, MemoryKeyRing(WRITER), tmp_path / "job.crew").path
    report, book = take_new_handover(file, tmp_path / "b.book", Signer.new().stream, TERMS)
    with book:
        assert report.is_complete
        assert [row.raw for row in book.rows()] == raws
    key = tablet.key
    tablet.close()

    with Office.open(str(tmp_path / "office.db"), make=True) as office:
        told = list(take_store(office, tmp_path / "keep", store, TERMS, ()))
        assert [one.is_complete for one in told] == [True]
        assert [row.raw for row in office.source_of(key).rows()] == raws
