"""Every kind of entry in one line, and what a tap shows."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from crewapp.commands.day import CloseDay, LogNote, LogUtility
from crewapp.commands.entries import Strike
from crewapp.commands.loads import TakeDelivery
from crewapp.demo.story import demo_job, work_days
from crewapp.job.dispatch import do
from crewapp.job.open_job import OpenJob
from crewapp.kit.look.palette import Status
from crewapp.pages.lines.entry_line import entry_line
from crewapp.pages.lines.undo_presenter import undo_view
from crewapp.pages.lines.undo_view import ShowUndoLine
from models.entries.kinds import KINDS
from tests.crewapp.conftest import DAY

PLAN_KINDS = {"job", "surface", "collector", "benchmark", "material", "locate_ticket"}
PLAN_KINDS |= {"person", "machine", "limits", "figure"}


@pytest.fixture(scope="module")
def demo(tmp_path_factory: pytest.TempPathFactory) -> Iterator[OpenJob]:
    """The demo, worked to its end."""
    with demo_job(tmp_path_factory.mktemp("demo") / "demo.book") as job:
        for _ in work_days(job):
            pass
        yield job


def test_every_entry_of_the_demo_is_said_in_one_line(demo: OpenJob) -> None:
    """No field name, no nanometres, no empty line."""
    for entry in demo.state.entries.values():
        line = entry_line(entry, demo.figures)
        assert line.strip()
        assert "\n" not in line
        assert not {"_", "{", "None"} & {*line, *line.split()}, line


def test_kinds_a_day_can_raise_have_words_of_their_own(demo: OpenJob) -> None:
    """Most of them are in the demo, so that the test above has seen them."""
    met = {entry.kind for entry in demo.state.entries.values()}

    assert len(met - PLAN_KINDS) >= 20
    assert met <= set(KINDS)


def test_strip_says_when_and_what(job: OpenJob) -> None:
    """By the clock of the job's zone."""
    view = undo_view(job, ShowUndoLine(changed=do(job, LogNote(text="wet corner"))))

    assert view.text == "Inked 08:00: wet corner"
    assert (view.can_undo, view.raised_title) == (True, "")


def test_worst_flag_is_shown_with_its_cure(job: OpenJob) -> None:
    """A utility hit: it stops the work, in red."""
    view = undo_view(
        job, ShowUndoLine(changed=do(job, LogUtility(event="hit", what="gas", where="line S01")))
    )

    assert view.raised_status == Status.OUT
    assert "gas" in view.raised_title
    assert view.raised_text.endswith(".")
    assert view.open_flags == 1


def test_lesser_flag_asks_for_a_look(job: OpenJob) -> None:
    """A delivery without a ticket stops nothing."""
    view = undo_view(
        job, ShowUndoLine(changed=do(job, TakeDelivery(material_id="sand", volume_pl=10**15)))
    )

    assert view.raised_status == Status.CHECK


def test_strike_and_closing_are_not_undone_by_a_tap(job: OpenJob, tmp_path: Path) -> None:
    """They have ways of their own: write it again, reopen the day."""
    noted = do(job, LogNote(text="wet"))
    struck = undo_view(
        job,
        ShowUndoLine(changed=do(job, Strike(entry_id=noted.entries[0].id, reason="wrong corner"))),
    )
    closed = undo_view(job, ShowUndoLine(changed=do(job, CloseDay(day=DAY))))

    assert (struck.can_undo, closed.can_undo) == (False, False)
