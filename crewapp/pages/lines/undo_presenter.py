"""After a command: one line for the undo strip, and the worst flag that is news."""

from __future__ import annotations

from crewapp.job.dispatch import answers
from crewapp.job.open_job import OpenJob
from crewapp.kit.input.list_rows import shorten
from crewapp.kit.look.palette import Status
from crewapp.pages.lines.entry_line import entry_line
from crewapp.pages.lines.finding_line import finding_line
from crewapp.pages.lines.undo_view import ShowUndoLine, UndoView
from crewapp.words.translate import say
from models.checks.finding import Severity
from models.checks.registry import BY_ID, severity_of
from models.entries.envelope import AnyEntry

LONGEST = 56
_NOT_UNDONE = frozenset(
    {"struck", "day_closed", "day_reopened", "signature", "tablet_added", "tablet_revoked"}
)
_WEIGHT = {Severity.STOP: 0, Severity.FIX: 1, Severity.NOTE: 2}


@answers(ShowUndoLine)
def undo_view(job: OpenJob, query: ShowUndoLine) -> UndoView:
    """Read what to show after ``changed``."""
    last = query.changed.entries[-1]
    what = shorten(entry_line(last, job.figures), LONGEST)
    text = say("Inked {time}: {what}", time=local_time(last), what=what)
    can_undo = last.kind not in _NOT_UNDONE and not last.strikes
    flags = len(job.board.open_flags())
    come = sorted(query.changed.to_tell, key=lambda finding: _WEIGHT[severity_of(finding)])
    gone = frozenset(finding.key for finding in query.changed.gone)
    if not come:
        return UndoView(text, can_undo, flags, gone=gone)
    check = BY_ID[come[0].check]
    return UndoView(
        text,
        can_undo,
        flags,
        Status.OUT if severity_of(come[0]) is Severity.STOP else Status.CHECK,
        finding_line(come[0], job.figures),
        say(check.cure_of(come[0])),
        come[0].key,
        gone,
    )


def local_time(entry: AnyEntry) -> str:
    """Time of day an entry was inked, as the tablet's clock showed it: ``14:05``."""
    return entry.written_at("%H:%M")
