"""The code that people read from one screen to another: short, and sure to show a slip."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from models.entries.tablet_code import TabletCodeError, code_of, read_tablet_code

ALPHABET = "0123456789ABCDEFGHJKMNPQRSTVWXYZ"
streams = st.binary(min_size=16, max_size=16).map(bytes.hex)


@given(stream=streams)
def test_code_reads_back(stream: str) -> None:
    """In any case, with or without its hyphens, and with letters that look like figures."""
    code = code_of(stream)
    sloppy = code.lower().replace("-", " ").replace("0", "o").replace("1", "l")

    assert read_tablet_code(code) == code
    assert read_tablet_code(sloppy) == code


@given(stream=streams, place=st.integers(0, 15), letter=st.sampled_from(ALPHABET))
def test_any_letter_misread_is_noticed(stream: str, place: int, letter: str) -> None:
    """Wherever it stands, the last one among them."""
    plain = code_of(stream).replace("-", "")
    if plain[place] == letter:
        return
    with pytest.raises(TabletCodeError, match="misread or two are swapped"):
        read_tablet_code(plain[:place] + letter + plain[place + 1 :])


@given(stream=streams, one=st.integers(0, 15), two=st.integers(0, 15))
def test_any_two_letters_swapped_are_noticed(stream: str, one: int, two: int) -> None:
    """Two letters swapped make another code fail, neighbours or not."""
    letters = list(code_of(stream).replace("-", ""))
    if letters[one] == letters[two]:
        return
    letters[one], letters[two] = letters[two], letters[one]
    with pytest.raises(TabletCodeError):
        read_tablet_code("".join(letters))


@pytest.mark.parametrize(
    ("text", "why"),
    [
        ("", "0 letters"),
        ("7KQ2-01XM", "8 letters"),
        ("U" * 16, "'U'"),
        ("7KQ2-01XM-9P3A-TT?A", "'?'"),
    ],
)
def test_what_is_no_code_is_told(text: str, why: str) -> None:
    """With what was met."""
    with pytest.raises(TabletCodeError, match="letters and figures") as fault:
        read_tablet_code(text)
    assert why in str(fault.value)


@pytest.mark.parametrize("stream", ["", "demo", "tablet-a", "g" * 32, "0" * 31])
def test_stream_without_a_key_has_no_code(stream: str) -> None:
    """Nobody could sign for it."""
    assert code_of(stream) == ""
