"""A hand on the Grade screen of a small invented job, in a window that nobody sees."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, Any

from crewapp.commands.grade import CheckSetup, SetUpLaser, ShootGrade
from crewapp.job.dispatch import do
from crewapp.job.open_job import OpenJob
from crewapp.tablet.clock import SetClock
from models.entries.body import Body
from models.entries.index import EntryKind
from tests.crewapp.conftest import DAY, plan_text
from tests.crewapp.planned_book import STREAM, ZONE, put_planned_book

if TYPE_CHECKING:
    from tests.uidriver import UI

HUNDREDTH_NM = 3_048_000
FT_NM = 304_800_000


def put_job(folder: Path, **changed: Any) -> Path:
    """Write the book of a small job: a collector, two benchmarks 100.00 and 97.62 ft."""
    told = json.loads(plan_text())
    told["benchmark"].append({"benchmark_id": "BM2", "elevation": "97.62 ft"})
    told["job"] |= changed
    return put_planned_book(folder / "small.book", json.dumps(told), "tests")


def set_up_level(job: OpenJob, backsight: str = "1.00", is_checked: bool = True) -> None:
    """Set a level laser up on BM1, and prove it on BM2: 101.00 - 97.62 = 3.38."""
    do(
        job,
        SetUpLaser(
            on_point="BM1",
            backsight_nm=job.figures.read_level(backsight),
            backsight_typed=backsight,
            collector_id="C1",
            instrument="grade laser",
        ),
    )
    if is_checked:
        nm = job.figures.read_level("3.38")
        do(job, CheckSetup(setup_id="L1", on_point="BM2", reading_nm=nm, reading_typed="3.38"))


def shoot(job: OpenJob, station_ft: int, reading: str, on: str = "invert") -> None:
    """Read the rod at a station."""
    do(
        job,
        ShootGrade(
            setup_id="L1",
            collector_id="C1",
            station_nm=station_ft * FT_NM,
            station_typed=job.figures.station(station_ft * FT_NM),
            on=on,
            reading_nm=job.figures.read_level(reading),
            reading_typed=reading,
        ),
    )


class GradeDriver:
    """The app's shell on a tablet, its Grade page in front, and a finger."""

    def __init__(self, ui: UI, folder: Path, book: Path) -> None:
        from kivy.clock import Clock

        from crewapp.pages.frame.shell import Shell
        from crewapp.pages.frame.worker import JobWorker
        from crewapp.tablet.settings import Tablet

        self.ui, self.clock = ui, SetClock(ZONE, 0)
        self.clock.set_to(DAY, 9 * 60)
        self.worker = JobWorker(
            lambda answer: Clock.schedule_once(lambda _: answer(), -1), self.clock
        )
        self.shell = Shell(Tablet(folder / "home"), self.worker)
        self.worker.open(book, "foreman", lambda: STREAM, lambda _: None, self.shell.say_failed)
        self.worker.wait()
        ui.show(self.shell)
        self.shell.go("grade", collector_id="C1")
        self.settle()

    @property
    def page(self) -> Any:
        """The Grade page."""
        return self.shell.pages["grade"]

    @property
    def job(self) -> OpenJob:
        """The open job, to look into its book."""
        return self.worker.job()

    def settle(self) -> None:
        """Wait until the worker has answered and all is laid out."""
        for _ in range(4):
            self.worker.wait()
            self.ui.pump(3)

    def tap(self, text: str) -> None:
        """Tap what bears these words; a flag's banner is answered first, as a hand would."""
        if self.shell.banner.parent is not None and self.page.sheet is None:
            self.ui.tap(self.shell.banner.key)
            self.settle()
        self.ui.tap(self.find(text))
        self.clock.pass_seconds(1)
        self.settle()

    def find(self, text: str) -> Any:
        """Return the touchable that bears these words."""
        from crewapp.kit.keys.touchable import Touchable

        top = self.page.sheet or self.shell
        found = [w for w in top.walk() if isinstance(w, Touchable) and self._bears(w, text)]
        assert found, f"nothing bears {text!r}: {self.words()}"
        return found[0]

    @staticmethod
    def _bears(widget: Any, text: str) -> bool:
        return text in {widget.text, widget.note, getattr(widget, "title", None)}

    def words(self) -> list[str]:
        """Return the words on all that can be touched."""
        from crewapp.kit.keys.touchable import Touchable

        top = self.page.sheet or self.shell
        return [w.text or getattr(w, "title", "") for w in top.walk() if isinstance(w, Touchable)]

    def key(self, digits: str, last: str = "Enter") -> None:
        """Type digits on the pad that is up, then Enter."""
        for digit in digits:
            self.ui.tap(self.page.sheet.pad.touches[digit])
            self.ui.wait(0.26)  # the same key sooner counts as a bounce
        if last:
            self.ui.tap(self.page.sheet.pad.touches["enter"])
            self.settle()

    def bodies(self, kind: EntryKind[Body]) -> list[Any]:
        """Return the bodies of the current entries of a kind, in the order of the book."""
        state = self.job.state
        found = [
            e for e in state.entries.values() if e.kind == kind.name and not state.is_struck(e.id)
        ]
        return [entry.body for entry in sorted(found, key=lambda e: (e.lc, e.id))]

    def close(self) -> None:
        """Let go of the book, as a kill would."""
        self.worker.close()
        self.ui.close()


Begin = Callable[..., GradeDriver]
"""Opens the screen after some work was written without touches."""
