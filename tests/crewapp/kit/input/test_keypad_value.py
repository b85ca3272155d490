"""The keypad refuses what can't be a number, catches slips, and changes nothing unseen."""

from __future__ import annotations

from fractions import Fraction
from itertools import count
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from crewapp.kit.input.key_grammar import BACK, CLEAR, FRACTIONS, SIXTEENTH, Grammar, KeyKind
from crewapp.kit.input.keypad_value import FieldSpec, KeypadState
from crewapp.kit.input.plausible import Band, Bands
from tests.in_full import IN_FULL

UNIT = 1000
NO_BANDS = Bands()


def read(text: str) -> int:
    """Read inches, decimals and stations to thousandths, exactly or not at all."""
    text = text.replace("+", "")
    sign, text = (-1, text[1:]) if text.startswith("-") else (1, text)
    whole, _, part = text.partition("-")
    value = (Fraction(whole) + (Fraction(part) if part else 0)) * UNIT
    return sign * int(value)


def spec(kind: KeyKind, bands: Bands = NO_BANDS, **grammar: Any) -> FieldSpec:
    """Return a field of a kind."""
    return FieldSpec(
        name="Depth",
        unit="in",
        grammar=Grammar(kind, **grammar),
        parse=read,
        show=lambda value: f"{Fraction(value, UNIT)} in",
        echo=lambda value: f"{value / UNIT / 12:.2f} ft",
        bands=bands,
    )


def pressed(state: KeypadState, *keys: str) -> KeypadState:
    """Press keys half a second apart."""
    at = count(max(state.last_at_ms, 0) + 500, 500)
    for key in keys:
        state = state.press(key, next(at))
    return state


@pytest.mark.parametrize(
    ("kind", "keys", "text"),
    [
        (KeyKind.INCHES, ("8", "1/2"), "8-1/2"),
        (KeyKind.INCHES, ("3/8",), "3/8"),
        (KeyKind.INCHES, ("8", "1/2", SIXTEENTH), "8-9/16"),
        (KeyKind.INCHES, ("8", SIXTEENTH), "8-1/16"),
        (KeyKind.INCHES, (SIXTEENTH,), "1/16"),
        (KeyKind.INCHES, ("8", "1/2", BACK), "8"),
        (KeyKind.INCHES, ("1/2", BACK), ""),
        (KeyKind.DECIMAL, (".", "5"), "0.5"),
        (KeyKind.DECIMAL, ("1", "0", ".", "2", "5"), "10.25"),
        (KeyKind.INTEGER, ("2", "1", "6"), "216"),
        (KeyKind.ROD, ("5", "4", "3"), "5.43"),
        (KeyKind.ROD, ("7",), "0.07"),
        (KeyKind.STATION, ("1", "+", "2", "5", ".", "5"), "1+25.5"),
        (KeyKind.INTEGER, ("2", "1", CLEAR), ""),
    ],
)
def test_keys_make_text(kind: KeyKind, keys: tuple[str, ...], text: str) -> None:
    """What is typed is what is shown."""
    state = pressed(KeypadState(spec(kind)), *keys)

    assert (state.text, state.refused) == (text, "")


@pytest.mark.parametrize(
    ("kind", "keys", "bad", "part"),
    [
        (KeyKind.DECIMAL, ("8", "."), ".", "point already"),
        (KeyKind.INCHES, ("8", "1/2"), "1/4", "ends the number"),
        (KeyKind.INCHES, ("8", "1/2"), "3", "ends the number"),
        (KeyKind.INCHES, ("8", SIXTEENTH), SIXTEENTH, "ends the number"),
        (KeyKind.INCHES, ("8",), ".", "no key"),
        (KeyKind.ROD, ("5",), ".", "no key"),
        (KeyKind.DECIMAL, ("0",), "5", "begin with 0"),
        (KeyKind.DECIMAL, ("1", ".", "2", "5"), "7", "2 digits after the point"),
        (KeyKind.INTEGER, ("1", "2", "3", "4"), "5", "4 digits at the most"),
        (KeyKind.STATION, (), "+", "after the full stations"),
        (KeyKind.STATION, ("1", "+"), "+", "plus already"),
        (KeyKind.STATION, ("1", "+", "2"), ".", "2 digits"),
        (KeyKind.STATION, ("1", "+", "2", "5"), "5", "then comes a point"),
        (KeyKind.DECIMAL, ("5",), "x", "no key"),
        (KeyKind.DECIMAL, ("5",), "-", "no key"),
    ],
)
def test_spoiling_key_is_refused_with_reason(
    kind: KeyKind, keys: tuple[str, ...], bad: str, part: str
) -> None:
    """Rule 1: the value stays, the reason shows, the buzz counts on."""
    before = pressed(KeypadState(spec(kind)), *keys)
    after = pressed(before, bad)

    assert after.typed == before.typed
    assert part in after.refused
    assert after.refusals == before.refusals + 1


def test_minus_comes_first_in_signed_fields() -> None:
    """A signed field takes a minus, but not after a digit."""
    signed = KeypadState(spec(KeyKind.DECIMAL, is_signed=True))

    assert pressed(signed, "-", "0", ".", "5").value == -500
    assert "only come first" in pressed(signed, "5", "-").refused


def test_value_is_shown_as_stored_with_echo() -> None:
    """Rule 2: in the field's unit, and once in the other."""
    state = pressed(KeypadState(spec(KeyKind.INCHES)), "8", "1/8")

    assert state.value == 8125
    assert (state.stored_text, state.echo) == ("65/8 in", "0.68 ft")


def test_same_key_at_once_is_a_bounce() -> None:
    """Rule 5: within 250 ms it is not taken, and the tick shows; later it is."""
    first = KeypadState(spec(KeyKind.INTEGER)).press("8", 1000)
    bounced = first.press("8", 1249)

    assert (bounced.typed, bounced.is_bounced) == ("8", True)
    assert bounced.press("8", 1250).typed == "88"
    assert first.press("9", 1001).typed == "89"


@pytest.mark.parametrize("hand", [{"touches": 2}, {"contact_mm": 30.0}])
def test_palm_writes_nothing(hand: dict[str, int]) -> None:
    """Rule 5: two touches at once, or one too wide, are refused."""
    before = KeypadState(spec(KeyKind.INTEGER)).press("8", 1000)
    after = before.press("9", 2000, **hand)

    assert after.typed == "8"
    assert after.refused


def test_unfinished_text_is_not_entered() -> None:
    """Nothing typed, or half a number, is refused with the reason."""
    state = KeypadState(spec(KeyKind.DECIMAL))

    assert "Nothing" in state.enter(1).refused
    assert "not finished" in pressed(state, "8", ".").enter(9000).refused


def test_half_typed_text_comes_back() -> None:
    """A killed app puts the digits back, and drops what no pad could have typed."""
    assert KeypadState.resume(spec(KeyKind.INCHES), "8-1/2").value == 8500
    assert KeypadState.resume(spec(KeyKind.INCHES), "8..2").typed == ""


def test_expected_figure_is_accepted() -> None:
    """Inside the expected band there is no question."""
    bands = Bands(Band(2000, 24000), Band(7000, 11000), 9000)
    state = pressed(KeypadState(spec(KeyKind.INCHES, bands)), "8", "1/2").enter(9000)

    assert state.accepted is not None
    assert (state.accepted.value, state.accepted.text) == (8500, "8-1/2")


def test_odd_figure_is_asked_about_and_may_be_kept() -> None:
    """Rule 3: outside the expected band the figure waits for an answer."""
    bands = Bands(Band(0, 24000), Band(7000, 11000), 9000)
    asked = pressed(KeypadState(spec(KeyKind.DECIMAL, bands)), "0", ".", "9").enter(9000)

    assert asked.accepted is None
    assert asked.typed == "0.9"
    assert asked.question is not None
    assert [offer.value for offer in asked.question.offers] == [9000, 10800]
    used = asked.use(asked.question.offers[0], 9900).accepted
    kept = asked.keep(9900).accepted
    assert used is not None
    assert used.value == 9000
    assert kept is not None
    assert kept.value == 900


def test_impossible_figure_can_not_be_kept() -> None:
    """Rule 3: outside the plausible band only an offer or other digits help."""
    bands = Bands(Band(2000, 24000), Band(7000, 11000), 9000)
    asked = pressed(KeypadState(spec(KeyKind.INTEGER, bands)), "9", "0").enter(9000)

    assert asked.question is not None
    assert not asked.question.can_keep
    assert asked.keep(9900).accepted is None
    assert asked.question.offers[0].value == 9000


KEYS = [*"0123456789.+-x", *FRACTIONS, SIXTEENTH, BACK, CLEAR, "enter", "keep", ""]


@settings(max_examples=10_000 if IN_FULL else 2_000, deadline=None)
@given(
    kind=st.sampled_from(KeyKind),
    is_signed=st.booleans(),
    keys=st.lists(st.tuples(st.sampled_from(KEYS), st.integers(0, 600)), max_size=14),
)
def test_no_key_string_raises_or_changes_in_silence(
    kind: KeyKind, is_signed: bool, keys: list[tuple[str, int]]
) -> None:
    """E11: text changes only when the key was taken, and stays readable in the making."""
    bands = Bands(Band(0, 24000), Band(7000, 11000), 9000)
    state, at = KeypadState(spec(kind, bands, is_signed=is_signed)), 0
    for key, wait in keys:
        at += wait
        before = state
        if key == "enter":
            state = state.enter(at)
        elif key == "keep":
            state = state.keep(at)
        else:
            state = state.press(key, at)
        is_told = bool(state.refused) or state.is_bounced or key in ("enter", "keep")
        assert not is_told or state.typed == before.typed
        is_idle = key in (BACK, CLEAR) and not before.typed
        assert is_idle or is_told != (state.typed != before.typed)
        assert state.spec.grammar.is_beginning(state.typed)
