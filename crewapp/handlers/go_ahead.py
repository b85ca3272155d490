"""Going on with work although its go-ahead says no: only with a reason, and that is inked."""

from __future__ import annotations

from crewapp.commands.go_ahead import GoOnAnyway
from crewapp.handlers.entries import ReasonMissingError, write
from crewapp.job.dispatch import handles
from crewapp.job.open_job import JobChanges, OpenJob
from models.entries.bodies.collector_work import GoAhead


@handles(GoOnAnyway)
def go_on_anyway(job: OpenJob, command: GoOnAnyway) -> JobChanges:
    """Ink why work goes on at a surface or collector without what is ``missing``.

    Raises
    ------
    ReasonMissingError
        If no reason is given; nothing is written.
    """
    if not command.reason.strip():
        raise ReasonMissingError(kind="go-ahead")
    return write(
        job, GoAhead(place=command.place, missing=command.missing, reason=command.reason.strip())
    )
