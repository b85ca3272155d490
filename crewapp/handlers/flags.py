"""Answering a flag by its key, for the figures that the person saw."""

from __future__ import annotations

from crewapp.handlers.day import answer_flag
from crewapp.job.open_job import Changed, OpenJob
from models.errors import CrewError


class FlagGoneError(CrewError, LookupError):
    """A flag was answered that is no longer there, or now has other figures."""

    code = "flags.gone"
    sentence = (
        "Nothing was answered: {why} since it was shown. Read the list anew; "
        "a flag that stands there would be accepted."
    )


def answer_by_key(job: OpenJob, *, key: str, figures: str, answer: str, why: str) -> Changed:
    """Answer the flag of a key as it was read: ``figures`` is the digest of its facts.

    Raises
    ------
    FlagGoneError
        If it has cleared, or its figures have changed; nothing is written.
    """
    flag = next((one for one in job.board.flags() if one.finding.key == key), None)
    if flag is None:
        raise FlagGoneError(why="the flag has cleared")
    if flag.finding.figures != figures:
        raise FlagGoneError(why="its figures have changed")
    return answer_flag(job, flag, answer=answer, why=why)
