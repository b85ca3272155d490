"""The number pad over the whole window, for one field of a page."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from crewapp.kit.input.key_grammar import KeyKind
from crewapp.kit.input.keypad_value import FieldSpec, KeypadState
from crewapp.kit.keys.ending_keypad import EndingKeypad
from crewapp.kit.keys.keypad import Keypad
from crewapp.kit.keys.letter_keypad import LetterKeypad
from crewapp.kit.keys.touchable import buzz
from crewapp.kit.look.palette import EDGE_MM
from crewapp.kit.look.theme import px
from crewapp.kit.panes.cover_sheet import CoverSheet


@dataclass(frozen=True, slots=True)
class PadQuestion:
    """Request for a figure: the field, where it belongs, and how Enter may end.

    ``endings`` are (name, words) of the keys in place of Enter, ``asks`` what
    they answer.
    """

    spec: FieldSpec
    place: str = ""
    endings: Sequence[tuple[str, str]] = ()
    asks: str = ""


class PadSheet(CoverSheet):
    """A white sheet with the pad on it; touches don't fall through it.

    Events: ``on_typed(text)`` after every key; ``on_figure(value, text, ending)``;
    ``on_leave``.
    """

    def __init__(self, asked: PadQuestion, typed: str = "", **kwargs: Any) -> None:
        for event in ("on_typed", "on_figure", "on_leave"):
            self.register_event_type(event)
        super().__init__(**kwargs)
        self.pad = self._pad_for(asked, KeypadState.resume(asked.spec, typed))
        self.pad.place = asked.place
        self.pad.bind(
            on_change=lambda _, after: self.dispatch("on_typed", after.typed),
            on_enter=self._entered,
            on_leave=lambda _: self.dispatch("on_leave"),
            on_refused=lambda *_: buzz(),
        )
        self.add_widget(self.pad)
        self.bind(pos=self._place, size=self._place)
        self._place()

    def _pad_for(self, asked: PadQuestion, state: KeypadState) -> Keypad:
        """Make the pad that the sheet holds."""
        if asked.endings:
            return EndingKeypad(state, asked.endings, asked.asks, size_hint=(None, None))
        pad = LetterKeypad if asked.spec.grammar.kind is KeyKind.NAME else Keypad
        return pad(state, size_hint=(None, None))

    def on_typed(self, text: str) -> None:
        """Event: a key was taken or refused; the text as it stands."""

    def on_figure(self, value: int, text: str, ending: str) -> None:
        """Event: a figure was accepted."""

    def on_leave(self) -> None:
        """Event: the pad was closed without a figure."""

    def _entered(self, pad: Any, value: int, text: str) -> None:
        self.dispatch("on_figure", value, text, getattr(pad, "ending", ""))

    def _place(self, *_: object) -> None:
        margin = px(EDGE_MM)
        self.paint_page()
        self.pad.pos = (self.x + margin, self.y + margin)
        self.pad.size = (self.width - 2 * margin, self.height - 2 * margin)


def lay_over(shell: Any, sheet: PadSheet) -> None:
    """Lay a sheet over everything in the shell, as large as it is."""

    def follow(*_: object) -> None:
        sheet.pos, sheet.size = shell.pos, shell.size

    sheet.size_hint = (None, None)
    shell.bind(pos=follow, size=follow)
    follow()
    shell.add_widget(sheet)
