"""What is used in a `with` block is closed at its end, whatever happened in it."""

from __future__ import annotations

import pytest

from models.closing import Closing


class Door(Closing):
    """Counts how often it was closed."""

    def __init__(self) -> None:
        self.closed = 0

    def close(self) -> None:
        """Count one more."""
        self.closed += 1


def test_the_end_of_a_block_closes_what_it_opened() -> None:
    """A block is given the object itself, open, and leaves it closed once."""
    door = Door()
    with door as given:
        assert given is door
        assert door.closed == 0
    assert door.closed == 1


def test_a_fault_in_a_block_closes_and_goes_on() -> None:
    """A fault in a block leaves the object closed, and is not swallowed."""
    door = Door()
    with pytest.raises(KeyError), door:
        raise KeyError("station")
    assert door.closed == 1


def test_a_class_without_close_cannot_be_made() -> None:
    """A class that says nothing of closing has no objects, rather than ones that stay open."""
    with pytest.raises(TypeError, match="close"):
        type("Gate", (Closing,), {})()
