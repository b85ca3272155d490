"""Settings: whose tablet it is, its language and units, the hand, the true size of a millimetre."""

from __future__ import annotations

from dataclasses import replace
from typing import Any, ClassVar

from kivy.metrics import Metrics
from kivy.uix.widget import Widget

from crewapp.device import set_true_dpi
from crewapp.palette import Kind
from crewapp.screens.page import ScreenPage
from crewapp.tablet import Settings
from crewapp.widgets.card_gauge import CardGauge
from crewapp.widgets.choice_row import ChoiceRow
from crewapp.widgets.layout import Rows, SectionRule, Turning
from crewapp.widgets.text_area import TextArea
from crewapp.widgets.touchable import TapKey
from crewapp.wording import LANGUAGES, say, set_language


class SettingsPage(ScreenPage):
    """What is set on this tablet; none of it is part of any record."""

    name: ClassVar[str] = "settings"
    face: ClassVar[str] = ""

    def build(self) -> None:
        """Make the fields."""
        self.head.title = say("Settings")
        back = TapKey(text=say("Back"), kind=Kind.QUIET, wide_mm=24.0)
        back.bind(on_release=lambda _: self.shell.go("today"))
        self.head.tools.add_widget(back)
        left, right = Rows(), Rows()
        self.author = self._area(left, say("Your name, as entries carry it"), "author")
        self.tablet_name = self._area(left, say("Name of this tablet"), "tablet_name")
        left.add_widget(Widget())
        self.language = ChoiceRow(list(LANGUAGES.items()))
        self.language.bind(on_pick=lambda _, code: self._reword(code))
        self.units = ChoiceRow([("us", say("feet and inches")), ("metric", say("metres"))])
        self.units.bind(on_pick=lambda _, name: self._set(unit_system=name))
        self.hand = ChoiceRow([("right", say("tabs left")), ("left", say("tabs right"))])
        self.hand.bind(on_pick=lambda _, name: self._turn_hand(name == "left"))
        for words, row in (
            (say("Language"), self.language),
            (say("Units of a new job"), self.units),
            (say("Which hand is free"), self.hand),
        ):
            right.add_widget(SectionRule(text=words))
            right.add_widget(row)
        right.add_widget(Widget())
        self.size_key = TapKey(text=say("True size of the keys"), note=say("with a bank card"))
        self.size_key.bind(on_release=lambda _: self._measure())
        right.add_widget(self.size_key)
        self.add_widget(Turning(left, right))

    def _area(self, rows: Rows, words: str, field: str) -> TextArea:
        rows.add_widget(SectionRule(text=words))
        area = TextArea(high_mm=15.0, multiline=False)
        area.bind(text=lambda _, text: self._set(**{field: text.strip()}))
        rows.add_widget(area)
        return area

    def refresh(self) -> None:
        """Show the settings as they are kept."""
        kept = self.shell.tablet.settings()
        self.show(kept)

    def show(self, face: Settings) -> None:
        """Fill the fields."""
        self.author.text, self.tablet_name.text = face.author, face.tablet_name
        self.language.chosen, self.units.chosen = face.language, face.unit_system
        self.hand.chosen = "left" if face.left_handed else "right"

    def _set(self, **changed: Any) -> None:
        tablet = self.shell.tablet
        before = tablet.settings()
        after = replace(before, **changed)
        if after != before:
            tablet.keep_settings(after)
            self.shell.desk.set_author(after.author)
            self.show(after)

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
        self.clear_widgets()
        self.add_widget(self.head)
        self.add_widget(gauge)

    def _fit(self, dpi: float) -> None:
        kept = self.shell.tablet.settings()
        factor = round(kept.screen_factor_permille * dpi / Metrics.dpi)
        self._set(screen_factor_permille=min(max(factor, 300), 3000))
        set_true_dpi(dpi)
        self.shell.reword()
