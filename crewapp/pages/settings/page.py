"""Settings page: owner's name, language, units, left or right, size of a millimetre."""

from __future__ import annotations

from dataclasses import replace
from typing import Any, ClassVar

from kivy.metrics import Metrics
from kivy.uix.widget import Widget

from crewapp.device.ports import set_true_dpi
from crewapp.kit.keys.choice_row import ChoiceRow
from crewapp.kit.keys.key_grid import KeyGrid
from crewapp.kit.keys.touchable import TapKey
from crewapp.kit.look.palette import ButtonKind
from crewapp.kit.marks.card_gauge import CardGauge
from crewapp.kit.panes.labelled_field import LabelledField
from crewapp.kit.panes.layout import Rows, TwoPanes
from crewapp.kit.text.text_area import TextArea
from crewapp.pages.frame.screen_page import ScreenPage
from crewapp.tablet.settings import NotSavedError, Settings
from crewapp.words.translate import LANGUAGES, say, set_language

LEAST_PERMILLE, MOST_PERMILLE = 300, 3000
LONGEST_NAME = 40


class SettingsPage(ScreenPage):
    """Page of the tablet's settings; none of it is part of any record."""

    name: ClassVar[str] = "settings"
    view: ClassVar[str] = ""
    keeps_room: ClassVar[bool] = False

    def build(self) -> None:
        """Build the fields of the settings."""
        self.head.title = say("Settings")
        first, second = self._whose(), self._how()
        self.fields = TwoPanes(first, second, high_share=0.0)
        self.add_widget(self.fields)
        self.gauge: TwoPanes | None = None

    def _whose(self) -> Rows:
        rows = Rows()
        self.author = self._area("author")
        self.tablet_name = self._area("tablet_name")
        self.size_key = TapKey(text=say("True size of the keys"))
        self.size_key.bind(on_release=lambda _: self._measure())
        self.exchange = TapKey(text=say("Exchange"), note=say("with others"))
        self.exchange.bind(on_release=lambda _: self.shell.go("sync", part="home"))
        rows.add_widget(LabelledField(say("Your name, as entries carry it"), self.author))
        rows.add_widget(LabelledField(say("Name of this tablet"), self.tablet_name))
        rows.add_widget(KeyGrid((self.exchange, self.size_key), least_wide_mm=26.0))
        rows.add_widget(Widget())
        return rows

    def _how(self) -> Rows:
        rows = Rows()
        self.language = ChoiceRow(list(LANGUAGES.items()))
        self.language.bind(on_pick=lambda _, code: self._reword(code))
        self.units = ChoiceRow([("us", say("feet and inches")), ("metric", say("metres"))])
        self.units.bind(on_pick=lambda _, name: self._set(unit_system=name))
        self.hand = ChoiceRow([("right", say("right hand")), ("left", say("left hand"))])
        self.hand.bind(on_pick=lambda _, name: self._turn_hand(name == "left"))
        rows.add_widget(LabelledField(say("Language"), self.language))
        rows.add_widget(LabelledField(say("Units of a new job"), self.units))
        rows.add_widget(LabelledField(say("Hand that taps"), self.hand))
        rows.add_widget(Widget())
        return rows

    def _area(self, field: str) -> TextArea:
        area = TextArea(high_mm=15.0, multiline=False, longest=LONGEST_NAME)
        area.bind(text=lambda _, text: self._set(**{field: text.strip()}))
        return area

    def refresh(self) -> None:
        """Show the settings as they are kept."""
        self._lift_gauge()
        self.show(self.shell.tablet.settings())

    def show(self, view: Settings) -> None:
        """Fill the fields; a name is left as it is being typed."""
        for area, kept in ((self.author, view.author), (self.tablet_name, view.tablet_name)):
            if area.text.strip() != kept:
                area.text = kept
        self.language.chosen, self.units.chosen = view.language, view.unit_system
        self.hand.chosen = "left" if view.left_handed else "right"

    def _set(self, **changed: Any) -> bool:
        """Keep a setting; tell whether it is kept."""
        tablet = self.shell.tablet
        before = tablet.settings()
        after = replace(before, **changed)
        if after == before:
            return True
        try:
            tablet.keep_settings(after)
        except NotSavedError as fault:
            self.shell.say_failed(str(fault))
            return False
        self.shell.worker.set_author(after.author)
        self.show(after)
        return True

    def _reword(self, code: str) -> None:
        self._set(language=code)
        set_language(code)
        self.shell.reword()

    def _turn_hand(self, is_left: bool) -> None:
        self._set(left_handed=is_left)
        self.shell.arrange()

    def _measure(self) -> None:
        """Lay a bank card on the glass, and make the outline fit it."""
        gauge = CardGauge()
        gauge.bind(on_measured=lambda _, dpi: self._fit(dpi))
        back = TapKey(text=say("Back"), kind=ButtonKind.QUIET)
        back.bind(on_release=lambda _: self.refresh())
        beside = Rows()
        beside.add_widget(Widget())
        beside.add_widget(back)
        self.gauge = TwoPanes(gauge, beside, share=0.8, high_share=0.82)
        for part in (self.head, self.fields):
            self.remove_widget(part)
        self.add_widget(self.gauge)

    def _lift_gauge(self) -> None:
        if self.gauge is not None:
            self.remove_widget(self.gauge)
            self.gauge = None
            self.add_widget(self.head)
            self.add_widget(self.fields)

    def _fit(self, dpi: float) -> None:
        """Draw every millimetre true from now on."""
        kept = self.shell.tablet.settings()
        factor = round(kept.screen_factor_permille * dpi / Metrics.dpi)
        factor = min(max(factor, LEAST_PERMILLE), MOST_PERMILLE)
        self._lift_gauge()
        self._set(screen_factor_permille=factor)
        set_true_dpi(dpi)
        self.shell.reword()
