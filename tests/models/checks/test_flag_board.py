"""Flags and their answers: the order they stand in, and for which figures an answer holds."""

from __future__ import annotations

from typing import Any

from models.checks.finding import Severity
from models.checks.flag_board import FlagBoard
from models.state.job_state import JobState
from tests.models.checks.written_job import entries_of, written_entries

CLOSED = {"of_day": "2026-05-04", "open_flags": 0, "check_code": ""}
SHALLOW = "depth_shallow/G7-01/S01@3048000000"


def probe(depth: str, id: str = "low", **envelope: Any) -> dict[str, Any]:
    """One probe at 10 ft of the first line, as a case writes it."""
    fields = {"pass_id": "G7-01", "line_id": "S01", "along_nm": "10 ft", "depth_nm": depth}
    return {"kind": "probe", "id": id, "fields": fields, **envelope}


def answer(figures: str) -> dict[str, Any]:
    """An answer to the shallow place, given for some figures."""
    fields = {"flag": SHALLOW, "figures": figures, "answer": "accept", "why": "hard pan below"}
    return {"kind": "disposition", "id": f"for-{figures}", "fields": fields}


def board_with(*written: dict[str, Any]) -> FlagBoard:
    """Board of a green with one pass that has something of each severity."""
    fields = {"surface_id": "G7", "line_ids": ["S01"], "pass_id": "G7-01", "length_nm": "40 ft"}
    sand = {"surface_id": "G7", "pass_id": "G7-02", "material_id": "sand", "volume_pl": "9 m3"}
    second = {**fields, "pass_id": "G7-02", "line_ids": ["S02"], "length_nm": "30 ft"}
    ends = {"pass_id": "G7-02", "line_id": "S02", "depth_nm": "9 in"}
    probes = [
        {"kind": "probe", "fields": {**ends, "along_nm": along}}
        for along in ("1 ft", "10 ft", "20 ft", "29 ft")
    ]
    entries = [
        {"kind": "pass", "fields": second},
        *probes,
        {"kind": "sand_placed", "fields": sand},
        {"kind": "pass", "fields": fields},
        *written,
    ]
    return FlagBoard(JobState(entries_of({"plan": ["green G7"], "entries": entries})))


def figures_now(board: FlagBoard) -> str:
    """Digest of the shallow place's figures as they stand."""
    return next(found.figures for found in board.findings() if found.key == SHALLOW)


def test_flags_stand_worst_first() -> None:
    """What stops the work comes before what must be put right, and that before notes."""
    order = [flag.severity for flag in board_with(probe("8 in")).flags()]
    weight = [Severity.STOP, Severity.FIX, Severity.NOTE]

    assert set(order) == set(weight)
    assert order == sorted(order, key=weight.index)


def test_answered_flag_stands_last_and_is_not_open() -> None:
    """An answer given for the figures as they are closes the flag; it still shows."""
    figures = figures_now(board_with(probe("8 in")))
    board = board_with(probe("8 in"), answer(figures))

    assert board.flags()[-1].finding.key == SHALLOW
    assert SHALLOW not in {flag.finding.key for flag in board.open_flags()}
    assert getattr(board.flags()[-1].answer, "id", "") == f"for-{figures}"


def test_answer_lapses_when_figures_change() -> None:
    """A worse reading at the same place opens the flag again and names the old answer."""
    figures = figures_now(board_with(probe("8 in")))
    worse = probe("7 in", "worse", strikes=["low"])
    board = board_with(probe("8 in"), answer(figures), worse)

    flag = next(flag for flag in board.open_flags() if flag.finding.key == SHALLOW)
    assert flag.answer is None
    assert getattr(flag.lapsed, "id", "") == f"for-{figures}"


def test_take_tells_a_changed_finding_as_come() -> None:
    """A finding with other figures comes anew; it has not gone."""
    board = board_with(probe("8 in"))
    worse = probe("7 in", "worse", strikes=["low"], lc=900, seq=900)
    entry = next(written_entries([worse]))
    board.state.add(entry)

    come, gone = board.update(entry)

    assert [found.key for found in come if found.check == "depth_shallow"] == [SHALLOW]
    assert gone == []


def test_a_plan_without_the_line_still_asks_for_its_joint() -> None:
    """A green is planned anew, now to a collector, without a line that has its pipe already."""
    pipe = {"surface_id": "G7", "material_id": "pipe", "length_nm": "40 ft"}
    plan = {"surface_id": "G7", "name": "Green", "use": "green", "collector_id": "C1", "lines": []}
    entries = entries_of(
        {
            "plan": ["green G7"],
            "entries": [
                {"kind": "pipe_laid", "fields": {**pipe, "line_id": "P01"}},
                {"kind": "pipe_laid", "fields": {**pipe, "surface_id": "", "collector_id": "C1"}},
                {"kind": "day_closed", "fields": CLOSED},
                {"kind": "surface", "fields": plan},
            ],
        }
    )
    state = JobState()
    board = FlagBoard(state)
    for entry in entries:
        state.add(entry)
        board.update(entry)

    keys = {found.key for found in board.findings()}
    assert "connection_missing/G7/P01" in keys
    assert keys == {found.key for found in FlagBoard(state).findings()}
