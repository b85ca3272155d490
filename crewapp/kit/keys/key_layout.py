"""Where the keys of the pad go: pure figures in mm from the upper left corner."""

from __future__ import annotations

from collections.abc import Sequence

from crewapp.kit.input.key_grammar import BACK, CLEAR
from crewapp.kit.look.palette import GAP_MM, GAP_TO_DIGITS_MM, KEY_MM, TOUCH_MM

Places = dict[str, tuple[float, float, float, float]]
KeyRows = Sequence[Sequence[str | None]]
MOST_KEY_MM = 30.0
VALUE_MM = 22.0
EXTRAS_ACROSS = 4
EXTRA_MM = 18.0
HINT_MM = 14.0
LETTERS_ACROSS = (9, 5)
"""Letters in a row, on a wide page and on a high one."""


def grid(
    names: Sequence[str], left: float, down: float, wide: float, high: float, across: int
) -> Places:
    """Return places in rows of ``across`` that fill a box, 3 mm apart."""
    rows = max(-(-len(names) // across), 1)
    each_wide = (wide - GAP_MM * (across - 1)) / across
    each_high = (high - GAP_MM * (rows - 1)) / rows
    return {
        name: (
            left + (place % across) * (each_wide + GAP_MM),
            down + (place // across) * (each_high + GAP_MM),
            each_wide,
            each_high,
        )
        for place, name in enumerate(names)
    }


def digits(rows: KeyRows, left: float, down: float, key_wide: float, key_high: float) -> Places:
    """Return the places of the digit block, gaps left where there is no key."""
    return {
        name: (
            left + column * (key_wide + GAP_MM),
            down + row * (key_high + GAP_MM),
            key_wide,
            key_high,
        )
        for row, names in enumerate(rows)
        for column, name in enumerate(names)
        if name
    }


def wide_places(
    width: float, height: float, rows: KeyRows, extras: Sequence[str], answers: Sequence[str]
) -> Places:
    """Return the places on a wide page: digits at the right, all else left of them.

    Left, from above: the value, the eighths or the question, then Clear, Back
    and Enter, under the other thumb.
    """
    key = min((height - 3 * GAP_MM) / 4, MOST_KEY_MM)
    block = 3 * key + 2 * GAP_MM
    left_wide = width - block - GAP_TO_DIGITS_MM
    foot = min(max(key, KEY_MM), MOST_KEY_MM)
    places = digits(rows, width - block, 0.0, key, key)
    foot_down = 4 * key + 3 * GAP_MM - foot
    places |= _foot(left_wide, foot_down, foot)
    room = foot_down - GAP_TO_DIGITS_MM - GAP_MM
    middle_high = min(max(2 * EXTRA_MM + GAP_MM, room * 0.5), 2 * KEY_MM + GAP_MM)
    middle = foot_down - GAP_TO_DIGITS_MM - middle_high
    places["value"] = (0.0, 0.0, left_wide, min(middle - GAP_MM, 36.0))
    room = middle_high
    return places | _middle(left_wide, middle, room, extras, answers)


def _foot(width: float, down: float, high: float) -> Places:
    """Return Clear, Back and Enter in a row; Enter takes what is left."""
    small = max(TOUCH_MM + 3.0, width * 0.22)
    enter = width - 2 * small - GAP_MM - GAP_TO_DIGITS_MM
    return {
        CLEAR: (0.0, down, small, high),
        BACK: (small + GAP_MM, down, small, high),
        "enter": (width - enter, down, enter, high),
    }


def _middle(
    width: float, down: float, high: float, extras: Sequence[str], answers: Sequence[str]
) -> Places:
    """Return the eighths, or the question above its answers."""
    if answers:
        keys = min(KEY_MM, high - 10.0)
        places = grid(answers, 0.0, down + high - keys, width, keys, max(len(answers), 2))
        hint = min(high - keys - 1.0, HINT_MM)
        places["hint"] = (0.0, down + high - keys - 1.0 - hint, width, hint)
        return places
    places = {"hint": (0.0, down, width, high)}
    if extras:
        used = min(high, 2 * KEY_MM + GAP_MM)
        places |= grid(extras, 0.0, down + high - used, width, used, EXTRAS_ACROSS)
    return places


def tall_places(
    width: float, height: float, rows: KeyRows, extras: Sequence[str], answers: Sequence[str]
) -> Places:
    """Return the places on a high page: digits at the foot, Enter at their right.

    From above: the value with Clear and Back beside it, the eighths or the
    question, the digits.
    """
    key_wide = (width - 3 * GAP_MM) / 4
    key_high = min(max(KEY_MM, (height - 80.0) / 4), MOST_KEY_MM)
    block = 4 * key_high + 3 * GAP_MM
    down = height - block
    places = digits(rows, 0.0, down, key_wide, key_high)
    places["enter"] = (width - key_wide, down, key_wide, block)
    small = TOUCH_MM + 2.0
    places[BACK] = (width - small, 0.0, small, VALUE_MM)
    places[CLEAR] = (width - 2 * small - GAP_MM, 0.0, small, VALUE_MM)
    places["value"] = (0.0, 0.0, width - 2 * small - 3 * GAP_MM, VALUE_MM)
    middle = VALUE_MM + GAP_TO_DIGITS_MM
    return places | _middle(width, middle, down - GAP_MM - middle, extras, answers)


def letter_places(width: float, height: float, letters: Sequence[str], turn: str) -> Places:
    """Return the places of the letters: the value on top, the letters, the way back and Enter."""
    small, foot = TOUCH_MM + 2.0, KEY_MM
    is_wide = width >= height
    across, head = (LETTERS_ACROSS[0], TOUCH_MM) if is_wide else (LETTERS_ACROSS[1], VALUE_MM)
    down = head + GAP_TO_DIGITS_MM
    room = height - down - GAP_MM - foot
    places = grid(letters, 0.0, down, width, room, across)
    places["value"] = (0.0, 0.0, width - 2 * small - 3 * GAP_MM, head)
    places[BACK] = (width - small, 0.0, small, head)
    places[CLEAR] = (width - 2 * small - GAP_MM, 0.0, small, head)
    places[turn] = (0.0, height - foot, (width - GAP_MM) * 0.4, foot)
    left = places[turn][2] + GAP_MM
    places["enter"] = (left, height - foot, width - left, foot)
    return places
