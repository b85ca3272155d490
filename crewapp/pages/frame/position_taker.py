"""Listens for the tablet's position, whenever it comes, and reports when none can."""

from __future__ import annotations

from collections.abc import Callable

from kivy.clock import Clock

from crewapp.device.ports import PositionFix
from crewapp.kit.input.position import NONE_YET, REFUSED
from crewapp.words.translate import say

WAIT_S = 20.0
LISTEN_S = 90.0
"""How long a better position is waited for; a receiver that runs on empties the battery."""


class PositionTaker:
    """Takes one position at a time. ``took`` gets every position, ``failed`` a sentence.

    Nothing waits for the answer: work goes on, and one that comes after the question was
    given up is dropped.
    """

    def __init__(self, took: Callable[[PositionFix], None], failed: Callable[[str], None]) -> None:
        self.took, self.failed = took, failed
        self.asking = ""
        self._turn = 0
        self._is_told = False

    def ask(self, field: str) -> None:
        """Begin to listen for a position of a field."""
        from crewapp.device.ports import find_device

        self.stop()
        turn = self._turn
        self.asking = field

        def located(fix: PositionFix) -> None:
            # The receiver may answer from a thread of its own.
            Clock.schedule_once(lambda _: self._take(turn, fix), 0)

        lack = find_device().locator.start(located)
        if lack is not None:
            self.stop()
            self.failed(say(REFUSED, why=lack.why))
            return
        Clock.schedule_once(lambda _: self._late(turn), WAIT_S)
        Clock.schedule_once(lambda _: self._enough(turn), LISTEN_S)

    def stop(self) -> None:
        """Give the question up; an answer that is still on its way counts no more."""
        self._turn += 1
        self._is_told = False
        if self.asking:
            from crewapp.device.ports import find_device

            self.asking = ""
            find_device().locator.stop()

    @property
    def is_listening(self) -> bool:
        """Whether no position has come yet."""
        return bool(self.asking) and not self._is_told

    def _take(self, turn: int, fix: PositionFix) -> None:
        if turn == self._turn:
            self._is_told = True
            self.took(fix)

    def _late(self, turn: int) -> None:
        if turn == self._turn and not self._is_told:
            self.failed(say(NONE_YET))

    def _enough(self, turn: int) -> None:
        if turn == self._turn:
            self.stop()
