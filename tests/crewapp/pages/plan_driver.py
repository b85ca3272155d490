"""A foreman's hand on the Plan and As-built pages; the book is read back."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

from crewapp.commands.command import Command
from crewapp.kit.look.palette import HOLD_MS
from models.entries.body import Body
from models.entries.index import EntryKind
from tests.crewapp.pages.frame_driver import AppDriver

if TYPE_CHECKING:
    from tests.uidriver import UI


class PlanDriver(AppDriver):
    """The app with the Plan page, or another, in front."""

    def __init__(self, ui: UI, home: Path, book: Path | None, page: str = "plan") -> None:
        super().__init__(ui, home, book)
        self.start()
        self.shell.go(page)
        self.settle()

    def settle(self) -> None:
        """Wait until the worker has answered and all is laid out; nothing is drawn meanwhile."""
        from kivy.base import EventLoop
        from kivy.clock import Clock

        for _ in range(3):
            self.worker.wait()
            for _ in range(4):
                Clock.tick()
                EventLoop.dispatch_input()
                Clock.tick_draw()

    def key(self, digits: str) -> None:
        """Type digits on the pad that is up, then Enter; only the same key twice has to wait."""
        before = ""
        for digit in digits:
            if digit == before:
                self.ui.wait(0.26)
            self.ui.tap(self.page.sheet.pad.touches[digit])
            before = digit
        self.ui.tap(self.page.sheet.pad.touches["enter"])
        self.settle()

    def do(self, command: Command) -> None:
        """Carry a command out, as another page would have it done."""
        self.worker.do(command, lambda _: None, self._could_not)
        self.settle()

    @staticmethod
    def _could_not(why: str) -> None:
        raise AssertionError(why)

    def taps(self, *texts: str) -> None:
        """Tap one thing after another."""
        for text in texts:
            self.tap(text)

    def type(self, tile: str, digits: str) -> None:
        """Tap a tile, by the words on it, and type a figure."""
        self.tap(tile)
        self.key(digits)

    def hold(self, text: str) -> None:
        """Hold a key to its end."""
        from tests.uidriver import Finger

        (key,) = self.bearers(text)
        finger = Finger(*key.to_window(*key.center)).down()
        self.ui.wait(HOLD_MS / 1000 + 0.1)
        finger.up()
        self.settle()

    def tap_plan(self, at: tuple[float, float]) -> None:
        """Tap a place of the plan, told in metres of the ground."""
        from tests.uidriver import Finger

        plan = self.page.part.plan
        finger = Finger(*plan._seen().place(at, plan.center)).down()
        self.ui.pump(1)
        finger.up()
        self.settle()

    def latest(self, kind: EntryKind[Body], name: str = "") -> Any:
        """Return what the job has now of a kind, as the book gave it back."""
        return self.worker.job().state.latest(kind, name)

    def text(self) -> str:
        """Return all words on the glass as one text."""
        return "\n".join(self.words())
