"""A field with its name: beside it where there is room, above it where there is not."""

from __future__ import annotations

from typing import Any

from kivy.uix.boxlayout import BoxLayout
from kivy.uix.widget import Widget

from crewapp.kit.look.palette import TOUCH_MM
from crewapp.kit.look.theme import px
from crewapp.kit.panes.layout import SectionRule
from crewapp.kit.text.label import TextLabel

BESIDE_FROM_MM = 95.0
NAME_MM, GAP_MM = 36.0, 1.0


class LabelledField(BoxLayout):
    """``text`` names the ``field``, which is 15 mm high."""

    def __init__(self, text: str, field: Widget, **kwargs: Any) -> None:
        super().__init__(spacing=px(GAP_MM), size_hint_y=None, height=px(TOUCH_MM), **kwargs)
        self.field = field
        self.above = SectionRule(text=text)
        self.beside = TextLabel(
            text=text, bold=True, lines=3, size_hint=(None, None), size=(px(NAME_MM), px(TOUCH_MM))
        )
        self.add_widget(self.above)
        self.add_widget(field)
        self.orientation = "vertical"
        self.bind(width=self._turn)
        self._turn()

    def _turn(self, *_: object) -> None:
        """Put the name where there is room for it."""
        is_beside = self.width >= px(BESIDE_FROM_MM)
        name = self.beside if is_beside else self.above
        if name.parent is not self:
            self.remove_widget(self.above if is_beside else self.beside)
            self.add_widget(name, index=len(self.children))
        self.orientation = "horizontal" if is_beside else "vertical"
        self.height = px(TOUCH_MM) + (0 if is_beside else self.above.height + px(GAP_MM))
