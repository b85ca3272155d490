"""The ring test while it runs: the clock, the readings with their rates, a tap at the moment."""

from __future__ import annotations

import time
from typing import Any, ClassVar

from kivy.clock import Clock

from crewapp.kit.input.list_rows import shorten
from crewapp.kit.keys.key_grid import KeyGrid
from crewapp.kit.keys.touchable import MainKey, TapKey
from crewapp.kit.lists.fact_list import Fact
from crewapp.kit.lists.text_list import FactList
from crewapp.kit.look.palette import ButtonKind
from crewapp.pages.after_rain.ring_forms import (
    FILLED_UP,
    TimedLevel,
    level_field,
    result_of,
    show_rate,
    show_run,
)
from crewapp.pages.after_rain.view import AfterRainView
from crewapp.pages.frame.parted_page import Part, PartPanes, Stack
from crewapp.words.translate import say
from models.units.job_units import Figures

CLOCK_MM, READ_MM = 7.0, 22.0


class RingPart(Part):
    """The clock and the keys at one side, the readings at the other."""

    back: ClassVar[str] = "home"

    def build(self) -> None:
        """Make the clock, the readings and the keys."""
        self.base_ms, self.based = 0, 0.0
        self.read = MainKey(text="", is_logging=False, cap_mm=CLOCK_MM, high_mm=READ_MM)
        self.read.bind(on_release=lambda _: self.page.tap_reading(self.now_ms()))
        self.up = self._key(say("Filled up"), lambda: self.page.ask(FILLED_UP))
        self.drop = self._key(say("Last one wrong"), lambda: self.page.drop_reading())
        self.setting = self._key(say("The ring"), lambda: self.page.filling.begin("ring"))
        self.ink = TapKey(text=say("Ink the test"), kind=ButtonKind.PRIMARY)
        self.ink.bind(on_release=lambda _: self.page.ink_ring())
        self.list = FactList()
        side = Stack()
        keys = KeyGrid((self.up, self.drop, self.setting), least_wide_mm=20.0)
        for part in (self.read, keys, self.ink):
            side.add_widget(part)
        self.add_widget(PartPanes(side, self.list, share=0.57, high_share=0.66))
        self._tick = Clock.schedule_interval(lambda _: self._show_clock(), 0.5)

    @staticmethod
    def _key(text: str, act: Any) -> TapKey:
        key = TapKey(text=text, cap_mm=3.6)
        key.bind(on_release=lambda _: act())
        return key

    def now_ms(self) -> int:
        """Return the clock's time: as last read, and what went by since."""
        return self.base_ms + int((time.monotonic() - self.based) * 1000)

    def title(self, view: AfterRainView) -> str:
        """Return the title of this part."""
        return say("Ring test")

    def place(self, view: AfterRainView) -> str:
        """Say where the ring is."""
        return shorten(str(self.page.filling.answers_of("ring").get("spot", "")), 30)

    def fill(self, view: AfterRainView) -> None:
        """Show the readings so far."""
        if view.now_ms != self.base_ms:
            self.base_ms, self.based = view.now_ms, time.monotonic()
        readings = self.page.ring_readings
        pending = self.page.ring_pending
        result, why_not = result_of(readings)
        self.list.nothing = say(
            "Fill the ring. Tap at the moment you read the level: the clock starts with the first."
        )
        self.list.show_facts(reading_facts(readings, view.figures, why_not))
        self.up.disabled = not readings or pending is not None
        self.drop.disabled = not readings and pending is None
        self.drop.text = say("Last one wrong") if pending is None else say("Not read")
        self.ink.disabled = len(readings) < 2 or pending is not None
        self.ink.note = ""
        if result is not None:
            self.ink.note = show_rate(result.rate_nm_per_h, view.figures)
        self._show_clock()

    def _show_clock(self) -> None:
        """Show the time that runs on the key, or the one that waits for its level."""
        began, pending = self.page.ring_began_ms, self.page.ring_pending
        if pending is not None:
            self.read.text, self.read.note = show_run(pending), say("type this level")
        else:
            run_s = 0 if began is None else (self.now_ms() - began) // 1000
            self.read.text, self.read.note = show_run(run_s), say("Read now")


def reading_facts(readings: list[TimedLevel], figures: Figures, why_not: str) -> list[Fact]:
    """Return the readings as facts, the newest first, each with the rate since the one before."""
    result, _ = result_of(readings)
    show = level_field(figures, "").show
    facts = [Fact(why_not, status="check")] if why_not else []
    for number in range(len(readings) - 1, -1, -1):
        reading = readings[number]
        title = say("{time}  {level}", time=show_run(reading.after_s), level=show(reading.level_nm))
        detail = ""
        if reading.up_nm is not None:
            detail = say("then filled up to {level}", level=show(reading.up_nm))
        rate = ""
        if result is not None and number:
            rate = show_rate(result.intervals[number - 1].rate_nm_per_h, figures)
        facts.append(Fact(title, detail, rate))
    return facts
