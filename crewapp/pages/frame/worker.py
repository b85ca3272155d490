"""A worker thread that owns the open job; pages send it commands and queries.

The book, its state and its flags belong to that one thread. Answers come back through
``deliver`` on the thread that draws. What carries a command out or answers a query is
imported in the worker, so that nothing heavy is loaded before the first frame.
"""

from __future__ import annotations

import logging
from collections.abc import Callable
from concurrent.futures import Future, ThreadPoolExecutor
from pathlib import Path
from typing import TYPE_CHECKING, Any, TypeVar

from crewapp.commands.command import Command
from crewapp.commands.query import Query
from crewapp.pages.frame.open_book_result import OpenBookResult
from models.errors import CrewError

if TYPE_CHECKING:
    from crewapp.job.open_job import JobChanges, OpenJob
    from crewapp.tablet.clock import Clock

V = TypeVar("V")
Done = Callable[[Any], None]
Failed = Callable[[str], None]
Deliver = Callable[[Callable[[], None]], None]

_log = logging.getLogger(__name__)


class NoBookError(CrewError, RuntimeError):
    """No book is open."""

    code = "desk.no_book"
    sentence = "No book is open. Open one on the Jobs page, or start a new one."


class JobWorker:
    """Runs work in its one worker and hands the answers to ``deliver``."""

    def __init__(self, deliver: Deliver, clock: Clock | None = None) -> None:
        self._deliver = deliver
        self._clock = clock
        self._pool = ThreadPoolExecutor(max_workers=1, thread_name_prefix="worker")
        self._job: OpenJob | None = None
        self._last: JobChanges | None = None
        self._is_closed = False
        self.broken: frozenset[Path] = frozenset()
        self.heads: Path | None = None  # the tablet's folder of kept heads
        self._listeners: list[Done] = []

    def listen(self, listener: Done) -> None:
        """Call ``listener(changed)`` after each action that inked something."""
        self._listeners.append(listener)

    def open(
        self, path: Path, author: str, stream: Callable[[], str], done: Done, failed: Failed
    ) -> None:
        """Open a book in place of the one that is open; ``done(OpenBookResult)``.

        One that can't be opened leaves the open one in hand; a damaged one is
        remembered in ``broken``.
        """
        self._work(lambda: self._open(path, author, stream), done, failed)

    def ask(self, query: Query[V], done: Callable[[V], None], failed: Failed) -> None:
        """Answer a query on the open job; ``done(view)``."""
        self._work(lambda: _read(self.job(), query), done, failed)

    def ask_if_open(
        self, query: Query[V], done: Callable[[V | None], None], failed: Failed
    ) -> None:
        """Answer a query as ``ask`` does; ``done(None)`` where no book is open."""
        self._work(lambda: None if self._job is None else _read(self._job, query), done, failed)

    def do(self, command: Command, done: Callable[[JobChanges], None], failed: Failed) -> None:
        """Carry a command out on the open job; ``done(changed)``."""
        self._work(lambda: self._do(command), done, failed)

    def undo(self, done: Done, failed: Failed) -> None:
        """Cross out what the last action inked, once."""
        self._work(self._undo, done, failed)

    def run(self, work: Callable[[], Any], done: Done, failed: Failed) -> None:
        """Do any other work that takes longer than a frame."""
        self._work(work, done, failed)

    def call(self, work: Callable[[], Any]) -> Any:
        """Do work in the worker and wait for it: for a thread that runs beside it.

        Raises
        ------
        RuntimeError
            If the worker is closed.
        """
        return self._pool.submit(work).result()

    @property
    def is_closed(self) -> bool:
        """Whether the app is leaving."""
        return self._is_closed

    def find_job(self) -> OpenJob | None:
        """Return the open job, or None; for the worker only."""
        return self._job

    def set_author(self, author: str) -> None:
        """Let what is inked from now on carry another name."""

        def change() -> None:
            if self._job is not None:
                self._job.author = author

        self._pool.submit(change)

    def job(self) -> OpenJob:
        """Return the open job; for the worker only.

        Raises
        ------
        NoBookError
            If no book is open.
        """
        if self._job is None:
            raise NoBookError()
        return self._job

    def wait(self) -> None:
        """Wait until all that was sent is done: before leaving, and in tests."""
        self._pool.submit(lambda: None).result()

    def open_name(self) -> str:
        """Return the name of the open job, "" where none is; for the worker only."""
        return self._job.name if self._job is not None else ""

    def close(self) -> None:
        """Finish what was sent and let go of the book; Kivy calls it twice at its end."""
        if self._is_closed:
            return
        self._is_closed = True
        self._pool.submit(self._close).result()
        self._pool.shutdown()

    def _open(self, path: Path, author: str, stream: Callable[[], str]) -> OpenBookResult:
        from crewapp.job.open_job import OpenJob
        from crewapp.tablet.clock import TabletClock
        from models.book.errors import BookDamagedError

        if self._job is not None and self._job.book.path == path:
            self._close()  # its own lock would stand in the way
        try:
            job = OpenJob.open(path, self._clock or TabletClock(), author, stream())
        except BookDamagedError:
            self.broken |= {path}
            raise
        self._close()
        if self._clock is None and job.state.job is not None:
            job.clock = TabletClock(job.state.job.zone)
        self._job = job
        missing = job.keep_heads(self.heads) if self.heads is not None else ""
        return OpenBookResult(job.name, job.book.read_only_reason or "", missing)

    def _do(self, command: Command) -> JobChanges:
        from crewapp.job.dispatch import do

        self._last = do(self.job(), command)
        return self._last

    def _undo(self) -> JobChanges | None:
        if self._last is None:
            return None
        from crewapp.handlers.entries import undo_last

        changed = undo_last(self.job(), self._last)
        self._last = None
        return changed

    def _close(self) -> None:
        if self._job is not None:
            self._job.close()
        self._job = self._last = None

    def _work(self, work: Callable[[], Any], done: Done, failed: Failed) -> None:
        def settle(future: Future[Any]) -> None:
            fault = future.exception()
            if fault is None:
                answer = future.result()
                self._deliver(lambda: self._hand_over(answer, done))
            else:
                if not isinstance(fault, CrewError):
                    _log.error("work in the worker failed", exc_info=fault)
                text = str(fault) if isinstance(fault, CrewError) else _unexpected(fault)
                self._deliver(lambda: failed(text))

        if not self._is_closed:  # an answer that comes while the app stops may ask for more
            self._pool.submit(work).add_done_callback(settle)

    def _hand_over(self, answer: Any, done: Done) -> None:
        done(answer)
        if hasattr(answer, "entries") and answer.entries:
            for listener in tuple(self._listeners):
                listener(answer)


def _read(job: OpenJob, query: Query[V]) -> V:
    from crewapp.job.dispatch import read

    return read(job, query)


def _unexpected(fault: BaseException) -> str:
    return (
        f"That could not be done: {type(fault).__name__}, {fault}. "
        "What was inked before it stands; what you typed is kept."
    )
