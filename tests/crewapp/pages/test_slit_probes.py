"""Probes: one tap a reading, the verdict in the same frame, struck and corrected ones."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest

from tests.crewapp.pages.slit_hand import FOOT_NM, INCH_NM, SlitHand, at_work

if TYPE_CHECKING:
    from tests.uidriver import UI


@pytest.fixture
def hand(ui: UI, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[SlitHand]:
    """A pass of the field just cut, nothing probed."""
    with at_work(ui, tmp_path, monkeypatch) as opened:
        opened.cut()
        opened.taps = 0
        yield opened


def test_probe_by_chip_takes_one_tap(hand: SlitHand) -> None:
    """The place is proposed, the depth tapped: a probe near the start of the first leg."""
    hand.touch("9-1/8")

    (probe,) = hand.written("probe")
    assert (probe.pass_id, probe.line_id, probe.along_nm) == ("F2-01", "S01", 3 * FOOT_NM)
    assert (probe.depth_nm, probe.depth_typed) == (73 * INCH_NM // 8, "9-1/8")
    assert hand.taps == 1


def test_probe_by_pad_takes_three_keys(hand: SlitHand) -> None:
    """Digit, eighth, Enter, once the pad is up."""
    hand.touch("Type it")
    hand.taps = 0
    hand.keys("8", "7/8", "enter")

    (probe,) = hand.written("probe")
    assert (probe.depth_nm, probe.depth_typed) == (71 * INCH_NM // 8, "8-7/8")
    assert hand.taps == 3


def test_verdict_shows_before_it_is_inked(hand: SlitHand) -> None:
    """In the frame of the tap the verdict stands, and inked only once it is durable."""
    hand.page.part.take(15 * INCH_NM // 2, "7-1/2")
    mark = hand.page.part.mark

    assert (mark.status, "inked" in mark.text) == ("out", False)
    assert "1 in shallow" in mark.text
    hand.settle()
    assert (mark.status, "inked" in mark.text) == ("out", True)
    assert len(hand.written("probe")) == 1


def test_out_buzzes_and_ok_does_not(hand: SlitHand) -> None:
    """A glove feels a reading that is out."""
    from crewapp.kit.keys.touchable import on_every_touch

    felt: list[str] = []
    on_every_touch(lambda: felt.append("buzz"))
    hand.page.part.take(9 * INCH_NM, "9")
    hand.settle()
    quiet = len(felt)
    hand.page.part.take(7 * INCH_NM, "7")
    on_every_touch(lambda: None)
    hand.settle()

    assert (quiet, len(felt)) == (0, 1)


def test_next_place_walks_both_legs(hand: SlitHand) -> None:
    """Each stop is probed on every leg, then the crew walks on, to the end of the cut."""
    while hand.page.place_now() is not None:
        hand.touch("9")
        hand.seen()

    places = [(p.line_id, p.along_nm // FOOT_NM) for p in hand.written("probe")]
    assert places == [(line, at) for at in (3, 18, 33, 37) for line in ("S01", "S04")]


def test_place_and_line_can_be_changed(hand: SlitHand) -> None:
    """A chip of distance on another leg is where the next probe is written."""
    hand.touch("S01 at 3.0 ft")
    hand.touch("S04")
    hand.touch("20")
    hand.touch("9")

    (probe,) = hand.written("probe")
    assert (probe.line_id, probe.along_nm) == ("S04", 20 * FOOT_NM)


def test_width_goes_with_one_probe(hand: SlitHand) -> None:
    """A width typed for the next probe is inked with it and with no other."""
    hand.touch("S01 at 3.0 ft")
    hand.touch("Width too")
    hand.keys("1", "1/8", "enter")
    hand.touch("9")
    hand.touch("9")

    assert [p.width_nm for p in hand.written("probe")] == [9 * INCH_NM // 8, None]


def test_probe_is_struck_with_a_tapped_reason(hand: SlitHand) -> None:
    """Two taps in the list's entry: a reason, then Strike; the old one stays, crossed out."""
    hand.touch("9")
    hand.open_part("written")
    hand.touch("S01 at 3.0 ft: 9 in")
    hand.touch("Strike it")
    assert len(hand.written("struck")) == 0
    hand.touch("misread")
    hand.touch("Strike it")

    entries = {entry.kind: entry for entry in hand.read_book()}
    assert entries["struck"].strikes == (entries["probe"].id,)
    assert entries["struck"].reason == "misread"
    struck = [row for row in hand.page.card.written if row.kind == "probe"]
    assert [row.is_struck for row in struck] == [True]


def test_probe_is_corrected_on_the_pad(hand: SlitHand) -> None:
    """The corrected depth strikes the old one and keeps its place."""
    hand.touch("9")
    hand.open_part("written")
    hand.touch("S01 at 3.0 ft: 9 in")
    hand.touch("misread")
    hand.touch("Correct it")
    hand.keys("8", "5/8", "enter")

    old, new = (entry for entry in hand.read_book() if entry.kind == "probe")
    assert new.strikes == (old.id,)
    body: Any = new.body
    assert (body.depth_typed, body.along_nm, new.reason) == ("8-5/8", 3 * FOOT_NM, "misread")


def test_undo_takes_the_probe_back(hand: SlitHand) -> None:
    """The strip's one tap crosses out the slip, and the place is proposed again."""
    hand.touch("9")
    hand.touch("Undo")

    assert len(hand.written("struck")) == 1
    assert hand.page.place_now().along_nm == 3 * FOOT_NM


def test_depth_out_by_ten_is_asked_about(hand: SlitHand) -> None:
    """Fifty-five inches is asked about, and nothing is inked before an answer."""
    hand.touch("Type it")
    hand.keys("5", "5", "enter")
    assert hand.page.sheet.pad.keypad.question is not None
    assert hand.written("probe") == []
    hand.keys("?keep")

    assert [p.depth_typed for p in hand.written("probe")] == ["55"]


def test_half_typed_depth_survives_a_kill(ui: UI, tmp_path: Path, hand: SlitHand) -> None:
    """A second start on the same tablet shows the pad with what was typed, at its place."""
    hand.touch("Type it")
    hand.keys("8")
    book = hand.desk.job().book.path
    hand.close()

    again = SlitHand(ui, tmp_path / "home", book)
    assert again.page.sheet.pad.keypad.typed == "8"
    again.keys("7/8", "enter")
    assert [p.depth_typed for p in again.written("probe")] == ["8-7/8"]
    again.close()
