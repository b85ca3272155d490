"""The rod pad: where the rod stands, the reading, its verdict and the digits, all at once."""

from __future__ import annotations

from typing import Any

from kivy.properties import BooleanProperty, ObjectProperty, StringProperty

from crewapp.kit.drawing.drawing_canvas import ProfileCanvas
from crewapp.kit.input.keypad_value import KeypadState
from crewapp.kit.keys.key_layout import Places
from crewapp.kit.keys.keypad import Keypad
from crewapp.kit.keys.touchable import Touchable
from crewapp.kit.look.palette import CAP_LABEL_MM, CAP_LEAST_MM, ButtonKind, Status
from crewapp.kit.look.theme import px, to_mm
from crewapp.kit.marks.status_mark import StatusMark
from crewapp.kit.rod.shot_layout import tall_shot_places, wide_shot_places
from crewapp.kit.text.fit_text import FitSentences
from crewapp.words.translate import say


class ShotPad(Keypad):
    """A keypad that stays up from shot to shot.

    Events beside the keypad's: ``on_step(ways)`` for one spacing back or on,
    ``on_where`` to choose where and what, ``on_undo``. ``chart`` lays out the two
    strips, shown where there is room.
    """

    place_text = StringProperty("")
    target = StringProperty("")
    step_text = StringProperty("")
    status = StringProperty(Status.NOT_MEASURED)
    told = StringProperty("")
    can_undo = BooleanProperty(False)
    chart = ObjectProperty(None, allownone=True)

    def __init__(self, keypad: KeypadState, **kwargs: Any) -> None:
        for event in ("on_step", "on_where", "on_undo"):
            self.register_event_type(event)
        self.verdict = StatusMark(cap_mm=4.0)
        self.verdict.words.lines = 3
        self.story = FitSentences(cap_mm=CAP_LEAST_MM)
        self.strips = ProfileCanvas()
        super().__init__(keypad, **kwargs)
        for name in ("place_text", "target", "step_text", "status", "told", "can_undo"):
            self.fbind(name, self.redraw)
        self.fbind("chart", lambda _, chart: setattr(self.strips, "layout", chart))
        self.strips.layout = self.chart

    def on_step(self, ways: int) -> None:
        """Event: go one spacing back or on."""

    def on_where(self) -> None:
        """Event: choose where the rod stands and on what."""

    def on_undo(self) -> None:
        """Event: take the last shot back."""

    def _make_keys(self) -> None:
        """Make the digits, and the keys that say where."""
        super()._make_keys()
        self.touches["enter"].is_logging = True
        made = {
            "less": (lambda: self.dispatch("on_step", -1), ButtonKind.PLAIN),
            "where": (lambda: self.dispatch("on_where"), ButtonKind.PLAIN),
            "more": (lambda: self.dispatch("on_step", 1), ButtonKind.PLAIN),
            "undo": (lambda: self.dispatch("on_undo"), ButtonKind.PLAIN),
        }
        for name, (tell, kind) in made.items():
            key = Touchable(kind=kind, cap_mm=CAP_LABEL_MM + 0.3)
            key.words.lines = 1
            key.bind(on_release=lambda _, tell=tell: tell())
            self.touches[name] = key
        self.touches["undo"].text = say("Undo")

    def _places(self) -> Places:
        """Return where everything goes at this size and in this state."""
        answers = [name for name in self.touches if name.startswith("?")]
        layout = wide_shot_places if self.width >= self.height else tall_shot_places
        rows = self.keypad.spec.grammar.rows()
        return layout(to_mm(self.width), to_mm(self.height), rows, answers)

    def arrange(self) -> None:
        """Show what has a place, and say in it what is known."""
        super().arrange()
        places = self._places()
        if not self.can_undo:
            places.pop("undo", None)
        parts: dict[str, Any] = {"verdict": self.verdict, "story": self.story, "chart": self.strips}
        parts |= {name: self.touches[name] for name in ("less", "where", "more", "undo")}
        for name, part in parts.items():
            if (name in places) != (part.parent is self):
                (self.add_widget if name in places else self.remove_widget)(part)
        self.touches["where"].text, self.touches["where"].note = self.place_text, self.target
        length, _, unit = self.step_text.partition(" ")
        for name, sign in (("less", "\u2212"), ("more", "+")):
            self.touches[name].text, self.touches[name].note = f"{sign}{length}", unit
        self.verdict.status, self.verdict.text = self.status, self.told

    def _put(self, places: Places) -> None:
        """Place the parts of this pad in the stead of a plain one's."""
        own = self._places()
        super()._put(own)
        parts: dict[str, Any] = {"verdict": self.verdict, "story": self.story, "chart": self.strips}
        for name, part in parts.items():
            if name in own:
                left, down, wide, high = own[name]
                part.size = (px(wide), px(high))
                part.pos = (self.x + px(left), self.top - px(down) - px(high))
