"""Card of one flag: the finding, why it matters, what to do, and the answers to give."""

from __future__ import annotations

from typing import Any, ClassVar

from crewapp.kit.input.list_rows import shorten
from crewapp.kit.keys.key_pages import KeyPages
from crewapp.kit.keys.touchable import TapKey
from crewapp.kit.lists.row_list import RowList
from crewapp.kit.look.palette import TOUCH_MM, ButtonKind
from crewapp.kit.panes.layout import TwoPanes
from crewapp.kit.text.text_stack import TextStack
from crewapp.pages.flags.view import ANSWERS, LONGEST_BEFORE, FlagCard, FlagsView
from crewapp.pages.frame.parted_page import Part
from crewapp.words.translate import say, translate_later

PAGE_WORDS = {
    "pass": translate_later("Pass"),
    "grade": translate_later("Grade"),
    "loads": translate_later("Loads"),
    "day": translate_later("Day"),
}


class FlagPart(Part):
    """The finding at the left, the answers at the right."""

    back: ClassVar[str] = "list"
    needs_mm = (55.0, 110.0)

    def build(self) -> None:
        """Make the words and the keys."""
        self.text = TextStack()
        self.keys = KeyPages(least_wide_mm=28.0, most_high_mm=30.0)
        self.add_widget(TwoPanes(self.text, self.keys, share=0.54, high_share=0.6))
        self.shown: FlagCard | None = None

    def title(self, view: FlagsView) -> str:
        """Say how it weighs."""
        return view.card.row.word if view.card else say("Flags")

    def place(self, view: FlagsView) -> str:
        """Say of which day it is."""
        return view.card.row.day if view.card else ""

    def fill(self, view: FlagsView) -> None:
        """Show the flag that is looked at."""
        card = view.card
        if card is None or card == self.shown:
            return
        self.shown = card
        self._show_text(card)
        keys = [] if card.answered else [self._answer(name) for name in ANSWERS]
        if card.leads_to:
            keys.append(self._key(say("Go there"), say(PAGE_WORDS[card.leads_to]), self._go))
        if card.rests_on:
            count = say("entries: {count}", count=len(card.rests_on))
            keys.append(self._key(say("It rests on"), count, self._entries))
        self.keys.show_keys(keys)

    def _show_text(self, card: FlagCard) -> None:
        before = shorten(card.answered, LONGEST_BEFORE)
        if card.lapsed:
            told = shorten(card.lapsed, LONGEST_BEFORE)
            before = say("Answered before for other figures: {lapsed}", lapsed=told)
        why, cure = say("Why: {why}", why=card.why), say("Do: {cure}", cure=card.cure)
        self.text.show_texts((card.row.said, cure, why, before))

    def _answer(self, name: str) -> TapKey:
        word, note = ANSWERS[name]
        return self._key(say(word), say(note), lambda: self._begin(name))

    def _key(self, text: str, note: str, act: Any) -> TapKey:
        is_quiet = act in (self._go, self._entries)
        key = TapKey(text=text, note=note, kind=ButtonKind.QUIET if is_quiet else ButtonKind.PLAIN)
        key.second.lines = 2
        key.bind(on_release=lambda _: act())
        return key

    def _begin(self, answer: str) -> None:
        card = self.page.view.card
        if card is not None:
            self.page.filling.begin(f"{answer}/{card.row.key}")

    def _go(self) -> None:
        card = self.page.view.card
        if card is not None:
            self.page.shell.go(card.leads_to, **dict(card.arrive))

    def _entries(self) -> None:
        self.page.turn_to("entries")


class EntriesPart(Part):
    """The entries that the flag rests on, newest first."""

    back: ClassVar[str] = "flag"

    def build(self) -> None:
        """Build the list of this part."""
        self.rows = RowList(TOUCH_MM)
        self.add_widget(self.rows)
        self.shown: FlagCard | None = None

    def title(self, view: FlagsView) -> str:
        """Return the title of this part."""
        return say("It rests on")

    def fill(self, view: FlagsView) -> None:
        """Show the entries, struck ones crossed out."""
        if view.card is not None and view.card != self.shown:
            self.shown = view.card
            self.rows.show_rows([row.to_row() for row in view.card.rests_on])
