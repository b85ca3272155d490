"""The pad's keys are large and apart on every page it can be shown on."""

from __future__ import annotations

from itertools import combinations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from crewapp.kit.input.key_grammar import BACK, CLEAR, Grammar, KeyKind
from crewapp.kit.keys.key_layout import Places, tall_places, wide_places
from crewapp.kit.look.palette import GAP_TO_DIGITS_MM, KEY_MM


def apart(one: tuple[float, ...], other: tuple[float, ...]) -> float:
    """Return the gap between two places in mm."""
    across = max(one[0] - other[0] - other[2], other[0] - one[0] - one[2])
    return max(across, max(one[1] - other[1] - other[3], other[1] - one[1] - one[3]))


def check(places: Places, width: float, height: float, digits: set[str]) -> None:
    """Hold places to size, gaps, and the page."""
    for name, (left, down, wide, high) in places.items():
        assert left >= -0.01, name
        assert down >= -0.01, name
        assert left + wide <= width + 0.01, name
        assert down + high <= height + 0.01, name
        if name in digits or name == "enter":
            assert min(wide, high) >= KEY_MM - 0.01, name
    keys = {name: place for name, place in places.items() if name != "hint"}
    for one, other in combinations(keys, 2):
        least = 2.99
        if {one, other} & {BACK, CLEAR} and {one, other} & digits:
            least = GAP_TO_DIGITS_MM - 0.01
        assert apart(keys[one], keys[other]) >= least, (one, other)


@given(
    kind=st.sampled_from(KeyKind),
    short=st.floats(98, 190),
    long=st.floats(162, 280),
    answers=st.sampled_from([[], ["?0"], ["?0", "?1", "?keep"]]),
)
def test_pad_obeys_the_hand(kind: KeyKind, short: float, long: float, answers: list[str]) -> None:
    """From an 8 inch tablet up, held wide or upright, for every kind of field."""
    long = max(long, short * 1.4)
    grammar = Grammar(kind)
    digits = {key for row in grammar.rows() for key in row if key}
    extras = [] if answers else list(grammar.extra_keys())
    check(wide_places(long, short, grammar.rows(), extras, answers), long, short, digits)
    check(tall_places(short, long, grammar.rows(), extras, answers), short, long, digits)


@pytest.mark.parametrize("kind", KeyKind)
def test_every_key_has_a_place(kind: KeyKind) -> None:
    """No key is left out of either form."""
    grammar = Grammar(kind, is_signed=True)
    for make in (wide_places, tall_places):
        places = make(170, 170, grammar.rows(), grammar.extra_keys(), [])
        assert {*grammar.writing_keys(), BACK, CLEAR, "enter", "value", "hint"} == set(places)
