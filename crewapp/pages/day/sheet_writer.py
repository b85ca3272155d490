"""Writes a day's sheets in the worker, one file after the other, and says how far it is."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

from crewapp.words.translate import say

FORMATS = ("pdf", "xlsx", "csv")


class SheetMaker:
    """Writer of a day's sheets; ``say_step`` gets each step in words; ``is_busy`` while it runs."""

    def __init__(self, shell: Any, say_step: Callable[[str], None]) -> None:
        self.shell = shell
        self.say_step = say_step
        self.is_busy = False

    @property
    def folder(self) -> Path:
        """Folder of the sheets on this tablet."""
        return Path(self.shell.tablet.folder) / "sheets"

    def make(self, day: str, done: Callable[[list[Path]], None]) -> None:
        """Write every form of a day's sheet; ``done`` is called with the files."""
        if not self.is_busy:
            self.is_busy = True
            self._next(day, [], done)

    def _next(self, day: str, files: list[Path], done: Callable[[list[Path]], None]) -> None:
        if len(files) == len(FORMATS):
            self.is_busy = False
            self.say_step(files_place_text(files))
            done(files)
            return
        format = FORMATS[len(files)]
        self.say_step(
            say(
                "Writing {name}, {number} of {count} ...",
                name=format.upper(),
                number=len(files) + 1,
                count=len(FORMATS),
            )
        )

        def made(path: Path) -> None:
            self._next(day, [*files, path], done)

        self.shell.worker.run(lambda: self._write(day, format), made, self._failed)

    def _write(self, day: str, format: str) -> Path:
        from crewapp.handlers.sheets import make_sheet  # in the worker: it loads the papers

        return make_sheet(self.shell.worker.job(), day=day, folder=str(self.folder), format=format)

    def _failed(self, text: str) -> None:
        self.is_busy = False
        self.say_step(say("The files were not made."))
        self.shell.say_failed(text)


def files_place_text(files: list[Path]) -> str:
    """Say where files are; the path stands as it is, to be typed or copied."""
    return say("{count:file|files} in {folder}", count=len(files), folder=files[0].parent)
