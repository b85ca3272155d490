"""Closing the day by a hold, handing its sheet over by a hold, taking it up again."""

from __future__ import annotations

from pathlib import Path
from typing import Any, ClassVar

from crewapp.commands.day import CloseDay
from crewapp.kit.input.list_rows import shorten
from crewapp.kit.keys.copy_key import CopyKey
from crewapp.kit.keys.hold_key import HoldKey
from crewapp.kit.keys.touchable import TapKey
from crewapp.kit.lists.row_list import RowList
from crewapp.kit.look.palette import Status
from crewapp.kit.look.theme import px
from crewapp.kit.panes.layout import Rows, TwoPanes
from crewapp.kit.text.path_text import PathLabel
from crewapp.pages.day.forms.menu import day_words
from crewapp.pages.day.sheet_writer import SheetMaker
from crewapp.pages.day.view import DayView
from crewapp.pages.frame.parted_page import Part
from crewapp.words.translate import say

CLOSED_GAP_MM, COPY_FROM_MM = 5.0, 78.0


class ClosePart(Part):
    """Part that closes the day: what is open and missing, then the one key that is held."""

    back: ClassVar[str] = "menu"
    needs_mm = (50.0, 92.0)

    def build(self) -> None:
        """Make the list, the words, and the keys."""
        self.rows = RowList(17.0)
        self.rows.bind(on_pick=lambda _, key: self._pick(key))
        self.told = PathLabel(lines=9, cap_mm=4.0)
        self.copy = CopyKey()
        self.close = HoldKey(text=say("Hold to close the day"))
        self.close.bind(on_held=lambda _: self._close())
        self.hand = HoldKey(text=say("Hold to hand over"), note=say("PDF, XLSX, CSV"))
        self.hand.bind(on_held=lambda _: self._hand_over())
        self.reopen = TapKey(text=say("Reopen the day"), note=say("with a reason"))
        self.reopen.bind(on_release=lambda _: self.page.filling.begin("reopen"))
        self.maker = SheetMaker(self.page.shell, self._say)
        self.side = Rows(gap_mm=CLOSED_GAP_MM)
        self.add_widget(TwoPanes(self.rows, self.side, share=0.58, high_share=0.5))
        self.day: tuple[str, bool] = ("", False)

    def title(self, view: DayView) -> str:
        """Return the title of this part."""
        return say("Hand over") if view.is_closed else say("Close the day")

    def place(self, view: DayView) -> str:
        """Return the day that the part shows, for the head."""
        return day_words(view)

    def fill(self, view: DayView) -> None:
        """Show what is open, and the keys that this day can have now."""
        self.rows.nothing = no_rows_text(view)
        self.rows.show_rows(open_rows(view))
        keys = [self.reopen, self.hand] if view.is_closed else [self.close]
        copied = [self.copy] if view.is_closed and self._has_files() else []
        wanted: list[Any] = [self.told, *copied, *keys]
        if self.side.children[::-1] != wanted:
            self.side.clear_widgets()
            for part in wanted:
                self.side.add_widget(part)
        self.side.spacing = px(CLOSED_GAP_MM if view.is_closed else 3.0)
        self.close.note = say("missing: {count}", count=len(view.missing)) if view.missing else ""
        self.close.disabled = bool(view.stops) or not view.has_job
        if (view.day, view.is_closed) != self.day or not view.is_closed:
            self.day = (view.day, view.is_closed)
            self.told.said = close_words(view)

    def _pick(self, key: str) -> None:
        if key.startswith("missing:"):
            lead = key.split(":")[1]
            if lead in self.page.parts:
                self.page.turn_to(lead)
            elif self.page.view.is_today:
                self.page.filling.begin(lead)
        else:
            self.page.shell.go("flags", **({"key": key} if key else {}))

    def _close(self) -> None:
        self.page.do(CloseDay(day=self.page.view.day))

    def _hand_over(self) -> None:
        self.maker.make(self.page.view.day, self._share)

    def _share(self, files: list[Path]) -> None:
        from crewapp.device.ports import find_device

        lack = find_device().sharer.share(files[0])
        if lack is not None:
            text = say("This tablet can't share by itself: copy them from there.")
            self._say(f"{self.told.said}\n{text}")
        self.copy.copied = str(self.maker.folder)
        self.fill(self.page.view)

    def _has_files(self) -> bool:
        """Whether files were handed over, and there is room for the key that copies where."""
        return bool(self.copy.copied) and self.height >= px(COPY_FROM_MM)

    def _say(self, text: str) -> None:
        self.told.said = text
        self.hand.disabled = self.maker.is_busy


def open_rows(view: DayView) -> list[dict[str, Any]]:
    """Return rows of what stops the work, what is missing, and how many flags may stay open."""
    worst = view.open_flags[: view.stops]
    stops = [{**row.to_row(), "title": shorten(row.title, 56)} for row in worst]
    left = len(view.open_flags) - view.stops
    text = say("Flags that stay open: {count}", count=left)
    rest = {"key": "", "title": text, "status": Status.CHECK}
    return [*stops, *missing_rows(view), *([rest] if left else [])]


def missing_rows(view: DayView) -> list[dict[str, Any]]:
    """Return rows of what the day lacks, each leading to where it is logged."""
    if view.is_closed:
        return []
    return [
        {"key": f"missing:{lead}:{number}", "title": text, "status": Status.NOT_MEASURED}
        for number, (lead, text) in enumerate(view.missing)
    ]


def no_rows_text(view: DayView) -> str:
    """Say that no row is left; of a closed day, what it was closed without."""
    if view.is_closed and view.missing:
        missing = "; ".join(text for _, text in view.missing)
        return say("Closed as it stood: {missing}.", missing=missing)
    return say("Nothing stands open, nothing is missing.")


def close_words(view: DayView) -> str:
    """Say whether the day can be closed, and what closing does."""
    if view.is_closed:
        return say("The day is closed. Hold to write its sheet and hand it over.")
    if view.stops:
        return say(
            "Flags that stop the work: {count}. Answer them first, then the day can be closed.",
            count=view.stops,
        )
    if view.missing:
        return say(
            "What is missing stays missing on the sheet. Closed, the day takes no more entries; "
            "reopening needs a reason."
        )
    if view.open_flags:
        return say("Open flags will be on the sheet. Closed, the day takes no more entries.")
    return say("Closed, the day takes no more entries; reopening needs a reason.")
