"""Keys made of two names: each pair has its own, and a typed name stands for every kind."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from models.entries import kind_names
from models.entries.index import EntryKind
from models.entries.keys import day_names, day_place, line_key, split_key, surface_machine
from models.entries.kind_names import BY_NAME
from models.entries.kinds import KINDS
from models.state.indexes import CUTS_OF
from models.state.job_state import JobState
from tests.models.checks.written_job import written_entries

WITHOUT_SUBJECT = {
    "job",  # a book has one
    "local_plane",  # a job has one
    "takeoff_terms",  # a job has one set
    "tie",  # filed under both of its ends
    "pipe_laid",  # filed under line, collector, coil and material
    "spoil",  # goes away, nobody asks where from
    *("utility", "weather", "delay", "note", "photo", "tomorrow", "rain", "repair"),  # met by day
    "hours",  # filed by day, and told by person or machine
    *("signature", "day_closed", "day_reopened"),  # filed under the day they are of
    "struck",  # strikes, and says nothing else
    *("tablet_added", "tablet_revoked"),  # read by the list of tablets alone
}
"""Kinds that are found under "" alone, and why."""

names = st.text("A/B\\ ", max_size=5)


@given(names, names)
def test_names_come_back(first: str, second: str) -> None:
    """Names put into a key are read back from it, whatever slashes they hold."""
    assert split_key(line_key(first, second)) == (first, second)
    assert split_key(surface_machine(first, second)) == (first, second)
    assert day_names(day_place("2026-05-13", second)) == ("2026-05-13", second)


def test_slash_in_a_name_is_no_other_line() -> None:
    """Line C of surface A/B and line B/C of surface A are two lines."""
    cut = {"machine_id": "M", "length_nm": 1}
    first = {"pass_id": "1", "surface_id": "A/B", "line_ids": ["C"], **cut}
    second = {"pass_id": "2", "surface_id": "A", "line_ids": ["B/C"], **cut}
    written = [{"kind": "pass", "fields": fields} for fields in (first, second)]
    state = JobState(written_entries(written))

    assert [cut.pass_id for cut in state.bodies(CUTS_OF, line_key("A/B", "C"))] == ["1"]
    assert [cut.pass_id for cut in state.bodies(CUTS_OF, line_key("A", "B/C"))] == ["2"]


def test_every_kind_has_its_name_and_its_subject() -> None:
    """Typed names are those of the bodies; the field they name is one of the body's."""
    assert {kind.name for kind in BY_NAME.values()} == set(KINDS)
    assert all(vars(kind_names)[name.upper()] is kind for name, kind in BY_NAME.items())
    assert {name for name, kind in BY_NAME.items() if not kind.under} == WITHOUT_SUBJECT
    wrong = [
        name
        for name, kind in BY_NAME.items()
        if isinstance(kind, EntryKind) and kind.under and kind.under not in KINDS[name].model_fields
    ]
    assert wrong == []
