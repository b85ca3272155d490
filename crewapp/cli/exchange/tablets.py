"""``crewapp tablets``: this tablet's code, and which tablets may write to a job."""

from __future__ import annotations

import argparse
import json
from pathlib import Path

from crewapp.cli.books import book_to_read, book_to_write
from crewapp.cli.example import Example
from crewapp.commands.tablets import AddTablet, RevokeTablet
from crewapp.handlers.tablets import job_members
from crewapp.job.dispatch import do
from crewapp.tablet.settings import Tablet
from crewapp.words.translate import translate_later
from models.entries.tablet_code import code_of
from models.errors import CrewError
from sync.papers.wording.safe_text import single_line
from sync.trust.members import Members

EXAMPLES = (
    Example("crewapp tablets", translate_later("The code of this tablet, to be read out")),
    Example("crewapp tablets larkfield.book", translate_later("Which tablets may write to a job")),
)


class NoBookNamedError(CrewError, ValueError):
    """The list of tablets was to be changed of no book."""

    code = "commands.no_book_named"
    sentence = "No list of tablets was changed: no book was named. Its path would be accepted."


def run(args: argparse.Namespace) -> int:
    """Print this tablet's code, or print or change a job's list."""
    own = code_of(Tablet.of_user().stream())
    if args.book is None:
        if args.add or args.revoke:
            raise NoBookNamedError()
        print(json.dumps({"this_tablet": own}) if args.json else f"This tablet's code is {own}")
        return 0
    members = _change(args) if args.add or args.revoke else _read(args.book)
    if args.json:
        print(json.dumps(_facts(own, members), ensure_ascii=False))
    else:
        _print(own, members)
    return 0


def _change(args: argparse.Namespace) -> Members:
    with book_to_write(args.book, args.author) as job:
        if args.add:
            do(job, AddTablet(code=args.add, name=args.name))
        else:
            do(job, RevokeTablet(code=args.revoke, why=args.why))
        return job_members(job)


def _read(book: Path) -> Members:
    with book_to_read(book) as job:
        return job_members(job)


def _facts(own: str, members: Members) -> dict[str, object]:
    tablets = [
        {"code": one.code, "name": one.name, "may_write": not one.is_revoked, "why": one.why}
        for one in members.tablets.values()
    ]
    job = members.job
    return {"job": job.key, "is_open": job.is_open, "this_tablet": own, "tablets": tablets}


def _print(own: str, members: Members) -> None:
    print(f"Job {members.job.key}")
    if members.job.is_open:
        print("  the invented job: any tablet may write to it")
    for one in members.tablets.values():
        mark = "taken off the list" if one.is_revoked else "may write"
        here = ", this tablet" if one.code == own else ""
        first = ", founded the job" if one.code == code_of(members.job.founder) else ""
        print(f"  {one.code}  {single_line(one.name) or '(no name)'}: {mark}{here}{first}")
    if own not in members.tablets and not members.job.is_open:
        print(f"  this tablet, {own}, is not on the list: add it on one that is")
