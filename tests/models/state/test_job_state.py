"""A job folded from its entries: indexes, places of corrections, running totals."""

from __future__ import annotations

from typing import Any

from hypothesis import given
from hypothesis import strategies as st

from models.entries.keys import line_key
from models.state.indexes import PLACED_PL, SAND_ON, TURF_OF
from models.state.job_state import JobState
from tests.models.checks.written_job import FIRST_DAY, written_entries


def turf(id: str, step: str, strikes: list[str] | None = None) -> dict[str, Any]:
    """One thing done with a strip, as a case writes it."""
    fields = {"surface_id": "G7", "line_ids": ["S01"], "step": step}
    return {"kind": "turf_strip", "id": id, "fields": fields, "strikes": strikes or []}


def sand(id: str, volume_pl: int, strikes: list[str] | None = None) -> dict[str, Any]:
    """One load of sand, as a case writes it."""
    fields = {"surface_id": "G7", "material_id": "sand", "volume_pl": volume_pl}
    return {"kind": "sand_placed", "id": id, "fields": fields, "strikes": strikes or []}


CORRECTED_TWICE = [
    turf("a", "lifted"),
    turf("b", "put_back"),
    turf("c", "lifted", ["a"]),
    turf("d", "rolled"),
    turf("e", "lifted", ["c"]),
]


@given(order=st.permutations(range(5)))
def test_correction_stands_in_the_place_of_what_it_corrects(order: list[int]) -> None:
    """However entries arrive, a correction of a correction stands where the first stood."""
    entries = list(written_entries(CORRECTED_TWICE))
    state = JobState(entries[number] for number in order)

    assert [entry.id for entry in state.current(TURF_OF, line_key("G7", "S01"))] == ["e", "b", "d"]
    assert getattr(state.latest(TURF_OF, line_key("G7", "S01")), "step", "") == "rolled"


def test_what_strikes_another_kind_keeps_its_own_place() -> None:
    """Only a correction of the same kind takes the place of what it strikes."""
    note = {"kind": "note", "id": "n", "fields": {"text": "it was rolled"}, "strikes": ["a"]}
    state = JobState(written_entries([turf("a", "lifted"), turf("b", "rolled"), note]))

    assert state.place_of(state.entries["n"]) == ((3, "n"), (3, "n"))


def test_days_keep_the_order_of_writing() -> None:
    """A sheet lists entries as they were written, corrections after what came between."""
    state = JobState(written_entries(CORRECTED_TWICE))

    assert [entry.id for entry in state.days[FIRST_DAY]] == ["a", "b", "c", "d", "e"]


@given(order=st.permutations(range(3)))
def test_totals_count_what_stands(order: list[int]) -> None:
    """A running total holds the correction alone, in whatever order the entries come."""
    entries = list(written_entries([sand("a", 7), sand("b", 5), sand("c", 6, ["b"])]))
    state = JobState(entries[number] for number in order)

    assert state.total(PLACED_PL, "sand") == 13


def test_same_entry_twice_is_taken_once() -> None:
    """An entry that comes again changes nothing."""
    entries = list(written_entries([sand("a", 7)]))
    state = JobState([*entries, *entries])

    assert not state.add(entries[0])
    assert len(state.current(SAND_ON, "G7")) == 1


def test_memo_is_emptied_by_every_entry() -> None:
    """What was worked out before an entry is not held against it afterwards."""
    state = JobState()
    state.memo[("answer", "")] = 1
    state.add(next(written_entries([sand("a", 7)])))

    assert state.memo == {}
