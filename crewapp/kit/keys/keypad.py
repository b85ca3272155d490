"""The number pad: a page of its own, for one field, made for the field's unit."""

from __future__ import annotations

from typing import Any

from kivy.clock import Clock
from kivy.core.window import Window
from kivy.properties import ObjectProperty, StringProperty

from crewapp.kit.input.key_grammar import BACK, CLEAR
from crewapp.kit.input.keypad_value import KeypadState
from crewapp.kit.input.plausible import Offer
from crewapp.kit.keys.key_layout import Places, tall_places, wide_places
from crewapp.kit.keys.pointer import fingers_down
from crewapp.kit.keys.touchable import Key, Touchable
from crewapp.kit.look.paint import DrawnWidget, box, fill
from crewapp.kit.look.palette import BOUNCE_MS, CAP_VALUE_MM, KEY_MM, PAGE, ButtonKind
from crewapp.kit.look.theme import px, to_mm
from crewapp.kit.text.label import TextLabel
from crewapp.kit.text.value_line import ValueLine
from crewapp.words.translate import say

MOST_CAP_MM = 12.0
WRITES = {",": ".", "=": "+", ";": ":"}
"""Keys of a keyboard as they are without shift, and the sign that is meant where figures are."""
FACES = {"-": "\u2212"}
ON_KEYBOARD = {8: BACK, 127: BACK, 13: "enter", 271: "enter"}
"""Keys of a keyboard that write nothing, by SDL's number, and what each is on the pad."""


def now_ms() -> int:
    """Return the window's clock, which never runs back, in milliseconds."""
    return int(Clock.time() * 1000)


class Keypad(DrawnWidget):
    """Holds a ``keypad`` (state.keypad.KeypadState) and draws it.

    Events: ``on_change(state)`` after every key, to keep half-typed text;
    ``on_enter(value, text)`` when a figure is accepted; ``on_leave`` when the
    pad is closed without one; ``on_refused(reason)`` for the buzz. ``place``
    says where the figure belongs ("Line 12, 10 ft").
    Needs 162 by 98 mm, or 98 by 162; more is used.
    """

    keypad = ObjectProperty(None)
    place = StringProperty("")
    redraw_on: tuple[str, ...] = ("keypad", "place")

    def __init__(self, keypad: KeypadState, **kwargs: Any) -> None:
        for event in ("on_change", "on_enter", "on_leave", "on_refused"):
            self.register_event_type(event)
        self.value_line = ValueLine(is_typing=True)
        self.hint = TextLabel(cap_mm=4.0, lines=4)
        self.touches: dict[str, Touchable] = {}
        super().__init__(keypad=keypad, **kwargs)
        self._make_keys()
        self.add_widget(self.value_line)
        self.add_widget(self.hint)
        Window.bind(on_key_down=self._type)

    def on_change(self, state: KeypadState) -> None:
        """Event: a key was pressed."""

    def on_enter(self, value: int, text: str) -> None:
        """Event: a figure was accepted."""

    def on_leave(self) -> None:
        """Event: the pad is to be closed, nothing was entered."""

    def on_refused(self, reason: str) -> None:
        """Event: a key was refused."""

    def _make_keys(self) -> None:
        """Make the keys of the field's own pad."""
        grammar = self.keypad.spec.grammar
        for name in grammar.writing_keys():
            is_digit = name not in grammar.extra_keys()
            face = FACES.get(name, name)
            key = Key(text=face) if is_digit else Touchable(text=face, cap_mm=5.0)
            key.words.lines = 1
            self._add(name, key)
        self._add(CLEAR, Touchable(kind=ButtonKind.QUIET))
        self._add(BACK, Touchable(text=say("Erase"), kind=ButtonKind.QUIET))
        self._add("enter", Key(text=say("Enter"), kind=ButtonKind.PRIMARY, cap_mm=6.0))

    def _add(self, name: str, key: Touchable) -> None:
        key.bind(on_release=lambda _: self.hit(name))
        self.touches[name] = key
        self.add_widget(key)

    def hit(self, name: str) -> None:
        """Take one key, as its touch does."""
        state, at = self.keypad, now_ms()
        if name == CLEAR and not state.typed:
            self.dispatch("on_leave")
            return
        own = getattr(self.touches.get(name), "last_touch", None)
        touches = 1 + fingers_down(but_not=own)
        after = state.enter(at) if name == "enter" else state.press(name, at, touches=touches)
        self._take(after)

    def _type(self, _window: Any, key: int, _code: int, text: str | None, held: Any) -> bool:
        """Take a key of a keyboard that is plugged in, as if the pad's own were touched."""
        name = ON_KEYBOARD.get(key) or WRITES.get(text or "", text or "")
        if (
            name not in self.touches
            or self.get_root_window() is None
            or set(held) & {"ctrl", "alt"}
        ):
            return False
        state = self.keypad
        # A keyboard gives no key twice by a shiver of the hand.
        at = max(now_ms(), state.last_at_ms + BOUNCE_MS)
        self._take(state.enter(at) if name == "enter" else state.press(name, at))
        return True

    def _keep(self, *_: object) -> None:
        self._take(self.keypad.keep(now_ms()))

    def _use(self, offer: Offer) -> None:
        self._take(self.keypad.use(offer, now_ms()))

    def _take(self, after: KeypadState) -> None:
        """Show the new state and tell what happened."""
        before, self.keypad = self.keypad, after
        self.dispatch("on_change", after)
        if after.refusals > before.refusals:
            reason = after.refused or (after.question.sentence if after.question else "")
            self.dispatch("on_refused", reason)
        if after.accepted is not None:
            self.dispatch("on_enter", after.accepted.value, after.accepted.text)

    def arrange(self) -> None:
        """Show the eighths, or in their place the question and its answers."""
        state = self.keypad
        asked = [name for name in self.touches if name.startswith("?")]
        for name in asked:
            self.remove_widget(self.touches.pop(name))
        is_asking = state.question is not None
        for name in self.middle_keys():
            key = self.touches[name]
            if (key.parent is self) == is_asking:
                (self.remove_widget if is_asking else self.add_widget)(key)
        if is_asking:
            self._ask()
        self.touches[CLEAR].text = say("Clear") if state.typed else say("Close")
        self.touches[BACK].disabled = not state.typed

    def middle_keys(self) -> tuple[str, ...]:
        """Name the keys between the figure and the foot: the eighths of an inch field."""
        keys: tuple[str, ...] = self.keypad.spec.grammar.extra_keys()
        return keys

    def _ask(self) -> None:
        """Make the answers to a question: what was likely meant, or keep it."""
        question = self.keypad.question
        for number, offer in enumerate(question.offers):
            key = Touchable(text=offer.text, note=offer.slip, kind=ButtonKind.PLAIN, cap_mm=5.0)
            key.bind(on_release=lambda _, chosen=offer: self._use(chosen))
            self._answer(f"?{number}", key)
        if question.can_keep:
            key = Touchable(
                text=self.keypad.stored_text, note=say("keep"), kind=ButtonKind.PLAIN, cap_mm=5.0
            )
            key.bind(on_release=self._keep)
            self._answer("?keep", key)

    def _answer(self, name: str, key: Touchable) -> None:
        key.least_side_mm = KEY_MM
        self.touches[name] = key
        self.add_widget(key)

    def draw(self) -> None:
        """Put all in its place for the room there is."""
        fill(box(*self.pos, *self.size), PAGE)
        state = self.keypad
        self._put(self.places())
        line = self.value_line
        line.name = ", ".join(part for part in (state.spec.name, self.place) if part)
        line.cap_mm = min(max(to_mm(line.height) * 0.36, CAP_VALUE_MM), MOST_CAP_MM)
        line.value, line.unit = state.text, state.unit
        line.echo = self._echo()
        line.reason = state.refused
        self.hint.text = state.question.sentence if state.question else ""
        self.hint.bold = True

    def places(self) -> Places:
        """Return where all goes, in mm from the upper left."""
        answers = [name for name in self.touches if name.startswith("?")]
        rows = self.keypad.spec.grammar.rows()
        return (wide_places if self.width >= self.height else tall_places)(
            to_mm(self.width), to_mm(self.height), rows, self.middle_keys(), answers
        )

    def _echo(self) -> str:
        """Return the figure as stored and in the other system, or that a key bounced.

        A text that is stored just as it is typed is not said twice.
        """
        state: KeypadState = self.keypad
        if state.is_bounced:
            return say("Same key twice at once: taken once.")
        if state.value is None or (state.stored_text == state.text and not state.echo):
            return ""
        return f"= {state.stored_text}" + (f" = {state.echo}" if state.echo else "")

    def _put(self, places: Places) -> None:
        """Move every part to its place, given in mm from the upper left."""
        for name, (left, down, wide, high) in places.items():
            part: Any = {"value": self.value_line, "hint": self.hint}.get(name)
            part = part if part is not None else self.touches.get(name)
            if part is not None:
                part.size = (px(wide), px(high))
                part.pos = (self.x + px(left), self.top - px(down) - px(high))
