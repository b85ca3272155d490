"""A hand on the Day and Flags screens of the small job, and what it left in the book."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Any

from crewapp.commands.command import Command
from crewapp.commands.day import LogUtility
from crewapp.commands.passes import LogPass, LogProbe
from crewapp.tablet.settings import Settings, Tablet
from tests.crewapp.conftest import DAY
from tests.crewapp.pages.frame_driver import AppDriver, bears, put_book

if TYPE_CHECKING:
    from tests.uidriver import UI

FT = 304_800_000
OWNER_JOB = {
    "job_id": "small",
    "name": "Hollow green",
    "zone": "America/Chicago",
    "owner": "Olga Invented",
}
CREW = [
    {"person_id": "Ana", "name": "Ana Invented", "role": "foreman"},
    {"person_id": "Ben", "name": "Ben Madeup", "role": "laser and pipe"},
]


class DayDriver(AppDriver):
    """The app with the small job open and one of its pages in front."""

    def on(self, page: str, **asked: Any) -> DayDriver:
        """Bring a page to the front."""
        self.shell.go(page, **asked)
        self.settle()
        return self

    def do(self, command: Command) -> None:
        """Carry a command out as another page would; the strip it leaves is taken away."""
        self.shell.do(command, lambda changed: None)
        self.settle()
        for part in (self.shell.strip, self.shell.banner):
            self.shell._set_shown(part, False)
        self.settle()

    def tap(self, text: str, again: int = 0) -> None:
        """Tap what bears these words, turning to the keys that found no room."""
        keys: Any = getattr(self.page.part, "keys", None) if self.page.sheet is None else None
        for _ in range(9):
            if self.seen(text) or not hasattr(keys, "turn"):
                break
            self.tap_on(keys.more)
        super().tap(text, again)

    def seen(self, text: str) -> bool:
        """Whether these words stand on something to touch."""
        from crewapp.kit.keys.touchable import Touchable

        return any(isinstance(w, Touchable) and text in bears(w) for w in self.shell.walk())

    def taps(self, *texts: str) -> int:
        """Tap keys by their words, one after the other; return how many."""
        for text in texts:
            self.tap(text)
        return len(texts)

    @property
    def job(self) -> Any:
        """The open job; the worker is idle once all is settled."""
        return self.worker.job()

    def entries(self, kind: str, day: str = DAY) -> list[Any]:
        """Return the entries of a kind that stand on a day."""
        state = self.job.state
        found = [entry for entry in state.days[day] if entry.kind == kind]
        return [entry for entry in found if not state.is_struck(entry.id)]

    def body(self, kind: str) -> Any:
        """Return the body of the one standing entry of a kind."""
        found = self.entries(kind)
        assert len(found) == 1, f"{len(found)} entries of {kind}"
        return found[0].body

    def hold(self, text: str) -> None:
        """Press a key for a second."""
        self.ui.hold_down(self.bearers(text)[0], 1.0)
        self.worker.wait()  # what the tap asked for is of its own time
        self.clock.pass_seconds(1)
        self.settle()

    def draw(self) -> None:
        """Draw one stroke on the signature pad."""
        from tests.uidriver import Finger

        pad = self.page.part.pad
        x, y = pad.to_window(pad.center_x, pad.center_y + pad.height * 0.2)
        finger = Finger(x - 100, y).down()
        self.ui.pump(1)
        finger.to(x + 100, y - 20)
        self.ui.pump(1)
        finger.up()
        self.settle()


def open_day(ui: UI, folder: Path, language: str = "en") -> DayDriver:
    """Open the app on the small job with an owner and two people, Day in front."""
    home = folder / "home"
    Tablet(home).keep_settings(Settings(language=language))
    book = home / "books" / "small.book"
    if not book.exists():
        put_book(book.parent, job=OWNER_JOB, person=CREW)
    driver = DayDriver(ui, home, book)
    driver.start()
    driver.on("day")
    return driver


def hands(ui: UI, folder: Path) -> Iterator[DayDriver]:
    """Give a hand on the Day screen and let go of it."""
    driver = open_day(ui, folder)
    yield driver
    driver.close()


def cut_shallow(driver: DayDriver) -> str:
    """Cut a line, probe it too shallow, and return the key of the flag."""
    driver.do(LogPass(surface_id="G7", line_ids=("S01",), length_nm=30 * FT, length_typed="30"))
    driver.do(
        LogProbe(
            pass_id="G7-01", line_id="S01", along_nm=FT, depth_nm=200_000_000, depth_typed="7.9"
        )
    )
    found = [f for f in driver.job.board.open_flags() if f.finding.check == "depth_shallow"]
    return str(found[0].finding.key)


def cut_deep(driver: DayDriver) -> str:
    """Probe the line too deep as well, and return the key of the flag."""
    driver.do(
        LogProbe(
            pass_id="G7-01",
            line_id="S01",
            along_nm=20 * FT,
            depth_nm=270_000_000,
            depth_typed="10-5/8",
        )
    )
    found = [f for f in driver.job.board.open_flags() if f.finding.check == "depth_deep"]
    return str(found[0].finding.key)


def hit_stop(driver: DayDriver) -> str:
    """Log something hit and return the key of the flag that stops the work."""
    driver.do(LogUtility(event="hit", what="gas", where="Green seven, line S03"))
    found = [f for f in driver.job.board.open_flags() if f.severity.value == "stop"]
    return str(found[0].finding.key)
