"""Long words are broken, never changed: put together again they are what they were."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from crewapp.kit.input.break_words import FOLD, fold_long_words, tail_of


@given(st.text(alphabet="ab/-_. \n", max_size=200))
def test_no_line_has_a_word_longer_than_its_room(text: str) -> None:
    """And nothing is lost: but for the new lines it is the same text."""
    shown = fold_long_words(text)

    assert all(len(word) <= FOLD for line in shown.split("\n") for word in line.split(" "))
    assert shown.replace("\n", "") == text.replace("\n", "")


def test_short_text_stays_as_it_is() -> None:
    """A sentence of usual words is not touched."""
    text = "Cannot reach the store: its folder is not there."

    assert fold_long_words(text) == text


def test_end_of_a_path_tells_more_than_its_beginning() -> None:
    """The stick's name stands at the end."""
    assert tail_of("/run/media/foreman/TURF-STICK", 12) == "\u2026/TURF-STICK"
    assert tail_of("/media/a", 12) == "/media/a"
