"""How setups hang from benchmarks, and what hangs from a setup."""

from __future__ import annotations

from typing import Any

import pytest

from models.entries.kind_names import BENCHMARK
from models.queries.levelling.setup_chain import (
    LONGEST_ROD_NM,
    chain_of,
    hanging_from,
    is_on_rod,
    is_over,
    setups_affected,
)
from models.state.job_state import JobState
from tests.models.checks.written_job import entries_of


def setup(name: str, on: str, reading: str | None = "5 ft", **envelope: Any) -> dict[str, Any]:
    """A setup that looks back on a point."""
    fields = {"setup_id": name, "on_point": on, "backsight_nm": reading}
    return {"kind": "setup", **envelope, "fields": fields}


def turn(name: str, point: str, reading: str = "4 ft") -> dict[str, Any]:
    """A turning point read from a setup."""
    fields = {"setup_id": name, "point_id": point, "foresight_nm": reading}
    return {"kind": "turning_point", "fields": fields}


def job(*written: dict[str, Any]) -> JobState:
    """A job with a benchmark and what was written."""
    return JobState(entries_of({"plan": ["BM1"], "entries": list(written)}))


RUN = (setup("L1", "BM1"), turn("L1", "TP1"), setup("L2", "TP1"), turn("L2", "TP2"))


def test_chain_runs_back_to_its_benchmark() -> None:
    """Two turning points lie between the third setup and the benchmark."""
    chain = chain_of(job(*RUN, setup("L3", "TP2")), "L3")

    assert [getattr(entry.body, "setup_id", "") for entry in chain.setups] == ["L3", "L2", "L1"]
    assert len(chain.turnings) == 2
    assert chain.benchmark == "BM1"
    assert chain.lost_at == frozenset()
    assert chain.is_sound


def test_chain_ends_where_nobody_knows_the_point() -> None:
    """A run is lost at the setup on the unknown point, however far along one asks."""
    chain = chain_of(job(setup("L1", "TP9"), *RUN[1:], setup("L3", "TP2")), "L3")

    assert chain.benchmark == ""
    assert chain.lost_at == {"L1"}
    assert not chain.is_sound


def test_chain_that_bites_its_tail_ends() -> None:
    """Two setups that hang from each other are both lost, and the walk ends."""
    state = job(setup("L1", "TP2"), turn("L1", "TP1"), setup("L2", "TP1"), turn("L2", "TP2"))

    assert chain_of(state, "L1").lost_at == {"L1", "L2"}


def test_chain_of_a_setup_that_is_not_there_is_empty() -> None:
    """A setup that nobody wrote, L7, hangs from no chain."""
    assert chain_of(job(), "L7").setups == ()


@pytest.mark.parametrize("bad", [setup("L2", "TP1", None), setup("L2", "TP1", "-1 ft")])
def test_missing_or_impossible_reading_makes_a_chain_unsound(bad: dict[str, Any]) -> None:
    """A run with a reading that is not there, or that no rod gives, carries no level."""
    chain = chain_of(job(*RUN[:2], bad), "L2")

    assert chain.benchmark == "BM1"
    assert not chain.is_sound


def test_rod_ends_count_as_within() -> None:
    """Nothing and the full length of the rod can be read; beyond either cannot."""
    assert is_on_rod(0)
    assert is_on_rod(LONGEST_ROD_NM)
    assert not is_on_rod(-1)
    assert not is_on_rod(LONGEST_ROD_NM + 1)
    assert not is_on_rod(None)


def test_what_hangs_from_a_setup_is_found_down_the_run() -> None:
    """L2 and L3 hang from L1; a setup on the benchmark does not."""
    state = job(*RUN, setup("L3", "TP2"), setup("L9", "BM1"))

    assert hanging_from(state, ["L1"]) == {"L1", "L2", "L3"}


def test_benchmark_touches_every_setup_that_hangs_from_it() -> None:
    """A corrected benchmark moves the whole run."""
    state = job(*RUN, setup("L3", "TP2"))
    benchmark = state.current(BENCHMARK, "BM1")[0]

    assert setups_affected(state, benchmark) == {"L1", "L2", "L3"}


def test_setup_is_over_once_the_same_tablet_sets_up_again() -> None:
    """Another tablet's laser leaves this one standing."""
    state = job(setup("L1", "BM1"), setup("L2", "BM1", stream="tablet-b"))
    assert not is_over(state, "L1")

    state = job(setup("L1", "BM1"), setup("L2", "BM1"))
    assert is_over(state, "L1")
    assert not is_over(state, "L2")
