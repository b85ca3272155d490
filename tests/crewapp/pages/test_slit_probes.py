"""Probes: one tap a reading, the verdict in the same frame, struck and corrected ones."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from time import sleep
from typing import TYPE_CHECKING, Any

import pytest

from tests.crewapp.pages.slit_driver import FOOT_NM, INCH_NM, SlitDriver, at_work

if TYPE_CHECKING:
    from tests.uidriver import UI


@pytest.fixture
def driver(ui: UI, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[SlitDriver]:
    """A pass of the field just cut, nothing probed."""
    with at_work(ui, tmp_path, monkeypatch) as opened:
        opened.cut()
        opened.taps = 0
        yield opened


def test_probe_by_chip_takes_one_tap(driver: SlitDriver) -> None:
    """The place is proposed, the depth tapped: a probe near the start of the first leg."""
    driver.touch("9-1/8")

    (probe,) = driver.written("probe")
    assert (probe.pass_id, probe.line_id, probe.along_nm) == ("F2-01", "S01", 3 * FOOT_NM)
    assert (probe.depth_nm, probe.depth_typed) == (73 * INCH_NM // 8, "9-1/8")
    assert driver.taps == 1


def test_probe_by_pad_takes_three_keys(driver: SlitDriver) -> None:
    """Digit, eighth, Enter, once the pad is up."""
    driver.touch("Type it")
    driver.taps = 0
    driver.keys("8", "7/8", "enter")

    (probe,) = driver.written("probe")
    assert (probe.depth_nm, probe.depth_typed) == (71 * INCH_NM // 8, "8-7/8")
    assert driver.taps == 3


def test_verdict_shows_before_it_is_inked(driver: SlitDriver) -> None:
    """In the frame of the tap the verdict stands, and inked only once it is durable."""
    driver.page.part.take(15 * INCH_NM // 2, "7-1/2")
    mark = driver.page.part.mark

    assert (mark.status, "inked" in mark.text) == ("out", False)
    assert "1 in shallow" in mark.text
    driver.settle()
    assert (mark.status, "inked" in mark.text) == ("out", True)
    assert len(driver.written("probe")) == 1


def test_out_buzzes_and_ok_does_not(driver: SlitDriver) -> None:
    """A glove feels a reading that is out."""
    from crewapp.kit.keys.touchable import on_every_touch

    felt: list[str] = []
    sleep(0.3)  # the second buzz of an earlier reading that was out comes a quarter second late
    driver.settle()
    on_every_touch(lambda: felt.append("buzz"))
    driver.page.part.take(9 * INCH_NM, "9")
    driver.settle()
    quiet = len(felt)
    driver.page.part.take(7 * INCH_NM, "7")
    on_every_touch(lambda: None)
    driver.settle()

    assert (quiet, len(felt)) == (0, 1)


def test_next_place_walks_both_legs(driver: SlitDriver) -> None:
    """Each stop is probed on every leg, then the crew walks on, to the end of the cut."""
    while driver.page.place_now() is not None:
        driver.touch("9")
        driver.seen()

    places = [(p.line_id, p.along_nm // FOOT_NM) for p in driver.written("probe")]
    assert places == [(line, at) for at in (3, 18, 33, 37) for line in ("S01", "S04")]


def test_place_and_line_can_be_changed(driver: SlitDriver) -> None:
    """A chip of distance on another leg is where the next probe is written."""
    driver.touch("S01 at 3.0 ft")
    driver.touch("S04")
    driver.touch("20")
    driver.touch("9")

    (probe,) = driver.written("probe")
    assert (probe.line_id, probe.along_nm) == ("S04", 20 * FOOT_NM)


def test_width_goes_with_one_probe(driver: SlitDriver) -> None:
    """A width typed for the next probe is inked with it and with no other."""
    driver.touch("S01 at 3.0 ft")
    driver.touch("Width too")
    driver.keys("1", "1/8", "enter")
    driver.touch("9")
    driver.touch("9")

    assert [p.width_nm for p in driver.written("probe")] == [9 * INCH_NM // 8, None]


def test_probe_is_struck_with_a_tapped_reason(driver: SlitDriver) -> None:
    """Two taps in the list's entry: a reason, then Strike; the old one stays, crossed out."""
    driver.touch("9")
    driver.open_part("written")
    driver.touch("S01 at 3.0 ft: 9 in")
    driver.touch("Strike it")
    assert len(driver.written("struck")) == 0
    driver.touch("misread")
    driver.touch("Strike it")

    entries = {entry.kind: entry for entry in driver.read_book()}
    assert entries["struck"].strikes == (entries["probe"].id,)
    assert entries["struck"].reason == "misread"
    struck = [row for row in driver.page.card.written if row.kind == "probe"]
    assert [row.is_struck for row in struck] == [True]


def test_probe_is_corrected_on_the_pad(driver: SlitDriver) -> None:
    """The corrected depth strikes the old one and keeps its place."""
    driver.touch("9")
    driver.open_part("written")
    driver.touch("S01 at 3.0 ft: 9 in")
    driver.touch("misread")
    driver.touch("Correct it")
    driver.keys("8", "5/8", "enter")

    old, new = (entry for entry in driver.read_book() if entry.kind == "probe")
    assert new.strikes == (old.id,)
    body: Any = new.body
    assert (body.depth_typed, body.along_nm, new.reason) == ("8-5/8", 3 * FOOT_NM, "misread")


def test_undo_takes_the_probe_back(driver: SlitDriver) -> None:
    """The strip's one tap crosses out the slip, and the place is proposed again."""
    driver.touch("9")
    driver.touch("Undo")

    assert len(driver.written("struck")) == 1
    assert driver.page.place_now().along_nm == 3 * FOOT_NM


def test_depth_out_by_ten_is_asked_about(driver: SlitDriver) -> None:
    """Fifty-five inches is asked about, and nothing is inked before an answer."""
    driver.touch("Type it")
    driver.keys("5", "5", "enter")
    assert driver.page.sheet.pad.keypad.question is not None
    assert driver.written("probe") == []
    driver.keys("?keep")

    assert [p.depth_typed for p in driver.written("probe")] == ["55"]


def test_half_typed_depth_survives_a_kill(ui: UI, tmp_path: Path, driver: SlitDriver) -> None:
    """A second start on the same tablet shows the pad with what was typed, at its place."""
    driver.touch("Type it")
    driver.keys("8")
    book = driver.worker.job().book.path
    driver.close()

    again = SlitDriver(ui, tmp_path / "home", book)
    assert again.page.sheet.pad.keypad.typed == "8"
    again.keys("7/8", "enter")
    assert [p.depth_typed for p in again.written("probe")] == ["8-7/8"]
    again.close()
