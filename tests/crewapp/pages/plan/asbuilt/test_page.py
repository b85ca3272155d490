"""The As-built page under real touches: profile, quantities, the package with its progress."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from crewapp.commands.passes import LogPass
from tests.crewapp.pages.frame_hand import put_book
from tests.crewapp.pages.plan_hand import PlanHand

if TYPE_CHECKING:
    from tests.uidriver import UI

FT_NM = 304_800_000


@pytest.fixture
def hand(ui: UI, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[PlanHand]:
    """The As-built page of the small job."""
    monkeypatch.setenv("HOME", str(tmp_path))
    monkeypatch.setenv("KIVY_CLIPBOARD", "sdl2")
    home = tmp_path / "home"
    opened = PlanHand(ui, home, put_book(home / "books"), "built")
    yield opened
    opened.close()


def test_placed_stands_against_planned(hand: PlanHand) -> None:
    """What was cut, what was planned, and by how much they differ."""
    hand.do(LogPass(surface_id="G7", line_ids=("S01",), length_nm=30 * FT_NM, length_typed="30"))
    hand.shell._drop_banner()
    hand.tap("Placed")
    row = next(one for one in hand.page.told.built.quantities if one.title == "Sand slits")

    assert (row.figure, row.detail) == ("30 ft", "planned 180 ft, 150 ft less than planned")


def test_profile_is_drawn_in_two_strips(hand: PlanHand) -> None:
    """The same drawing as on paper, for the collector of the job."""
    hand.tap("Profile")
    chart = hand.page.part.strips.layout

    assert chart is not None
    words = [getattr(item, "text", "") for item in chart(150.0, 80.0).items]
    assert any(text.startswith("Profile") for text in words)
    assert "C1  Low side" in hand.text()


def test_package_is_written_and_says_where(hand: PlanHand) -> None:
    """One tap: the files, how many, their code, and the folder to copy."""
    told: list[str] = []
    hand.tap("Package")
    hand.page.part.path.bind(said=lambda _, text: told.append(text))
    hand.tap("Package out")
    for _ in range(6):
        hand.settle()
    folder = hand.page.part.maker.folder

    assert (folder / "asbuilt.dxf").exists()
    assert any(text.startswith("Written 1 of ") for text in told)
    assert told[-1].endswith(f"files in {folder}")
    assert hand.page.part.copy.copied == str(folder)
    hand.tap("Copy")
    assert hand.page.part.copy.note == "copied"


def test_package_can_be_stopped(hand: PlanHand) -> None:
    """Between two files: a sentence, and the key makes it anew."""
    hand.tap("Package")
    maker = hand.page.part.maker
    tell = maker._tell

    def tell_and_stop(name: str, place: int, count: int) -> None:
        tell(name, place, count)
        maker.stop()

    maker._tell = tell_and_stop
    hand.tap("Package out")
    for _ in range(4):
        hand.settle()

    assert "was stopped after 2 files" in hand.banner
    assert not maker.is_busy
    assert maker.made is None
    assert hand.bearers("Package out")


def test_collector_on_the_plan_tells_of_itself(hand: PlanHand) -> None:
    """Its design, its shots, its pipe; the plan's keys lead on to the Plan page."""
    hand.page.line_picked("collector:C1")
    hand.settle()
    figures = {row.title: row.figure for row in hand.page.told.life}

    assert (figures["Design"], figures["Inverts shot"]) == ("1.00 %", "0")
    hand.tap("Plan")
    assert hand.shell.front == "plan"
