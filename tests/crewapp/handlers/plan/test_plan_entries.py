"""Setting a job up, and planning it anew."""

from __future__ import annotations

import pytest

from crewapp.handlers.plan.plan_entries import NAMED_BY, PLAN_KINDS, set_up, set_up_all
from crewapp.job.open_job import OpenJob
from models.entries.envelope import EntryRefusedError
from models.entries.kind_names import JOB, PERSON
from models.entries.kinds import KINDS


def test_plan_entry_is_written(job: OpenJob) -> None:
    """A new name stands beside the old ones."""
    set_up(job, "person", person_id="Bo", name="Bo Invented")

    assert job.state.every_name(PERSON) == ["Ana", "Bo"]


def test_same_name_takes_the_place_of_the_one_before(job: OpenJob) -> None:
    """Planned again, an entry strikes the one of its name."""
    changed = set_up(job, "person", person_id="Ana", name="Ana Other")

    assert changed.entries[0].reason == "plan changed"
    assert [body.name for body in job.state.bodies(PERSON, "Ana")] == ["Ana Other"]


def test_job_itself_takes_the_place_of_the_one_before(job: OpenJob) -> None:
    """There is one job in a book."""
    set_up(job, "job", job_id="small", name="Hollow green, second stage")

    assert [body.name for body in job.state.bodies(JOB)] == ["Hollow green, second stage"]


def test_nothing_is_planned_when_one_entry_does_not_fit(job: OpenJob) -> None:
    """A plan is written whole or not at all."""
    before = job.book.count()
    with pytest.raises(EntryRefusedError, match="name of this person"):
        set_up_all(
            job, [("person", {"person_id": "A", "name": "A"}), ("person", {"person_id": "B"})]
        )

    assert job.book.count() == before


def test_every_plan_kind_is_named_by_a_field_it_has() -> None:
    """The table of names fits the models."""
    assert all(not name or name in KINDS[kind].model_fields for kind, name in NAMED_BY.items())
    assert tuple(KINDS)[: len(PLAN_KINDS)] == PLAN_KINDS
