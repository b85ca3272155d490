"""How long a frame takes on the glass, and how long a tap takes to show its verdict.

Drawn by the processor (llvmpipe), which is slower than any tablet's own graphics. A frame at
60 a second has 16.7 ms.
"""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest

from tests.crewapp.pages.slit_driver import INCH_NM, SlitDriver, put_slit_book

if TYPE_CHECKING:
    from tests.uidriver import UI

FRAME_MS = 16.7
FELT_MS = 100  # feedback that comes later is felt as late: from memory


@pytest.fixture
def driver(ui: UI, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[SlitDriver]:
    """The Pass page, a pass just cut, nothing probed."""
    monkeypatch.setenv("HOME", str(tmp_path))
    home = tmp_path / "home"
    opened = SlitDriver(ui, home, put_slit_book(home / "books"))
    opened.cut()
    yield opened
    opened.close()


def draw(ui: UI) -> None:
    """Draw one whole frame and wait until its pixels are there."""
    from kivy.core.window import Window
    from kivy.graphics.opengl import GL_RGB, GL_UNSIGNED_BYTE, glReadPixels

    Window.canvas.ask_update()
    ui.pump(1)
    glReadPixels(1, 1, 1, 1, GL_RGB, GL_UNSIGNED_BYTE)


@pytest.mark.limit(at_most_ms=FRAME_MS)
def test_frame_of_pass(benchmark: Any, ui: UI, driver: SlitDriver) -> None:
    """The Pass page with its plan, drawn again as it is."""
    benchmark(lambda: draw(ui))


@pytest.mark.limit(at_most_ms=FRAME_MS)
def test_frame_of_today(benchmark: Any, ui: UI, driver: SlitDriver) -> None:
    """Today, drawn again as it is."""
    driver.shell.go("today")
    driver.settle()
    benchmark(lambda: draw(ui))


@pytest.mark.limit(at_most_ms=100)
def test_tab_to_page(benchmark: Any, ui: UI, driver: SlitDriver) -> None:
    """From Today to the Pass page that was there before: its frame, not yet read anew."""

    def turn() -> None:
        driver.shell.go("pass")
        draw(ui)

    def back() -> None:
        driver.settle()
        driver.shell.go("today")
        driver.settle()

    benchmark.pedantic(turn, setup=back, rounds=20)


@pytest.mark.limit(at_most_ms=2 * FRAME_MS)
def test_tap_to_verdict(benchmark: Any, ui: UI, driver: SlitDriver) -> None:
    """A probe tapped on its chip: until the frame in which the verdict stands."""

    def tap() -> None:
        driver.page.part.take(9 * INCH_NM, "9")
        draw(ui)

    benchmark.pedantic(tap, setup=driver.settle, rounds=8)


@pytest.mark.limit(at_most_ms=FELT_MS)
def test_press_to_pressed_look(benchmark: Any, ui: UI, driver: SlitDriver) -> None:
    """A finger on a key: until the frame in which the key looks pressed.

    The frames drawn just before are waited for too, as they would be on a tablet.
    """
    from tests.uidriver import Finger

    driver.shell.go("today")
    driver.settle()
    key = driver.shell.page.keys["jobs"]
    fingers: list[Finger] = []

    def press() -> None:
        fingers.append(Finger(*key.to_window(*key.center)).down())
        draw(ui)

    def lift() -> None:
        for finger in fingers:
            finger.to(5, 5)
            finger.up()
        fingers.clear()
        ui.pump(2)

    benchmark.pedantic(press, setup=lift, rounds=20)
