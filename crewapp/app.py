"""The app: the one place where the parts are put together.

Before the first frame only Kivy, the theme and the Today page are loaded; the
book is opened behind it, in the worker's worker, while Today shows what it knew
last.
"""

from __future__ import annotations

from crewapp.neighbours import stop_if_not_ours

stop_if_not_ours()  # ahead of everything that imports models or sync

import json
from collections.abc import Callable
from contextlib import suppress
from importlib import import_module
from pathlib import Path
from typing import Any

from kivy.app import App
from kivy.clock import Clock
from kivy.core.window import Window
from kivy.metrics import Metrics

from crewapp.device.ports import set_true_dpi
from crewapp.kit.keys.pointer import take_fingers_only
from crewapp.kit.keys.touchable import on_every_touch
from crewapp.pages.frame.shell import Shell
from crewapp.pages.frame.worker import JobWorker
from crewapp.pages.today.view import view_from_plain
from crewapp.tablet.settings import NotSavedError, Settings, Tablet, write_atomically
from crewapp.words.translate import say, set_language


class CrewApp(App):
    """Shows the shell over one tablet's folder; opens ``book``, or the last one."""

    title = "crewapp"

    def __init__(
        self, tablet: Tablet, book: Path | None = None, worker: JobWorker | None = None
    ) -> None:
        super().__init__()
        self.tablet = tablet
        self.settings_kept: Settings = tablet.settings()
        self.book = book or (
            Path(self.settings_kept.last_book) if self.settings_kept.last_book else None
        )
        self.worker = worker or JobWorker(deliver)

    def build(self) -> Shell:
        """Make the shell with Today in front, as it was last known."""
        set_language(self.settings_kept.language)
        Window.clearcolor = (1, 1, 1, 1)
        factor = self.settings_kept.screen_factor_permille
        if factor != 1000:
            set_true_dpi(Metrics.dpi * factor / 1000)
        self.shell = Shell(self.tablet, self.worker)
        self.shell.keep_today = self._keep_last
        today = self.shell.first_page()
        today.show(view_from_plain(self._last_view()))
        Window.bind(on_keyboard=self._on_keyboard)
        take_fingers_only()
        return self.shell

    def on_start(self) -> None:
        """Open the book once the first frame is on the glass."""
        Window.bind(on_flip=self._on_first_flip)

    def _on_first_flip(self, *_: Any) -> None:
        # A clock event alone would run before the frame is drawn, not after.
        Window.unbind(on_flip=self._on_first_flip)
        Clock.schedule_once(lambda _: self._after_first_frame(), 0)

    def _after_first_frame(self) -> None:
        from crewapp.device.ports import find_device

        vibrator = find_device().vibrator

        def feel() -> None:
            vibrator.buzz()

        on_every_touch(feel)
        if self.book is not None and self.book.exists():
            self.shell.open_book(self.book)
        else:
            self.shell.go("jobs")
            if self.book is not None:
                self.shell.say_failed(say("The book is not there any more: {path}", path=self.book))
        # Slow to come, and wanted by the first touch: fetched now, behind the book.
        self.worker.run(lambda: import_module("plyer"), lambda _: None, lambda _: None)

    def on_pause(self) -> bool:
        """Agree to be paused by the system; nothing is saved here."""
        return True

    def on_stop(self) -> None:
        """Finish what was sent to the worker."""
        self.worker.close()

    def _on_keyboard(self, _window: Any, key: int, *_: Any) -> bool:
        """The back key leads to Today and never closes the app by a slip."""
        if key == 27:
            self.shell.go("today")
            return True
        return False

    def _last_view(self) -> dict[str, Any]:
        try:
            told = json.loads(self._face_file().read_text(encoding="utf-8"))
        except (OSError, ValueError):
            return {}
        is_this = isinstance(told, dict) and told.get("book") == str(self.book)
        view = told.get("face") if is_this else None
        return view if isinstance(view, dict) else {}

    def _face_file(self) -> Path:
        return self.tablet.folder / "today.json"

    def _keep_last(self, plain: dict[str, Any]) -> None:
        told = {"book": self.tablet.settings().last_book, "face": plain}
        with suppress(NotSavedError):  # it is made anew at every look
            data = json.dumps(told, ensure_ascii=False).encode()
            write_atomically(self._face_file(), data, is_lasting=False)


def deliver(answer: Callable[[], None]) -> None:
    """Pass an answer of the worker to the thread that draws."""
    Clock.schedule_once(lambda _: answer(), -1)
