"""A person could work it: the app by a real mouse, and a kill in the middle of the day."""

from __future__ import annotations

import json
import shutil
import time
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from crewapp.demo.folder import BOOK
from crewapp.tablet.settings import Settings, Tablet
from models.book.store import Book
from tests.crewapp.real_window import HAS_SCREEN, NO_SCREEN, RealWindow

pytestmark = pytest.mark.skipif(not HAS_SCREEN, reason=NO_SCREEN)
CHIP = "120.0"  # the length planned for the next pass of the field
REASON, HOLD_S = "called in, marks stand", 2.5
FOOT_NM = 304_800_000
WAYS = (
    *(("Pass", "pass"), ("Flags", "flags"), ("Today", "today"), ("Plan", "plan")),
    *(("Today", "today"), ("Jobs", "jobs"), ("Today", "today")),
    *(("Putting green 5", "pass"), ("Today", "today")),
    *(("Collector along the south side", "grade"), ("Today", "today")),
)
"""What is clicked on, and the page that it leads to."""


@pytest.fixture
def start(tmp_path: Path, demo_folder: Path) -> Iterator[Callable[[], RealWindow]]:
    """Start the app on a copy of the demo's book, as often as a test wants."""
    home = tmp_path / "home"
    shutil.copytree(demo_folder, home / "demo")
    book = str(home / "demo" / BOOK)
    Tablet(home).keep_settings(Settings(author="Wren", last_book=book))
    running: list[RealWindow] = []

    def begin() -> RealWindow:
        running.append(RealWindow("tests.crewapp.watched_app", home, "page today"))
        return running[-1]

    yield begin
    for app in running:
        app.kill()


def count(home: Path) -> int:
    """Return how many entries the demo's book has."""
    with Book.open(home / "demo" / BOOK, read_only=True) as book:
        return book.count()


def go_on_without_ticket(app: RealWindow) -> None:
    """The demo's tickets ended long ago: say why the cut is made all the same, and hold the key."""
    app.click("Go on anyway")
    app.click(REASON)
    app.hold("Hold to go on without", HOLD_S)
    app.heard("inked")


def test_page_is_a_click_away(start: Callable[[], RealWindow]) -> None:
    """By the tabs, by the keys and the rows of Today, through the rain lock, and back."""
    app = start()
    for text, page in WAYS:
        app.click(text)
        assert app.heard("page") == f"page {page}"
    app.click("Lock")
    app.click("Unlock")
    app.click("now here")
    app.click("Loads")
    assert app.heard("page") == "page loads"


def test_figures_typed_with_a_mouse_are_in_the_book(
    start: Callable[[], RealWindow], tmp_path: Path
) -> None:
    """A cut's length on the pad of its page; then the plan's drawing, pulled and enlarged."""
    app = start()
    app.click("Pass")
    app.heard("page pass")
    go_on_without_ticket(app)
    app.click("Cut: type the length")
    for key in ("1", "1", "9", ".", "5"):
        app.click(key)
        time.sleep(0.3)  # the same key twice at once is taken once
    app.click("Enter")
    app.heard("inked")
    app.click("Seen")  # no ticket is in date today, and the flag says so
    app.click("Today")
    app.heard("page today")
    app.click("Plan")
    app.heard("page plan")
    app.wheel("PlanCanvas", 2)
    app.drag("PlanCanvas", (-60, 20))
    app.click("All")
    app.kill()
    with Book.open(tmp_path / "home" / "demo" / BOOK, read_only=True) as book:
        row = book.newest("pass")
    assert row is not None
    assert (
        json.loads(row.raw)["body"]["length_nm"] == 1195 * FOOT_NM // 10
    )  # 119.5 ft; a foot is 304.8 mm


def test_entry_clicked_survives_a_kill(start: Callable[[], RealWindow], tmp_path: Path) -> None:
    """The next pass by one click on its length: inked, killed, and in the book."""
    home = tmp_path / "home"
    before = count(home)
    app = start()
    app.click("Pass")
    app.heard("page pass")
    go_on_without_ticket(app)
    app.click(CHIP)
    app.heard("inked")
    app.kill()
    assert count(home) == before + 2
    with Book.open(home / "demo" / BOOK, read_only=True) as book:
        row = book.newest("pass")
    assert row is not None
    assert row.author == "Wren"
    again = start()
    again.click("Today")

    assert again.heard("page") == "page today"
    assert count(home) == before + 2
