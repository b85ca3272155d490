"""A photo is copied beside the book under the name of its content, or says why not."""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Iterator
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest

import crewapp.device.ports
from crewapp.device.ports import Unavailable, find_device
from tests.crewapp.pages.day_driver import DayDriver, hands

if TYPE_CHECKING:
    from tests.uidriver import UI

JPEG = b"\xff\xd8\xff\xe0 an invented picture"


class Picker:
    """A chooser that answers at once."""

    def __init__(self, path: Path | None, lack: Unavailable | None = None) -> None:
        self.path, self.lack = path, lack

    def pick(self, picked: Callable[[Path | None], None]) -> Unavailable | None:
        """Choose, or say why not."""
        if self.lack is None:
            picked(self.path)
        return self.lack


@pytest.fixture
def driver(ui: UI, tmp_path: Path) -> Iterator[DayDriver]:
    """A finger on the Day screen."""
    yield from hands(ui, tmp_path)


def choose(monkeypatch: pytest.MonkeyPatch, picker: Picker) -> None:
    """Let the device choose so."""
    device = replace(find_device(), picker=picker)
    monkeypatch.setattr(crewapp.device.ports, "find_device", lambda: device)


def take(driver: DayDriver) -> None:
    """Log a photo of an open trench at the collector, looking east."""
    driver.taps("Photo", "open trench", "Done", "Looking", "looking east", "Choose the photo")
    driver.settle()


def test_photo_is_kept_and_logged(
    driver: DayDriver, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Three facts and a file: the copy bears its digest, the entry names it."""
    source = tmp_path / "IMG_1.jpeg"
    source.write_bytes(JPEG)
    choose(monkeypatch, Picker(source))
    take(driver)

    digest = hashlib.sha256(JPEG).hexdigest()
    photo: Any = driver.body("photo")
    assert (photo.sha256, photo.suffix) == (digest, "jpg")
    assert photo.caption == "open trench, looking east"
    book = driver.job.book.path
    assert (book.parent / f"{book.name}.photos" / f"{digest}.jpg").read_bytes() == JPEG


def test_no_chooser_is_said(driver: DayDriver, monkeypatch: pytest.MonkeyPatch) -> None:
    """A tablet without a chooser says so, and what was answered waits."""
    choose(monkeypatch, Picker(None, Unavailable("file choice", "not on this system")))
    take(driver)

    assert "not on this system" in driver.banner
    assert driver.entries("photo") == []
    assert driver.page.filling.answers["shows"] == "open trench"


def test_nothing_chosen_leaves_nothing(driver: DayDriver, monkeypatch: pytest.MonkeyPatch) -> None:
    """The chooser was left without a file."""
    choose(monkeypatch, Picker(None))
    take(driver)

    assert driver.entries("photo") == []
    assert driver.page.filling.answers["shows"] == "open trench"


def test_file_that_is_no_picture_is_refused(
    driver: DayDriver, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A text with a picture's name is told from a picture."""
    source = tmp_path / "notes.jpg"
    source.write_bytes(b"no picture")
    choose(monkeypatch, Picker(source))
    take(driver)

    assert "no JPEG or PNG" in driver.banner
    assert driver.entries("photo") == []
