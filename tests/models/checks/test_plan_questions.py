"""What the audit refuses or asks of a plan is flagged in a book, until it is answered or cured."""

from __future__ import annotations

from typing import Any

from models.checks.finding_text import sentence
from models.checks.flag_board import FlagBoard
from models.state.job_state import JobState
from models.units.job_units import Figures
from tests.models.checks.written_job import Written, written_entries

PATTERN = {"width_nm": "1 in", "width_tolerance_nm": "1/4 in", "depth_nm": "9 in"}
PATTERN |= {"under_nm": "1/2 in", "over_nm": "1 in", "probe_every_nm": "8 ft"}
PATTERN |= {"probe_end_nm": "1 ft"}


def surface(spacing: str, entry_id: str, **more: Any) -> Written:
    """A surface whose sand slits have a spacing, as written."""
    slits = {**PATTERN, "spacing_nm": spacing}
    fields = {"surface_id": "G7", "name": "Green 7", "use": "green", "sand_slits": slits}
    return {"kind": "surface", "id": entry_id, "fields": fields, **more}


def flags(*written: Written) -> FlagBoard:
    """The board of a job, taken entry by entry."""
    board = FlagBoard(JobState())
    for entry in written_entries(list(written)):
        board.state.add(entry)
        board.update(entry)
    return board


def test_a_question_stands_until_it_is_answered_and_again_for_another_figure() -> None:
    """Its key is the rule, the surface and the use; an answer holds for its figures alone."""
    (asked,) = flags(surface("16 ft", "a")).flags()
    answer = {"flag": asked.finding.key, "figures": asked.finding.figures}
    answer |= {"answer": "accept", "why": "old field"}
    said = {"kind": "disposition", "fields": answer}

    assert asked.finding.key == "plan/A03/G7/sand_slit"
    assert sentence(asked.finding, Figures()).startswith("The sand slits of G7 are planned 192 in")
    assert [one.answer is None for one in flags(surface("16 ft", "a"), said).flags()] == [False]
    changed = surface("17 ft", "b", strikes=["a"])
    (lapsed,) = flags(surface("16 ft", "a"), said, changed).flags()
    assert lapsed.answer is None
    assert lapsed.lapsed is not None


def test_a_question_goes_with_what_it_was_about() -> None:
    """A plan with a spacing that is usual, or without the surface, asks nothing."""
    struck = {"kind": "struck", "strikes": ["a"], "fields": {"why": "typed wrong"}}

    assert flags(surface("16 ft", "a"), surface("16 in", "b", strikes=["a"])).flags() == []
    assert flags(surface("16 ft", "a"), struck).flags() == []


def test_what_would_be_refused_is_flagged_where_it_came_in_from_elsewhere() -> None:
    """Two tablets: a machine that cuts 8 in, and slits of 9 in; neither is lost."""
    machine = {"kind": "machine", "fields": {"machine_id": "m", "legs": 2, "deepest_nm": "8 in"}}
    board = flags(surface("16 in", "a"), {**machine, "stream": "tablet-b"})

    (flag,) = board.flags()
    assert flag.finding.key == "plan/A02/G7/sand_slit.depth"
    assert flag.finding.saying == "beyond_machine"
    assert len(flag.finding.entries) == 2
