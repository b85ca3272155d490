"""Going on without what guards people is inked with its reason, and printed with the day."""

from __future__ import annotations

from pathlib import Path

import pytest

from crewapp.commands.go_ahead import GoOnAnyway
from crewapp.handlers.entries import ReasonMissingError
from crewapp.job.dispatch import do
from crewapp.job.open_job import OpenJob
from crewapp.pages.lines.undo_presenter import undo_view
from crewapp.pages.lines.undo_view import ShowUndoLine
from models.entries.kind_names import GO_AHEAD
from sync.papers.day.day_files import build_day_sheet
from sync.papers.wording.entry_text import details_of, title_of
from tests.crewapp.conftest import DAY
from tests.sync.papers.pdf_reading import text_of


@pytest.mark.parametrize("reason", ["", "  "])
def test_no_reason_no_going_on(job: OpenJob, reason: str) -> None:
    """Nothing is written without one."""
    with pytest.raises(ReasonMissingError):
        do(job, GoOnAnyway(place="G7", missing="locate_ticket", reason=reason))

    assert not job.state.current(GO_AHEAD, "G7")


def test_reason_is_said_on_glass_and_paper(job: OpenJob) -> None:
    """Undo strip and day sheet tell what was missing and why work went on."""
    changed = do(job, GoOnAnyway(place="G7", missing="locate_ticket", reason="locator is here"))
    (entry,) = job.state.current(GO_AHEAD, "G7")

    assert undo_view(job, ShowUndoLine(changed=changed)).text.endswith(
        "gone on without locate ticket: locator is here"
    )
    assert undo_view(job, ShowUndoLine(changed=changed)).can_undo
    assert title_of("go_ahead") == "Gone on anyway"
    assert details_of(entry, job.figures) == "G7: no locate ticket; locator is here"


def test_day_sheet_prints_the_reason(job: OpenJob, tmp_path: Path) -> None:
    """Whoever reads the day's paper sees that work went on, and why."""
    do(job, GoOnAnyway(place="C1", missing="trench_protection", reason="work from the bank only"))
    sheet = build_day_sheet(job.state, job.board, DAY)
    path = tmp_path / "day.pdf"
    path.write_bytes(sheet)

    assert "C1: no trench protection; work from the bank only" in " ".join(text_of(path).split())
