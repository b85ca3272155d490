"""The first part of the Day screen: one key for each thing of the day."""

from __future__ import annotations

from typing import Any

from crewapp.kit.keys.key_pages import KeyPages
from crewapp.kit.keys.touchable import TapKey
from crewapp.kit.look.palette import ButtonKind
from crewapp.pages.day.forms.forms import running_delay
from crewapp.pages.day.forms.menu import MenuKey, day_words, menu_keys
from crewapp.pages.day.view import DayView
from crewapp.pages.frame.parted_page import Part
from crewapp.words.translate import say

LONG_NOTE = 14


class MenuPart(Part):
    """Keys to log things and to finish the day."""

    needs_mm = (33.0, 33.0)

    def build(self) -> None:
        """Make the grid of keys."""
        self.keys = KeyPages(least_wide_mm=29.0, most_high_mm=34.0)
        self.add_widget(self.keys)
        self.shown: tuple[MenuKey, ...] = ()

    def title(self, view: DayView) -> str:
        """Return the title of this page."""
        return say("Day")

    def place(self, view: DayView) -> str:
        """Return the day that the part shows, for the head."""
        return day_words(view)

    def fill(self, view: DayView) -> None:
        """Show what stands under each key."""
        running = running_delay(self.page.filling.answers_of("delay"), view.now_ms)
        keys = menu_keys(view, running)
        if keys != self.shown:
            self.shown = keys
            self.keys.show_keys([self._key(key) for key in keys])

    def _key(self, key: MenuKey) -> Any:
        made = TapKey(
            text=key.text,
            note=key.note,
            kind=ButtonKind.PRIMARY if key.is_next else ButtonKind.PLAIN,
        )
        made.cap_mm = 4.4
        made.second.lines = 2 if len(key.note) > LONG_NOTE else 1  # its words keep their room
        made.bind(on_release=lambda _: self._go(key))
        return made

    def _go(self, key: MenuKey) -> None:
        if key.leads_to == "after":
            self.page.shell.go("after", part="home")
        elif key.leads_to == "one_file":
            day = self.page.view.day
            self.page.shell.go("sync", part="hand", up_to="day", hand_day=day)
        elif key.is_form:
            self.page.filling.begin(key.leads_to)
        else:
            self.page.turn_to(key.leads_to)
