"""Screen state belongs to the thread that made it."""

from __future__ import annotations

import threading

import pytest

from crewapp.kit.input.holder import StateHolder, WrongThreadError


def test_listener_hears_a_new_state_once() -> None:
    """The same state again is no news; a listener that left hears nothing."""
    holder, heard = StateHolder(1), list[int]()
    leave = holder.listen(heard.append)
    holder.value = 2
    holder.value = 2
    leave()
    holder.value = 3

    assert (heard, holder.value) == ([2], 3)


def test_other_thread_is_refused() -> None:
    """The state stays as it was, and the error says which thread tried."""
    holder, caught = StateHolder(1), list[WrongThreadError]()

    def intrude() -> None:
        with pytest.raises(WrongThreadError) as raised:
            holder.value = 2
        caught.append(raised.value)

    thread = threading.Thread(target=intrude, name="ink")
    thread.start()
    thread.join()

    assert holder.value == 1
    assert caught[0].context["met"] == "ink"
