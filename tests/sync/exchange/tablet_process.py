"""One tablet as a process of its own, which does what it is told line by line.

Run with a folder of packages before all others on PYTHONPATH, it is a tablet of that version.
Each line in is JSON, ``{"act": ..., more}``; each line out is the JSON that it answers with.
"""

from __future__ import annotations

import hashlib
import json
import sys
from pathlib import Path
from typing import Any

from crewapp.commands.day import CloseDay
from crewapp.commands.entries import Correct, Strike
from crewapp.commands.tablets import AddTablet, RevokeTablet
from crewapp.handlers.entries import write
from crewapp.handlers.plan.plan_entries import set_up_all
from crewapp.handlers.tablets import job_members, uphold_held
from crewapp.imports.plan.plan_file import read_plan
from crewapp.job.dispatch import do
from crewapp.job.open_job import JobChanges, OpenJob
from crewapp.tablet.clock import SetClock
from models.book.store import Book
from models.entries.envelope import build_body
from models.entries.tablet_code import code_of
from models.state.check_code import book_code, check_code
from sync.exchange.engine import exchange_book
from sync.exchange.request import ExchangeRequest
from sync.papers.day.day_files import SheetFormat, build_day_sheet
from sync.papers.day.facts.day import gather_day
from sync.stores.folder import FolderStore
from sync.trust.keys import MemoryKeyRing, Signer


class Tablet:
    """A tablet with its book open; every method is an act that it can be told to do."""

    def __init__(self, book: Path, name: str) -> None:
        self.signer = Signer(hashlib.sha256(name.encode()).digest())
        opens = Book.open if book.exists() else Book.create
        self.clock = SetClock("America/Chicago", 0)
        opened = opens(book, stream=self.signer.stream, reserve_bytes=10)
        self.job = OpenJob(opened, self.clock, author=name)
        self.job.stream = self.signer.stream

    def go_to(self, day: str, minutes: int) -> None:
        """Set the clock."""
        self.clock.set_to(day, minutes)

    def plan(self, path: str) -> list[str]:
        """Set up the job of a plan file."""
        return _ids(set_up_all(self.job, read_plan(Path(path), Path(path).read_text("utf-8"))))

    def write(self, kind: str, fields: dict[str, Any]) -> list[str]:
        """Write an entry."""
        return _ids(write(self.job, build_body(kind, fields)))

    def correct(self, id: str, fields: dict[str, Any]) -> list[str]:
        """Correct an entry."""
        return _ids(do(self.job, Correct(entry_id=id, reason="misread", fields=fields)))

    def strike(self, id: str) -> list[str]:
        """Cross out an entry."""
        return _ids(do(self.job, Strike(entry_id=id, reason="twice")))

    def close_day(self, day: str) -> list[str]:
        """Close a day."""
        return _ids(do(self.job, CloseDay(day=day)))

    def add(self, code: str) -> list[str]:
        """Put a tablet on the list."""
        return _ids(do(self.job, AddTablet(code=code)))

    def take_off(self, code: str) -> list[str]:
        """Take a tablet off the list."""
        return _ids(do(self.job, RevokeTablet(code=code, why="lost")))

    def code(self) -> str:
        """The code of this tablet."""
        return code_of(self.signer.stream)

    def copy(self, to: str) -> None:
        """Copy the book for another tablet."""
        self.job.book.backup(Path(to))

    def sync(self, folder: str) -> dict[str, Any]:
        """Exchange with a folder."""
        terms = ExchangeRequest(
            where=folder, ring=MemoryKeyRing(self.signer), own_stream=self.signer.stream
        )
        report = exchange_book(self.job.book, FolderStore(Path(folder)), terms)
        self.job.read_anew()
        uphold_held(self.job, own_stream=self.signer.stream)
        return {"whole": report.is_complete, "aside": [str(one) for one in report.aside]}

    def tell(self) -> dict[str, Any]:
        """All that tablets of one job must agree on, and what each shows for itself."""
        state = self.job.state
        days = sorted(state.days)
        sheets = {day: gather_day(state, self.job.board, day) for day in days}
        for day in days:
            assert build_day_sheet(state, self.job.board, day, format=SheetFormat.PDF)
        members = job_members(self.job).tablets
        return {
            "raws": [row.raw.decode() for row in self.job.book.rows()],
            "codes": {day: check_code(state, day) for day in days},
            "book_code": book_code(state),
            "heads": {key: [seq, one.hex()] for key, (seq, one) in self.job.book.heads().items()},
            "on_list": sorted(code for code, one in members.items() if not one.is_revoked),
            "off_list": sorted(code for code, one in members.items() if one.is_revoked),
            "closed": [day for day in days if state.is_closed(day)],
            "passes": {day: sorted(one.body.pass_id for one in sheets[day].passes) for day in days},
            "holding_more": {day: sheets[day].holding_more for day in days},
            "flags": {day: [one.check for one in sheets[day].flags] for day in days},
        }


def _ids(changed: JobChanges) -> list[str]:
    return [entry.id for entry in changed.entries]


def main() -> None:
    """Open the book and do what the lines say until they end."""
    book, name = sys.argv[1:]
    tablet = Tablet(Path(book), name)
    for line in sys.stdin:
        told = json.loads(line)
        answer = getattr(tablet, told.pop("act"))(**told)
        print(json.dumps(answer), flush=True)
    tablet.job.close()


if __name__ == "__main__":
    main()
