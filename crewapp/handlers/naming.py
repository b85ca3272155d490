"""Names that the app gives by itself, and the mark that keeps those of two tablets apart."""

from __future__ import annotations

from crewapp.job.open_job import OpenJob
from models.entries.body import Body
from models.entries.index import Index
from models.entries.tablet_code import code_of

SHORT, LONG = 2, 4


def own_mark(job: OpenJob) -> str:
    """Return what this tablet puts behind new names: ``-7K``, or "" on the one that began the job.

    Two tablets out of each other's sight would both call their first setup L1. The mark is the
    beginning of the tablet's code; it is longer where a tablet that wrote here shares it.
    """
    own, founders = job.stream, job.book.of_kinds(["job"])
    code = code_of(own)
    if not code or not founders or own == founders[0].stream or not code_of(founders[0].stream):
        return ""
    others = {code_of(stream)[:SHORT] for stream in job.book.heads() if stream != own}
    return f"-{code[: LONG if code[:SHORT] in others else SHORT]}"


def free_name(job: OpenJob, kind: Index[Body, str], first: int, form: str) -> str:
    """Return the first name of a form, such as ``L{number}``, that no entry ever bore.

    ``kind`` is the kind of entry that bears it, ``first`` the number to begin with.
    """
    mark, number = own_mark(job), first
    while job.state.is_used(kind, form.format(number=number) + mark):
        number += 1
    return form.format(number=number) + mark
