"""Writes the as-built package in the worker, says how far it is, and can be stopped."""

from __future__ import annotations

import threading
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

from kivy.clock import Clock

from crewapp.words.translate import say
from models.errors import CrewError

if TYPE_CHECKING:
    from crewapp.handlers.asbuilt import AsBuiltResult


class PackageStoppedError(CrewError, RuntimeError):
    """The package was stopped before it was whole."""

    code = "package.stopped"
    sentence = (
        "The package was stopped after {count:file|files}. "
        "Its folder is as it was: empty, or with the "
        "package of before. Make it again before it is handed over."
    )


@dataclass(frozen=True, slots=True)
class PackageResult:
    """Package that is whole: how many files, their check code, what was left out and why."""

    count: int
    code: str
    left_out: tuple[tuple[str, str], ...]


class PackageMaker:
    """Writer of the package; ``say_step`` gets each step in words, ``made`` is the last result."""

    def __init__(self, shell: Any, say_step: Callable[[str], None]) -> None:
        self.shell = shell
        self.say_step = say_step
        self.is_busy = False
        self.made: PackageResult | None = None
        self._stopped = threading.Event()

    @property
    def folder(self) -> Path:
        """Folder of the job's package on this tablet."""
        book = Path(self.shell.tablet.settings().last_book or "job")
        return Path(self.shell.tablet.folder) / "asbuilt" / book.stem

    def make(self, paper: str, done: Callable[[], None]) -> None:
        """Write every file; ``done`` is called at the end, whole or not."""
        if self.is_busy:
            return
        self.is_busy, self.made = True, None
        self._stopped.clear()
        self.say_step(say("Reading the book ..."))

        def made(found: Any) -> None:
            self.is_busy = False
            self.made = PackageResult(len(found.files), found.check_code, tuple(found.left_out))
            count, folder = len(found.files), self.folder
            self.say_step(say("{count:file|files} in {folder}", count=count, folder=folder))
            done()

        def failed(text: str) -> None:
            self.is_busy = False
            self.say_step(say("The package is not whole."))
            self.shell.say_failed(text)
            done()

        self.shell.worker.run(lambda: self._write(paper), made, failed)

    def stop(self) -> None:
        """Stop after the file that is being written."""
        self._stopped.set()

    def _write(self, paper: str) -> AsBuiltResult:
        from crewapp.handlers.asbuilt import make_as_built  # in the worker: it loads the papers

        job = self.shell.worker.job()
        return make_as_built(job, folder=str(self.folder), paper=paper, told=self._tell)

    def _tell(self, name: str, place: int, count: int) -> None:
        """Say how far it is, from the worker's thread; stop here if that was asked."""
        if self._stopped.is_set():
            raise PackageStoppedError(count=place)
        text = say("Written {place} of {count}: {name}", place=place, count=count, name=name)
        Clock.schedule_once(lambda _: self.say_step(text) if self.is_busy else None, 0)
