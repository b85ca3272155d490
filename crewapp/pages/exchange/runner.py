"""Runs one transfer at a time beside the crew's work, says how far it is, and can be stopped."""

from __future__ import annotations

import logging
import threading
from collections.abc import Callable
from typing import TYPE_CHECKING, Any

from kivy.clock import Clock

from crewapp.pages.exchange.view import TransferResult, share_done
from crewapp.words.translate import say, translate_later
from models.errors import CrewError

if TYPE_CHECKING:
    from crewapp.pages.exchange.transfers import Transfer

_log = logging.getLogger(__name__)
STEP_WORDS = {
    "list": translate_later("Looking at what is there"),
    "fetch": translate_later("Fetching"),
    "seal": translate_later("Putting this tablet's entries together"),
    "open": translate_later("Looking through what came"),
    "merge": translate_later("Taking in"),
    "send": translate_later("Sending"),
    "thumbs": translate_later("Small pictures"),
    "photos": translate_later("Pictures"),
    "pack": translate_later("Packing"),
}


class TransferRunner:
    """The shell's one runner of transfers; it outlives pages that are made anew.

    ``ended`` is what the last transfer came to, ``words`` and ``share`` how far this one is.
    ``watch`` is called, on the thread that draws, whenever one of these changed.
    """

    def __init__(self, shell: Any) -> None:
        self.shell = shell
        self.thread: threading.Thread | None = None
        self.is_busy = False
        self.ended: TransferResult | None = None
        self.words, self.share = "", 0.0
        self.watch: Callable[[], None] = lambda: None
        self.unknown_host: Any = None  # the refusal that accepting the server needs
        self._stopped = threading.Event()
        self._step: tuple[str, int, int] | None = None

    def start(
        self, work: Callable[[Transfer], TransferResult], done: Callable[[TransferResult], None]
    ) -> bool:
        """Run work in its own thread; ``done`` gets its end. False if one is running."""
        if self.is_busy:
            return False
        self.is_busy, self.ended = True, None
        self.words, self.share = say("One moment"), 0.0
        self._stopped.clear()
        self.thread = threading.Thread(target=self._run, args=(work, done), daemon=True)
        self.thread.start()
        self.watch()
        return True

    def stop(self) -> None:
        """Stop before the next piece of work; what came and went stands."""
        self._stopped.set()
        self.words = say("Stopping ...")
        self.watch()

    def _run(
        self, work: Callable[[Transfer], TransferResult], done: Callable[[TransferResult], None]
    ) -> None:
        try:
            ended = work(self._trip())
        except CrewError as fault:
            ended = self._refused(fault)
        except Exception as fault:
            if self.shell.worker.is_closed:
                return  # the app left in the middle of it; what came and went stands
            _log.exception("a trip failed")
            ended = TransferResult("refused", (_unexpected(fault),))
        Clock.schedule_once(lambda _: self._end(ended, done), -1)

    def _trip(self) -> Transfer:
        from crewapp.pages.exchange.transfers import Transfer

        worker = self.shell.worker
        return Transfer(self.shell.tablet, worker.call, worker.job, self._tell, self._is_cancelled)

    def _is_cancelled(self) -> bool:
        return self._stopped.is_set() or bool(self.shell.worker.is_closed)

    def _refused(self, fault: CrewError) -> TransferResult:
        """Tell what stopped it; of an unknown server, what is needed to accept it."""
        if fault.code == "store.host_unknown":
            self.unknown_host = fault
            print_of = str(fault.context["fingerprint"])
            return TransferResult("host", (str(fault.context["host"]), print_of))
        return TransferResult("refused", (str(fault),))

    def _tell(self, step: str, done: int, total: int) -> None:
        """Take a step, from the transfer's thread; only the newest is shown."""
        is_first, self._step = self._step is None, (step, done, total)
        if is_first:
            Clock.schedule_once(lambda _: self._show_step(), 0)

    def _show_step(self) -> None:
        told, self._step = self._step, None
        if told is None or not self.is_busy or self._stopped.is_set():
            return
        step, done, total = told
        words = say(STEP_WORDS.get(step, step))
        if total > 1:
            words = say("{what}, {number} of {count}", what=words, number=done + 1, count=total)
        self.words, self.share = words, share_done(step, done, total)
        self.watch()

    def _end(self, ended: TransferResult, done: Callable[[TransferResult], None]) -> None:
        self.is_busy, self.ended = False, ended
        self.words, self.share, self._step = "", 0.0, None
        done(ended)
        self.watch()


def transfer_runner(shell: Any) -> TransferRunner:
    """Return the shell's runner, made at first need."""
    if shell.exchange is None:
        shell.exchange = TransferRunner(shell)
    found: TransferRunner = shell.exchange
    return found


def _unexpected(fault: BaseException) -> str:
    return say(
        "That could not be done: {what}. What was inked stands, and so does what came before it.",
        what=f"{type(fault).__name__}, {fault}",
    )
