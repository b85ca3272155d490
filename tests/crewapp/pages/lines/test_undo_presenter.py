"""What is shown after a command: the flag that is new comes before one that only grew."""

from __future__ import annotations

from crewapp.commands.passes import LogPass, PlaceSand
from crewapp.handlers.entries import undo_last
from crewapp.handlers.flags import answer_to
from crewapp.job.dispatch import do
from crewapp.job.open_job import JobChanges, OpenJob
from crewapp.pages.lines.undo_presenter import undo_view
from crewapp.pages.lines.undo_view import ShowUndoLine

FT_NM = 304_800_000
TENTH_M3_PL = 10**14


def place(job: OpenJob, moisture: str) -> JobChanges:
    """Put sand into the pass; none of it was delivered."""
    return do(
        job,
        PlaceSand(
            surface_id="G7",
            pass_id="G7-01",
            material_id="sand",
            moisture=moisture,
            volume_pl=TENTH_M3_PL,
            amount_typed="0.1 m3",
        ),
    )


def cut(job: OpenJob) -> None:
    """A pass to put sand into."""
    do(job, LogPass(surface_id="G7", line_ids=("S01",), length_nm=30 * FT_NM, length_typed="30"))


def test_new_flag_is_shown_before_one_that_grew(job: OpenJob) -> None:
    """Twice the sand that never came in is told again; that a load was damp is told first."""
    cut(job)
    assert "delivered" in undo_view(job, ShowUndoLine(changed=place(job, "dry"))).raised_title
    assert "delivered" in undo_view(job, ShowUndoLine(changed=place(job, "dry"))).raised_title

    assert "damp" in undo_view(job, ShowUndoLine(changed=place(job, "damp"))).raised_title


def test_flag_that_merely_stands_is_not_told_again(job: OpenJob) -> None:
    """Four loads that never came in: told at the first, at the second, at the fourth."""
    cut(job)

    told = [
        bool(undo_view(job, ShowUndoLine(changed=place(job, "dry"))).raised_title) for _ in range(4)
    ]

    assert told == [True, True, False, True]


def test_flag_that_outgrows_its_answer_is_told(job: OpenJob) -> None:
    """An answer holds for its figures; with others the flag is open, and that is news, once."""
    cut(job)
    for _ in range(2):
        place(job, "dry")
    do(job, answer_to(job.board.open_flags()[0], answer="accept", why="counted by barrow"))

    assert "delivered" in undo_view(job, ShowUndoLine(changed=place(job, "dry"))).raised_title
    job.read_anew()
    assert undo_view(job, ShowUndoLine(changed=place(job, "dry"))).raised_title == ""


def test_flag_that_came_back_is_told(job: OpenJob) -> None:
    """Taken back, it is gone; done again, it is news again."""
    cut(job)
    undo_last(job, place(job, "dry"))

    assert "delivered" in undo_view(job, ShowUndoLine(changed=place(job, "dry"))).raised_title


def test_flag_that_is_cured_is_named(job: OpenJob) -> None:
    """A key tells which flag is shown and which is cured, so that its banner can go."""
    cut(job)
    placed = place(job, "dry")
    raised = undo_view(job, ShowUndoLine(changed=placed))
    cured = undo_view(job, ShowUndoLine(changed=undo_last(job, placed)))

    assert raised.raised_key == "more_placed_than_delivered/sand"
    assert raised.gone == frozenset()
    assert raised.raised_key in cured.gone
