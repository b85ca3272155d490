"""The rod pad over the screen: it stays from shot to shot."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from kivy.clock import Clock

from crewapp.kit.input.keypad_value import FieldSpec, KeypadState
from crewapp.kit.keys.keypad import Keypad
from crewapp.kit.rod.shot_pad import ShotPad
from crewapp.pages.frame.pad_sheet import PadQuestion, PadSheet
from crewapp.pages.grade.fields import rod_field
from crewapp.pages.grade.view import ON_WORDS, GradeView, Verdict, on_grade_nm, on_grade_words
from crewapp.words.translate import say


def shot_field(view: GradeView, on: str, station_nm: int) -> FieldSpec:
    """Return the field of the rod reading at a station."""
    near_nm = on_grade_nm(view, on, station_nm)
    return rod_field(view.figures, say("Rod reading"), near_nm)


class ShotSheet(PadSheet):
    """Shows a collector's view and takes shot after shot; see ``ShotPad`` for its events."""

    pad: ShotPad

    def _pad_for(self, asked: PadQuestion, state: KeypadState) -> Keypad:
        """Make the rod pad."""
        return ShotPad(state, size_hint=(None, None))

    def on_parent(self, _: Any, parent: Any) -> None:
        """Stay over what the shell lays on itself later; it waits below."""
        if parent is not None:
            parent.fbind("children", self._stay)

    def _stay(self, shell: Any, children: list[Any]) -> None:
        if self in children and self._is_under(shell):
            Clock.schedule_once(lambda _: self._rise(shell), -1)

    def _rise(self, shell: Any) -> None:
        if self.parent is shell and self._is_under(shell):
            shell.remove_widget(self)
            shell.add_widget(self)
            shell.lift_caution()

    def _is_under(self, shell: Any) -> bool:
        """Whether something else than the caution lies over the sheet."""
        over = shell.children[: shell.children.index(self)]
        return any(one is not shell.caution for one in over)

    def show_place(self, view: GradeView, on: str, station_nm: int) -> None:
        """Say where the rod stands now, and what it reads on grade there."""
        pad = self.pad
        station = view.figures.station(station_nm)
        pad.place_text = say("{station} {what}", station=station, what=say(ON_WORDS[on]))
        pad.target = on_grade_words(view, on, station_nm)
        pad.step_text = view.figures.length(view.step_nm)
        pad.keypad = replace(pad.keypad, spec=shot_field(view, on, station_nm))

    def show_verdict(self, title: str, verdict: Verdict, sentences: list[str]) -> None:
        """Say how the last shot lies."""
        pad = self.pad
        pad.status = verdict.status
        pad.told = ": ".join(part for part in (title, verdict.text) if part)
        pad.story.sentences = sentences
        pad.can_undo = bool(title)

    def clear_reading(self) -> None:
        """Empty the pad for the next reading."""
        self.pad.keypad = KeypadState(self.pad.keypad.spec)
