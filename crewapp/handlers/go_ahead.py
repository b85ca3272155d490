"""Going on with work although its go-ahead says no: only with a reason, and that is inked."""

from __future__ import annotations

from crewapp.handlers.entries import ReasonMissingError, write
from crewapp.job.open_job import Changed, OpenJob


def go_on_anyway(job: OpenJob, *, place: str, missing: str, reason: str) -> Changed:
    """Ink why work goes on at a surface or collector without what is ``missing``.

    Raises
    ------
    ReasonMissingError
        If no reason is given; nothing is written.
    """
    if not reason.strip():
        raise ReasonMissingError(kind="go-ahead")
    return write(job, "go_ahead", place=place, missing=missing, reason=reason.strip())
