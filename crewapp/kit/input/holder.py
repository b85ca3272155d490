"""The one place where a screen's state is kept, guarded against other threads.

Kivy takes a property set from another thread without a word and then draws a
mixture of two states; so the state itself refuses.
"""

from __future__ import annotations

import threading
from collections.abc import Callable
from typing import Generic, TypeVar

from models.errors import CrewError

State = TypeVar("State")


class WrongThreadError(CrewError, RuntimeError):
    """Screen state was set from a thread that doesn't own it."""

    code = "state.wrong_thread"
    sentence = (
        "Screen state {what} was not changed: thread {met!r} tried, but only {owner!r} may. "
        "Hand the result over with kivy.clock.mainthread."
    )


class StateHolder(Generic[State]):
    """Holds one frozen state and tells its listeners when it is replaced.

    Belongs to the thread that made it.
    """

    def __init__(self, value: State) -> None:
        self._owner = threading.current_thread()
        self._value = value
        self._listeners: list[Callable[[State], None]] = []

    @property
    def value(self) -> State:
        """The state as it is now."""
        return self._value

    @value.setter
    def value(self, value: State) -> None:
        """Replace the state; ``WrongThreadError`` from a thread that doesn't own it."""
        if threading.current_thread() is not self._owner:
            raise WrongThreadError(
                what=type(self._value).__name__,
                met=threading.current_thread().name,
                owner=self._owner.name,
            )
        if value == self._value:
            return
        self._value = value
        for listener in tuple(self._listeners):
            listener(value)

    def listen(self, listener: Callable[[State], None]) -> Callable[[], None]:
        """Call ``listener`` with each new state; the answer ends that."""
        self._listeners.append(listener)
        return lambda: self._listeners.remove(listener)
