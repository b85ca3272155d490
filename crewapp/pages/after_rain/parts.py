"""Parts of the After the rain screen: its keys, a look at the ground, the rains, ties, sand."""

from __future__ import annotations

from typing import Any, ClassVar

from kivy.core.window import Window

from crewapp.kit.input.forms import value_of
from crewapp.kit.input.list_rows import DayRow, shorten
from crewapp.kit.keys.key_grid import KeyGrid
from crewapp.kit.keys.key_pages import KeyPages
from crewapp.kit.keys.touchable import MainKey, TapKey
from crewapp.kit.lists.fact_list import Fact
from crewapp.kit.lists.text_list import FactList
from crewapp.kit.look.palette import KEY_MM, ButtonKind
from crewapp.pages.after_rain.forms import surface_of
from crewapp.pages.after_rain.view import AfterRainView
from crewapp.pages.day.forms.menu import MenuKey
from crewapp.pages.frame.parted_page import Part
from crewapp.words.translate import say, translate_later
from models.units import show_time_of_day

SEEN = {
    "standing_water": translate_later("Water stands"),
    "clear": translate_later("No water stands"),
    "playable": translate_later("Fit to play on"),
}
PLACE_MM, THREE_MM, UPRIGHT_MM = 26.0, 40.0, 70.0


class KeysPart(Part):
    """A part of keys that lead on; a subclass says which in ``keys_of``."""

    needs_mm = (33.0, 33.0)

    def build(self) -> None:
        """Make the grid of keys."""
        self.keys = KeyPages(least_wide_mm=36.0, most_high_mm=34.0)
        self.shown: tuple[MenuKey, ...] = ()
        self.lay_out()

    def lay_out(self) -> None:
        """Put the keys into the part."""
        self.add_widget(self.keys)

    def keys_of(self, view: AfterRainView) -> tuple[MenuKey, ...]:
        """Return the keys that lead on."""
        raise NotImplementedError

    def fill(self, view: AfterRainView) -> None:
        """Show what stands under each key."""
        keys = self.keys_of(view)
        if keys != self.shown:
            self.shown = keys
            self.keys.show_keys([self._key(key, view) for key in keys])

    def _key(self, key: MenuKey, view: AfterRainView) -> Any:
        kind = ButtonKind.PRIMARY if key.is_next else ButtonKind.PLAIN
        made = TapKey(text=key.text, note=key.note, kind=kind, cap_mm=4.4)
        made.second.lines = 2
        made.disabled = view.is_closed and key.is_form
        made.bind(on_release=lambda _: self.go(key))
        return made

    def go(self, key: MenuKey) -> None:
        """Begin the key's form, or turn to its part."""
        if key.is_form:
            self.page.filling.begin(key.leads_to)
        else:
            self.page.turn_to(key.leads_to)


class HomePart(KeysPart):
    """Rain and the ground after it, tests, top-ups and repairs."""

    back: ClassVar[str] = "day"

    def keys_of(self, view: AfterRainView) -> tuple[MenuKey, ...]:
        """Return the keys with how many of each are written."""
        runs = say("the clock runs") if self.page.ring_began_ms is not None else ""
        ring = "ring" if runs else "ring_form"
        return (
            MenuKey("rain", say("Rain"), _counted(view, "rain"), True),
            MenuKey("looks", say("How it looks"), _counted(view, "surface_seen")),
            MenuKey(ring, say("Ring test"), runs or _counted(view, "infiltration_test"), False,
                    bool(runs)),
            MenuKey("top_up", say("Sand topped up"), _counted(view, "sand_top_up"), True),
            MenuKey("repair", say("Repair or flush"), _counted(view, "repair"), True),
            MenuKey("rains", say("How it cleared"), say("against the estimate")),
        )  # fmt: skip

    def title(self, view: AfterRainView) -> str:
        """Return the title of this page."""
        return say("After the rain")

    def go(self, key: MenuKey) -> None:
        """Begin a look or a ring test by its own way."""
        if key.leads_to == "looks":
            self.page.begin_look()
        elif key.leads_to == "ring_form":
            self.page.filling.begin("ring")
        else:
            super().go(key)


def _counted(view: AfterRainView, kind: str) -> str:
    count = view.counts.get(kind, 0)
    return str(count) if count else say("none")


class GroundLookPart(Part):
    """Three large keys: how the ground is now, or was at a time typed."""

    back: ClassVar[str] = "home"

    def build(self) -> None:
        """Make the keys for the place and the time, and the three that ink."""
        self.surface = self._ask("surface")
        self.plot = self._ask("plot")
        self.at = self._ask("at")
        self.place_keys = KeyGrid(
            (self.surface, self.plot, self.at), least_wide_mm=30.0, high_mm=PLACE_MM
        )
        self.three = {name: self._seen(name) for name in SEEN}
        self.keys = KeyPages(least_wide_mm=THREE_MM, least_high_mm=KEY_MM, most_high_mm=40.0)
        self.keys.show_keys(list(self.three.values()))
        self.add_widget(self.place_keys)
        self.add_widget(self.keys)

    def _ask(self, field: str) -> TapKey:
        key = TapKey(text="", cap_mm=3.8)
        key.words.lines = 3
        key.bind(on_release=lambda _: self._go(field))
        return key

    def _go(self, field: str) -> None:
        filling = self.page.filling
        if field == "at":
            filling.ask("at")
        else:
            self.page.turn_to("form", form="seen", at=field, writing=False)

    def _seen(self, condition: str) -> MainKey:
        key = MainKey(text=say(SEEN[condition]), kind=ButtonKind.PLAIN, size_hint_y=1)
        key.bind(on_release=lambda _: self.page.ink_condition(condition))
        return key

    def title(self, view: AfterRainView) -> str:
        """Return the title: the question of this part."""
        return say("How does it look?")

    def fill(self, view: AfterRainView) -> None:
        """Show the place and the time that a tap will ink."""
        # Upright, the three stand under each other: a wet glove finds them by place.
        self.keys.least_wide_mm = THREE_MM if Window.width >= Window.height else UPRIGHT_MM
        answers = self.page.filling.answers_of("seen")
        name = surface_of(answers, view)
        self.surface.text, self.surface.note = view.surface_text(name) or "\u2013", say("Surface")
        self.plot.text = shorten(str(answers.get("plot") or say("all of it")), 32)
        self.plot.note = say("Part of it")
        minutes = value_of(answers, "at")
        is_us = view.figures.is_us
        at = say("Now") if minutes is None else show_time_of_day(minutes, halves=is_us)
        self.at.text, self.at.note = at, say("Seen at")
        for key in self.three.values():
            key.disabled = view.is_closed or not name
            key.note = "" if minutes is None else say("at {time}", time=at)


class RainsPart(Part):
    """Every rain with how the ground cleared, and every ring test with its arithmetic."""

    back: ClassVar[str] = "home"

    def build(self) -> None:
        """Build the list of this part."""
        self.list = FactList()
        self.list.nothing = say("No rain and no ring test is written down yet.")
        self.add_widget(self.list)

    def title(self, view: AfterRainView) -> str:
        """Return the title of this part."""
        return say("How it cleared")

    def place(self, view: AfterRainView) -> str:
        """Say what the figures are."""
        return say("seen against an estimate")

    def fill(self, view: AfterRainView) -> None:
        """Show the rains and ring tests."""
        self.list.show_facts(facts_of(view.rains))


def facts_of(rows: tuple[DayRow, ...]) -> list[Fact]:
    """Return rows of a view as facts to read."""
    return [Fact(row.title, row.detail, row.figure, row.status) for row in rows]
