"""The first part of the Exchange screen: how it stands, and the one large key."""

from __future__ import annotations

from typing import Any, ClassVar

from crewapp.kit.input.break_words import fold_long_words
from crewapp.kit.keys.key_pages import KeyPages
from crewapp.kit.keys.touchable import MainKey, TapKey
from crewapp.kit.lists.fact_list import Fact
from crewapp.kit.lists.text_list import FactList
from crewapp.kit.look.palette import ButtonKind, Status
from crewapp.kit.look.theme import px
from crewapp.kit.marks.progress_bar import WorkProgressBar
from crewapp.kit.panes.layout import Rows
from crewapp.pages.exchange.store_fields import store_text
from crewapp.pages.exchange.view import ExchangeView, TransferResult
from crewapp.pages.frame.parted_page import Part, PartPanes
from crewapp.words.translate import say, translate_later

BAR_HIGH_MM = 20.0
TITLES = {
    "cut": translate_later("Cut short"),
    "stopped": translate_later("Stopped"),
    "refused": translate_later("Not exchanged"),
}


class HomePart(Part):
    """Part with the status of the exchange, and the key that exchanges and stops."""

    needs_mm = (50.0, 88.0)

    def build(self) -> None:
        """Make the facts, the bar and the keys."""
        self.told = FactList()
        self.bar = WorkProgressBar(size_hint_y=None, height=px(BAR_HIGH_MM))
        self.left = Rows()
        self.left.add_widget(self.told)
        self.main = MainKey(text="", is_logging=False)
        self.main.second.lines = 2
        self.main.bind(on_release=lambda _: self.page.main())
        self.keys = {
            name: self._key(text, note, act)
            for name, text, note, act in (
                ("where", say("Where to"), "", lambda: self.page.turn_to("where")),
                ("tablets", say("Tablets"), "", lambda: self.page.turn_to("tablets")),
                ("hand", say("Hand over"), say("one file"), self._to_hand),
                ("join", say("Join a job"), "", lambda: self.page.turn_to("join")),
                ("aside", say("Not let in"), "", lambda: self.page.turn_to("aside")),
            )
        }
        self.grid = KeyPages(least_wide_mm=26.0, most_high_mm=18.0)
        side = Rows()
        side.add_widget(self.main)
        side.add_widget(self.grid)
        self.add_widget(PartPanes(self.left, side, share=0.54, high_share=0.46))

    def _to_hand(self) -> None:
        self.page.turn_to("hand", hand_day="")

    @staticmethod
    def _key(text: str, note: str, act: Any) -> TapKey:
        key = TapKey(text=text, note=note, cap_mm=3.8)
        key.bind(on_release=lambda _: act())
        return key

    def title(self, view: ExchangeView) -> str:
        """Return the title of this page."""
        return say("Exchange")

    def place(self, view: ExchangeView) -> str:
        """Return the job's name, for the head."""
        return view.job

    def fill(self, view: ExchangeView) -> None:
        """Show how things stand."""
        self.told.show_facts([*result_facts(self.page.runner.ended), *status_facts(view)])
        shown = ["where", "tablets", "hand", "join", *(["aside"] if view.aside else [])]
        self.keys["tablets"].note = str(sum(not one.is_off for one in view.tablets) or "")
        self.keys["aside"].note = str(len(view.aside))
        keys = [self.keys[name] for name in shown]
        if keys != self.grid.keys:
            self.grid.show_keys(keys)
        self.follow()

    def follow(self) -> None:
        """Show how far the exchange is; the same key stops it."""
        runner, view = self.page.runner, self.page.view
        if runner.is_busy != (self.bar.parent is self.left):
            if runner.is_busy:
                self.left.add_widget(self.bar, index=len(self.left.children))
            else:
                self.left.remove_widget(self.bar)
        self.bar.text, self.bar.share = runner.words, runner.share
        if runner.is_busy:
            self.main.text, self.main.note = say("Stop"), say("work goes on meanwhile")
        elif not view.where:
            self.main.text, self.main.note = say("Say where to"), say("a stick, a share, a server")
        else:
            self.main.text, self.main.note = say("Exchange now"), ""
        self.main.disabled = bool(view.read_only)


class RejectedPart(Part):
    """Part with rejected entries: whose, why, and what would let them in."""

    back: ClassVar[str] = "home"

    def build(self) -> None:
        """Make the list, and the key that lets entries in over a gap."""
        self.told = FactList()
        self.told.nothing = say("All that came was let in.")
        self.gap = TapKey(text=say("Let in without those before"), kind=ButtonKind.QUIET)
        self.gap.bind(on_release=lambda _: self.page.exchange(over_gaps=True))
        self.add_widget(self.told)

    def title(self, view: ExchangeView) -> str:
        """Return the title of this part."""
        return say("Not let in")

    def place(self, view: ExchangeView) -> str:
        """Say that it stays out of the book."""
        return say("kept, and not in the book")

    def fill(self, view: ExchangeView) -> None:
        """Show each with its reason."""
        self.told.show_facts(
            [
                Fact(row.title, row.why, status=Status.CHECK if row.is_waiting else Status.OUT)
                for row in view.aside
            ]
        )
        shows = view.has_gap and bool(view.where)
        if shows != (self.gap.parent is self):
            (self.add_widget if shows else self.remove_widget)(self.gap)


def result_facts(ended: TransferResult | None) -> list[Fact]:
    """Return the result of the last transfer as a fact with its state."""
    if ended is None or ended.kind in ("less", "host", "found", "made") or not ended.sentences:
        return []
    if ended.kind not in ("whole", "joined"):
        title = say(TITLES.get(ended.kind, TITLES["refused"]))
        return [Fact(title, fold_long_words("\n".join(ended.sentences)), status=Status.CHECK)]
    first, *rest = ended.sentences
    if ended.came_from:
        rest.insert(0, say("from {who}", who=", ".join(ended.came_from)))
    return [Fact(first, fold_long_words("\n".join(rest)), status=Status.OK)]


def status_facts(view: ExchangeView) -> list[Fact]:
    """Return the status of the exchange as facts: what needs a person first."""
    facts = [*_unknown_to_others(view)]
    if view.read_only:
        facts.append(Fact(say("Read only"), view.read_only, status=Status.CHECK))
    waiting = [counted_entries(view.unsent_entries)]
    if view.unsent_pictures:
        waiting.append(say("{count:picture|pictures}", count=view.unsent_pictures))
    facts.append(Fact(say("Waiting to go"), figure="\n".join(waiting)))
    last = view.last or say("never")
    facts.append(Fact(say("Last exchanged"), figure=last))
    if view.where:
        facts.append(Fact(say("Where to"), fold_long_words(store_text(view.where))))
    return facts


def counted_entries(count: int) -> str:
    """Write a number of entries in words."""
    return say("{count:entry|entries}", count=count)


def _unknown_to_others(view: ExchangeView) -> list[Fact]:
    if view.may_write:
        return []
    if view.is_renewed:
        text = say(
            "It was put back from a backup, or copied, and writes as {code} from now on. It tells "
            "the others by itself at the next exchange. Nothing is lost.",
            code=view.own_code,
        )
        return [Fact(say("This tablet has a new code"), text, status=Status.CHECK)]
    text = say(
        "Others take in what it writes once one of them adds its code, {code}, under Tablets. "
        "Until then it waits; nothing is lost.",
        code=view.own_code,
    )
    return [Fact(say("This tablet is not on the job's list yet"), text, status=Status.CHECK)]
