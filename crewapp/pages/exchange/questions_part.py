"""The two questions that an exchange may ask: less than last time, and a server not known."""

from __future__ import annotations

from typing import ClassVar

from crewapp.kit.input.break_words import fold_long_words
from crewapp.kit.keys.key_grid import KeyGrid
from crewapp.kit.keys.touchable import TapKey
from crewapp.kit.look.palette import ButtonKind
from crewapp.kit.text.text_stack import TextStack
from crewapp.pages.exchange.store_fields import store_text
from crewapp.pages.exchange.view import ExchangeView
from crewapp.pages.frame.parted_page import Part
from crewapp.words.translate import say

GROUP = 4


class ShrunkStorePart(Part):
    """The store holds less than last time: two keys, and nothing was done yet."""

    back: ClassVar[str] = "home"
    needs_mm = (60.0, 72.0)

    def build(self) -> None:
        """Make the words and the two keys."""
        self.words = TextStack()
        self.look = TapKey(
            text=say("Do nothing, look first"), kind=ButtonKind.PRIMARY, high_mm=22.0
        )
        self.look.bind(on_release=lambda _: self.page.turn_to("home"))
        self.go_on = TapKey(text=say("Less is right: exchange"), high_mm=22.0)
        self.go_on.bind(on_release=lambda _: self.page.exchange(allow_less=True))
        self.add_widget(self.words)
        self.add_widget(KeyGrid((self.look, self.go_on), least_wide_mm=40.0, high_mm=22.0))

    def title(self, view: ExchangeView) -> str:
        """Return the title: the question of this part."""
        return say("Less than last time")

    def fill(self, view: ExchangeView) -> None:
        """Say what is missing and where."""
        ended = self.page.runner.ended
        told = ended.sentences if ended is not None else ()
        self.words.show_texts((fold_long_words(store_text(view.where)), *told))


class HostPart(Part):
    """A server that nobody accepted on this tablet yet: its fingerprint, and two keys."""

    back: ClassVar[str] = "home"
    needs_mm = (60.0, 72.0)

    def build(self) -> None:
        """Make the words and the two keys."""
        self.words = TextStack()
        self.stop = TapKey(text=say("Do nothing"), kind=ButtonKind.PRIMARY, high_mm=22.0)
        self.stop.bind(on_release=lambda _: self.page.turn_to("home"))
        self.same = TapKey(text=say("It is the same: accept"), high_mm=22.0)
        self.same.bind(on_release=lambda _: self.page.accept_host())
        self.add_widget(self.words)
        self.add_widget(KeyGrid((self.stop, self.same), least_wide_mm=40.0, high_mm=22.0))

    def title(self, view: ExchangeView) -> str:
        """Return the title: the question of this part."""
        return say("Is this the right server?")

    def fill(self, view: ExchangeView) -> None:
        """Show the server and its fingerprint, in groups to be read out."""
        ended = self.page.runner.ended
        if ended is None or ended.kind != "host":
            return
        why = say(
            "Nobody has accepted it on this tablet yet. Ask whoever keeps it for its fingerprint "
            "and compare. Nothing was sent. It is asked once."
        )
        host, fingerprint = ended.sentences
        self.words.show_texts((fold_long_words(host), fingerprint_groups(fingerprint), why))


def fingerprint_groups(fingerprint: str) -> str:
    """A fingerprint in groups of four, behind the name of its kind."""
    kind, _, figures = fingerprint.rpartition(":")
    groups = [figures[at : at + GROUP] for at in range(0, len(figures), GROUP)]
    return " ".join([f"{kind}:" if kind else "", *groups]).strip()
