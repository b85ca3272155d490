"""Answering a flag by its key, for the figures that the person saw."""

from __future__ import annotations

from crewapp.commands.flags import AnswerFlag
from crewapp.handlers.entries import write
from crewapp.job.dispatch import handles
from crewapp.job.open_job import JobChanges, OpenJob
from models.checks.finding_text import sentence
from models.checks.flag_board import Flag
from models.entries.bodies.day import Disposition
from models.errors import CrewError


class FlagGoneError(CrewError, LookupError):
    """A flag was answered that is no longer there, or now has other figures."""

    code = "flags.gone"
    sentence = (
        "Nothing was answered: {why} since it was shown. Read the list anew; "
        "a flag that stands there would be accepted."
    )


@handles(AnswerFlag)
def answer_flag(job: OpenJob, command: AnswerFlag) -> JobChanges:
    """Answer the flag of a key as it was read: ``figures`` is the digest of its facts.

    Raises
    ------
    FlagGoneError
        If it has cleared, or its figures have changed; nothing is written.
    """
    flag = next((one for one in job.board.flags() if one.finding.key == command.key), None)
    if flag is None:
        raise FlagGoneError(why="the flag has cleared")
    if flag.finding.figures != command.figures:
        raise FlagGoneError(why="its figures have changed")
    return write(
        job,
        Disposition(
            flag=flag.finding.key,
            figures=flag.finding.figures,
            said=sentence(flag.finding, job.figures),
            answer=command.answer,
            why=command.why,
        ),
    )


def answer_to(flag: Flag, *, answer: str, why: str) -> AnswerFlag:
    """Return the command that answers a flag for the figures that it shows now."""
    finding = flag.finding
    return AnswerFlag(key=finding.key, figures=finding.figures, answer=answer, why=why)
