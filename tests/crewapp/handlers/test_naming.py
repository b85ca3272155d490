"""Names that two tablets give out of each other's sight never meet."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from crewapp.commands.grade import SetUpLaser
from crewapp.commands.passes import LogPass
from crewapp.handlers.grade import next_setup_id
from crewapp.handlers.naming import own_mark
from crewapp.handlers.passes import next_pass_id
from crewapp.handlers.plan.plan_entries import set_up_all
from crewapp.imports.plan.plan_file import read_plan
from crewapp.job.dispatch import do
from crewapp.job.open_job import OpenJob
from crewapp.pages.grade.setup.presenter import _next_turning
from crewapp.tablet.clock import SetClock
from models.entries.kind_names import SETUP
from models.state.indexes import PASSES_ON
from sync.trust.keys import Signer
from tests.crewapp.conftest import plan_text

FT = 304_800_000


@pytest.fixture
def pair(tmp_path: Path, clock: SetClock) -> Iterator[tuple[OpenJob, OpenJob]]:
    """One job on the tablet that founded it, and on one that joined; neither sees the other."""
    first = OpenJob.open(tmp_path / "a.book", clock, "foreman", Signer.new().stream)
    set_up_all(first, read_plan(Path("small.json"), plan_text()))
    second = OpenJob.open(tmp_path / "b.book", clock, "mate", Signer.new().stream)
    second.book.import_rows(list(first.book.rows()))
    second.read_anew()
    yield first, second
    first.close()
    second.close()


def work(job: OpenJob) -> None:
    """A setup and a pass, named by the app."""
    do(job, SetUpLaser(on_point="BM1", backsight_nm=5 * FT))
    do(job, LogPass(surface_id="G7", line_ids=("S01",), length_nm=30 * FT, length_typed="30"))


def names_of(job: OpenJob) -> list[str]:
    """Return the names of setups and passes, as the book has them."""
    passes = [entry.body.pass_id for entry in job.state.current(PASSES_ON, "G7")]
    return sorted([*job.state.every_name(SETUP), *passes])


def test_two_tablets_name_their_first_setup_and_pass_apart(
    pair: tuple[OpenJob, OpenJob],
) -> None:
    """L1 and G7-01 on one, L1-7K and G7-01-7K on the other: together there is no flag."""
    first, second = pair
    work(first)
    work(second)
    first.book.import_rows(list(second.book.rows()))
    first.read_anew()
    mark = own_mark(second)

    assert len(mark) == 3
    assert names_of(first) == sorted(["G7-01", f"G7-01{mark}", "L1", f"L1{mark}"])
    assert not first.board.findings_about("name_given_twice", "L1")


def test_names_go_on_by_number_on_each(pair: tuple[OpenJob, OpenJob]) -> None:
    """The next ones count on, plain on the first tablet and marked on the other."""
    first, second = pair
    work(first)
    work(second)

    assert (next_setup_id(first), next_pass_id(first, "G7")) == ("L2", "G7-02")
    assert next_setup_id(second) == f"L2{own_mark(second)}"
    assert _next_turning(first) == "TP1"
    assert _next_turning(second) == f"TP1{own_mark(second)}"


def test_mark_is_longer_where_another_tablet_shares_it(pair: tuple[OpenJob, OpenJob]) -> None:
    """Of two codes that begin alike, each takes two letters more."""
    _, second = pair
    third = OpenJob(second.book, second.clock, "third")
    third.stream = second.stream[:3] + ("0" if second.stream[3] != "0" else "1") * 29
    work(second)

    assert own_mark(third)[:3] == own_mark(second)
    assert len(own_mark(third)) == 5


def test_job_without_keys_has_plain_names(job: OpenJob) -> None:
    """A book made by hand, or an old one, goes on as it began."""
    job.stream = "tablet-b"
    work(job)

    assert names_of(job) == ["G7-01", "L1"]
