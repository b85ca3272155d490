"""Striking, signing, closing by a hold, reopening with a reason, handing over."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from crewapp.commands.day import CloseDay, LogDelay, LogWeather
from crewapp.commands.flags import AnswerFlag
from crewapp.kit.input.list_rows import short
from tests.crewapp.conftest import DAY
from tests.crewapp.pages.day_hand import DayHand, cut_deep, cut_shallow, hands, hit_stop

if TYPE_CHECKING:
    from tests.uidriver import UI


@pytest.fixture
def hand(ui: UI, tmp_path: Path) -> Iterator[DayHand]:
    """A finger on the Day screen."""
    yield from hands(ui, tmp_path)


def test_entry_is_struck_with_a_reason(hand: DayHand) -> None:
    """It stays in the list, crossed out, with why."""
    hand.do(LogDelay(cause="rain", lost_min=30))
    hand.taps("Written", "30 min lost: rain", "not so", "Strike it")

    assert hand.entries("delay") == []
    row = next(row for row in hand.page.told.written if row.kind == "delay")
    assert row.is_struck
    assert "not so" in row.detail


def test_hours_are_corrected(hand: DayHand) -> None:
    """Who has hours already is struck or asked anew; the old figure stays readable."""
    hand.taps("Crew, machines", "Ben Madeup, laser and pipe", "8 h")
    hand.taps("Ben Madeup, laser and pipe", "wrong amount", "Correct it", "9 h")

    entry = hand.entries("hours")[0]
    assert entry.body.run_min == 540
    assert (len(entry.strikes), entry.reason) == (1, "wrong amount")


def test_delay_is_corrected_without_running(hand: DayHand) -> None:
    """A delay put right is asked for anew; it does not start to run."""
    hand.do(LogDelay(cause="rain", lost_min=30))
    hand.taps("Written", "30 min lost: rain", "wrong amount", "Correct it", "breakdown", "1 h")

    assert [(e.body.cause, e.body.lost_min) for e in hand.entries("delay")] == [("breakdown", 60)]


def test_foreman_signs_the_record(hand: DayHand) -> None:
    """Sign, foreman, name, a stroke, ink."""
    hand.taps("Sign", "a true record", "Ana Invented")
    hand.draw()
    hand.tap("Ink the signature")

    signature = hand.body("signature")
    assert (signature.role, signature.name) == ("foreman", "Ana Invented")
    assert (signature.meaning, signature.of_day) == ("true_record", DAY)
    assert len(signature.strokes) == 1
    assert len(signature.strokes[0]) >= 2


def test_owner_receives_without_agreeing(hand: DayHand) -> None:
    """Received is not agreed; the owner's name is one tap."""
    hand.taps("Sign", "received", "Olga Invented")
    hand.draw()
    hand.tap("Ink the signature")

    assert hand.body("signature").meaning == "received"


def test_empty_signature_is_not_inked(hand: DayHand) -> None:
    """Without a stroke the key does nothing."""
    hand.taps("Sign", "agreed", "Olga Invented", "Ink the signature")

    assert hand.entries("signature") == []


def test_day_is_closed_by_a_hold(hand: DayHand) -> None:
    """Within ten taps: the list is seen first, a mere tap does nothing."""
    hand.tap("Close the day")
    assert "No hours of anybody yet" in hand.words()
    hand.tap("Hold to close the day")
    assert hand.entries("day_closed") == []
    hand.hold("Hold to close the day")

    assert hand.body("day_closed").of_day == DAY
    assert hand.job.state.is_closed(DAY)


def test_closed_day_says_what_it_was_closed_without(hand: DayHand) -> None:
    """What was missing when the day was closed is not said to be there afterwards."""
    hand.tap("Close the day")
    missing = [row["title"] for row in hand.page.part.rows.view.data]
    hand.hold("Hold to close the day")
    said = hand.page.part.rows.empty.text

    assert missing
    assert said.startswith("Closed as it stood: ")
    assert all(title in said for title in missing if title)


def test_tab_of_the_page_in_front_goes_a_step_back(hand: DayHand) -> None:
    """Who taps Day within a part of Day comes to its menu."""
    hand.tap("Close the day")
    assert hand.page.part_name() == "close"
    hand.shell.tabs.dispatch("on_pick", "day")
    hand.settle()

    assert hand.page.part_name() == "menu"
    hand.shell.tabs.dispatch("on_pick", "day")
    assert (hand.shell.front, hand.page.part_name()) == ("day", "menu")


def test_flag_that_stops_keeps_the_day_open(hand: DayHand) -> None:
    """The key is dead and says why; a tap on the flag leads to it."""
    key = hit_stop(hand)
    hand.tap("Close the day")
    assert hand.page.part.close.disabled
    hand.hold("Hold to close the day")
    assert hand.entries("day_closed") == []
    assert any("that stop the work: 1" in words for words in hand.words())
    row = next(row for row in hand.page.told.open_flags if row.key == key)
    hand.tap(short(row.title, 56))

    assert (hand.shell.front, hand.page.draft["key"]) == ("flags", key)


def test_open_flags_are_counted_in_the_closing(hand: DayHand) -> None:
    """A flag that does not stop the work stays open on the sheet."""
    key = cut_shallow(hand)
    cut_deep(hand)
    figures = next(f.finding.figures for f in hand.job.board.flags() if f.finding.key == key)
    hand.do(AnswerFlag(key=key, figures=figures, answer="rework", why="doing it"))
    left = len(hand.job.board.open_flags())
    hand.tap("Close the day")
    hand.hold("Hold to close the day")

    assert hand.body("day_closed").open_flags == left
    assert left > 0


def test_closed_day_is_reopened_with_a_reason(hand: DayHand) -> None:
    """No reason, no reopening."""
    hand.do(CloseDay(day=DAY))
    hand.on("day")
    hand.taps("Closed: hand over", "Reopen the day", "ticket came late", "Reopen the day")

    assert hand.body("day_reopened").why == "ticket came late"
    assert not hand.job.state.is_closed(DAY)


def test_sheet_is_handed_over(hand: DayHand) -> None:
    """A hold writes the three files and says where they are."""
    hand.do(CloseDay(day=DAY))
    hand.on("day")
    hand.tap("Closed: hand over")
    hand.hold("Hold to hand over")
    for _ in range(4):
        hand.settle()

    folder = Path(hand.shell.tablet.folder) / "sheets"
    assert sorted(path.suffix for path in folder.iterdir()) == [".csv", ".pdf", ".xlsx"]
    assert "3 files in" in hand.page.part.told.text


def test_sheet_can_be_read_and_made(hand: DayHand) -> None:
    """Its facts stand on the screen in the order of its bands; the files are one tap."""
    hand.do(LogWeather(sky="rain", ground="wet"))
    hand.tap("Day sheet")
    bands = [row.key.partition(":")[0] for row in hand.page.told.sheet]
    assert bands == sorted(
        bands,
        key=[
            "standing",
            "needs",
            "figures",
            "quantities",
            "quality",
            "flags",
            "crew",
            "rest",
            "signed",
        ].index,
    )
    hand.tap("Make the files")
    hand.settle()

    assert any("3 files in" in words for words in hand.words())


def test_sheet_that_cannot_be_written_is_told(hand: DayHand) -> None:
    """A file stands where the folder should be: a sentence, and the key works again."""
    (Path(hand.shell.tablet.folder) / "sheets").write_text("in the way")
    hand.tap("Day sheet")
    hand.tap("Make the files")
    hand.settle()

    assert "was not written" in hand.banner
    assert not hand.page.part.maker.is_busy


def test_day_forgotten_is_closed_later(hand: DayHand) -> None:
    """Yesterday is found among the days; only what may still be done there is shown."""
    hand.do(LogDelay(cause="rain", lost_min=30))
    hand.clock.pass_seconds(24 * 3600)
    hand.on("day")
    hand.taps("Written", "Other days", "Mon May 11, 2026")
    assert "Delay" not in hand.words()
    hand.tap("Close the day")
    hand.hold("Hold to close the day")

    assert hand.job.state.is_closed(DAY)
