"""Parts on whose tablets may write: the list, this tablet's code, adding one, taking one off."""

from __future__ import annotations

from typing import Any, ClassVar

from crewapp.kit.keys.choice_row import ChoiceRow
from crewapp.kit.keys.hold_key import HoldKey
from crewapp.kit.keys.touchable import MainKey, TapKey
from crewapp.kit.lists.row_list import RowList
from crewapp.kit.look.palette import ButtonKind, Status
from crewapp.kit.marks.code_card import CodeCard
from crewapp.kit.text.text_area import TextArea
from crewapp.kit.text.text_stack import TextStack
from crewapp.pages.exchange.tablet_controller import NAMES, REASONS
from crewapp.pages.exchange.view import ExchangeView, TabletRow
from crewapp.pages.frame.parted_page import Part, PartPanes, Stack
from crewapp.words.translate import say

LONGEST_NAME = 40


class TabletsPart(Part):
    """The own code in large groups, the tablets of the job, and a key to add one."""

    back: ClassVar[str] = "home"
    needs_mm = (60.0, 112.0)

    def build(self) -> None:
        """Make the code, the list and the key."""
        self.card = CodeCard()
        self.add = TapKey(text=say("Add a tablet"), note=say("by its code"), high_mm=22.0)
        self.add.bind(on_release=lambda _: self.page.tablets.begin())
        self.list = RowList()
        self.list.bind(on_pick=lambda _, code: self.page.tablets.pick(code))
        self.side = Stack()
        self.side.add_widget(self.card)
        self.side.add_widget(self.add)
        self.add_widget(PartPanes(self.side, self.list, share=0.44, high_share=0.54))

    def title(self, view: ExchangeView) -> str:
        """Return the title of this part."""
        return say("Tablets of the job")

    def place(self, view: ExchangeView) -> str:
        """Say of the invented job that anybody may write to it."""
        return say("any tablet may write to the demo") if view.is_open else ""

    def fill(self, view: ExchangeView) -> None:
        """Show the tablets of the list."""
        self.card.code = view.own_code
        self.list.show_rows([tablet_row(one) for one in view.tablets])
        self.add.disabled = not view.may_write or bool(view.read_only)
        self.add.note = say("by its code") if view.may_write else say("done on one of the list")


class NewTabletPart(Part):
    """A code was typed and fits: what the tablet is called, and the key that lets it write."""

    back: ClassVar[str] = "tablets"
    needs_mm = (72.0, 92.0)

    def build(self) -> None:
        """Make the name's line, usual names, and the key."""
        self.area = TextArea(high_mm=15.0, multiline=False, longest=LONGEST_NAME)
        self.area.bind(text=lambda _, text: self._typed(text))
        self.names = ChoiceRow([(say(name), say(name)) for name in NAMES])
        self.names.bind(on_pick=lambda _, name: setattr(self.area, "text", name))
        self.words = TextStack()
        self.main = MainKey(text=say("Let it write to this job"))
        self.main.bind(on_release=lambda _: self.page.tablets.add())
        for part in (self.area, self.names, self.words, self.main):
            self.add_widget(part)

    def title(self, view: ExchangeView) -> str:
        """Return the title: the question of this part."""
        return say("What is it called?")

    def fill(self, view: ExchangeView) -> None:
        """Show the name typed so far."""
        name = str(self.page.draft.get("called", ""))
        if self.area.text != name:
            self.area.text = name
        self.names.chosen = name
        self.words.show_texts(
            (
                self.page.tablets.code,
                say("What this tablet writes is taken into the job from the next exchange on."),
            )
        )
        self.main.disabled = not self.page.tablets.code

    def _typed(self, text: str) -> None:
        self.page.keep_draft(called=text)
        self.names.chosen = text


class TabletPart(Part):
    """Part with one tablet of the list: taken off with a reason by a hold, or let in again."""

    back: ClassVar[str] = "tablets"
    needs_mm = (62.0, 92.0)

    def build(self) -> None:
        """Make the words, the reasons and the keys."""
        self.words = TextStack()
        self.reasons = ChoiceRow([(say(why), say(why)) for why in REASONS])
        self.reasons.bind(on_pick=lambda _, why: self._reason(why))
        self.hold = HoldKey(text=say("Hold to take it off"), kind=ButtonKind.DESTRUCTIVE)
        self.hold.bind(on_held=lambda _: self.page.tablets.take_off())
        self.again = MainKey(text=say("Let it write again"))
        self.again.bind(on_release=lambda _: self.page.turn_to("named"))
        self.add_widget(self.words)

    def title(self, view: ExchangeView) -> str:
        """Return the title: the tablet's name."""
        row = self.page.tablets.row
        return (row.name or say("Tablet")) if row else say("Tablet")

    def fill(self, view: ExchangeView) -> None:
        """Show what may be done with it."""
        row = self.page.tablets.row
        why = str(self.page.draft.get("why", ""))
        self.reasons.chosen = why
        self.hold.disabled = not why or bool(view.read_only)
        self.hold.note = "" if why else say("first say why")
        self.words.show_texts(tablet_words(row))
        wanted: list[Any] = [self.words]
        if row is not None and row.is_off:
            wanted += [self.again]
        elif row is not None and not row.is_own:
            wanted += [self.reasons, self.hold]
        if self.children[::-1] != wanted:
            self.clear_widgets()
            for part in wanted:
                self.add_widget(part)

    def _reason(self, why: str) -> None:
        self.page.keep_draft(why=why)
        self.fill(self.page.view)


def tablet_words(row: TabletRow | None) -> tuple[str, ...]:
    """Say what taking a tablet off the list does, or how it stands."""
    if row is None:
        return (say("This tablet is not on the list."),)
    if row.is_own:
        return (
            row.code,
            row.detail,
            say("It is this very tablet. Another one could take it off the list."),
        )
    if row.is_off:
        return (
            row.code,
            row.detail,
            say("What it wrote before stays. What it wrote after stays out."),
        )
    text = say(
        "Taken off, it can write to this job no more. What is here of it stays; what comes later "
        "is kept out until it is let in again."
    )
    return (row.code, row.detail, text)


def tablet_row(row: TabletRow) -> dict[str, Any]:
    """Return a tablet as a row of the list."""
    name = row.name or (say("this tablet") if row.is_own else say("no name"))
    return {
        "key": row.code,
        "title": f"{name}: {row.detail}",
        "detail": row.code,
        "status": Status.OUT if row.is_off else Status.OK,
    }
