"""Where the parts of the rod pad go: pure figures in mm from the upper left corner."""

from __future__ import annotations

from collections.abc import Sequence

from crewapp.kit.input.key_grammar import BACK, CLEAR
from crewapp.kit.keys.key_layout import MOST_KEY_MM, KeyRows, Places, digits, grid
from crewapp.kit.look.palette import GAP_MM, GAP_TO_DIGITS_MM, KEY_MM, TOUCH_MM

STEP_MM = 18.0
VALUE_HIGH_MM = 22.5
UNDO_MM = 22.5
STORY_LEAST_MM = 9.6
CHART_LEAST_MM = 34.0
FOURTH_MM = 23.0


def wide_shot_places(width: float, height: float, rows: KeyRows, answers: Sequence[str]) -> Places:
    """Return the places on a wide page: digits right, where and what it says left of them."""
    key = min((height - 3 * GAP_MM) / 4, MOST_KEY_MM)
    block = 3 * key + 2 * GAP_MM
    left = width - block - GAP_TO_DIGITS_MM
    foot = min(max(key, KEY_MM), MOST_KEY_MM)
    foot_down = height - foot
    places = digits(rows, width - block, 0.0, key, key)
    if key == MOST_KEY_MM:  # room to spare: let the digits stand at the foot, near the thumb
        places = digits(rows, width - block, height - 4 * key - 3 * GAP_MM, key, key)
    small = TOUCH_MM + 3.0
    places[CLEAR] = (0.0, foot_down, small, foot)
    places[BACK] = (small + GAP_MM, foot_down, small, foot)
    enter = left - 2 * small - GAP_MM - GAP_TO_DIGITS_MM
    places["enter"] = (left - enter, foot_down, enter, foot)
    foot_down -= GAP_TO_DIGITS_MM
    down = VALUE_HIGH_MM + GAP_MM
    if answers:
        places["value"] = (0.0, 0.0, left, VALUE_HIGH_MM)
        return places | _asked(0.0, down, left, foot_down - down, answers)
    places |= _where(left)
    places["value"] = (0.0, TOUCH_MM + GAP_MM, left, VALUE_HIGH_MM)
    down += TOUCH_MM + GAP_MM
    return places | _told(down, left, foot_down - down)


def tall_shot_places(width: float, height: float, rows: KeyRows, answers: Sequence[str]) -> Places:
    """Return the places on a high page: digits at the foot, Enter at their right."""
    fourth = max(FOURTH_MM, width * 0.2)
    key_wide = (width - fourth - 3 * GAP_MM) / 3
    key_high = KEY_MM + 0.05
    block = 4 * key_high + 3 * GAP_MM
    top = height - block
    places = digits(rows, 0.0, top, key_wide, key_high)
    side = fourth - GAP_MM  # back and clear keep 6 mm from the digits
    places[BACK] = (width - side, top, side, key_high)
    places[CLEAR] = (width - side, top + key_high + GAP_MM, side, key_high)
    double = 2 * key_high + GAP_MM
    places["enter"] = (width - fourth, height - double, fourth, double)
    return places | _tall_top(width, top - GAP_TO_DIGITS_MM, answers)


def _tall_top(width: float, room: float, answers: Sequence[str]) -> Places:
    """Return what stands above the digits: where, the figure, its verdict, what follows."""
    half = (width - GAP_MM) / 2
    if answers:
        places: Places = {
            "value": (0.0, 0.0, half, VALUE_HIGH_MM),
            "hint": (half + GAP_MM, 0.0, half, VALUE_HIGH_MM),
        }
        across = max(len(answers), 2)
        return places | grid(answers, 0.0, VALUE_HIGH_MM + GAP_MM, width, KEY_MM, across)
    places = _where(width)
    down = TOUCH_MM + GAP_MM
    places["value"] = (0.0, down, half, VALUE_HIGH_MM)
    places["story"] = (half + GAP_MM, down, half, VALUE_HIGH_MM)
    down += VALUE_HIGH_MM + GAP_MM
    places["verdict"] = (0.0, down, width - UNDO_MM - GAP_MM, TOUCH_MM)
    places["undo"] = (width - UNDO_MM, down, UNDO_MM, TOUCH_MM)
    down += TOUCH_MM + GAP_MM
    return places | _chart(down, width, room - down)


def _where(width: float) -> Places:
    """Return the row that says where: one spacing back, the place, one on."""
    middle = width - 2 * (STEP_MM + GAP_MM)
    return {
        "less": (0.0, 0.0, STEP_MM, TOUCH_MM),
        "where": (STEP_MM + GAP_MM, 0.0, middle, TOUCH_MM),
        "more": (width - STEP_MM, 0.0, STEP_MM, TOUCH_MM),
    }


def _asked(left: float, down: float, width: float, room: float, answers: Sequence[str]) -> Places:
    """Return the question above its answers."""
    keys = KEY_MM
    places = grid(answers, left, down + room - keys, width, keys, max(len(answers), 2))
    places["hint"] = (left, down - 1.0, width, room - keys)
    return places


def _told(down: float, width: float, room: float) -> Places:
    """Return the verdict, the undo key, what follows, and the strips if they fit."""
    places: Places = {
        "verdict": (0.0, down, width - UNDO_MM - GAP_MM, TOUCH_MM),
        "undo": (width - UNDO_MM, down, UNDO_MM, TOUCH_MM),
    }
    below = down + TOUCH_MM + 1.5
    room -= TOUCH_MM + 1.5
    chart = room - STORY_LEAST_MM - 4.0 - GAP_MM
    story = room if chart < CHART_LEAST_MM else STORY_LEAST_MM + 4.0
    places["story"] = (0.0, below, width, story)
    return places | _chart(below + story + GAP_MM, width, room - story - GAP_MM)


def _chart(down: float, width: float, room: float) -> Places:
    """Return the place of the two strips, or none where they could not be read."""
    return {"chart": (0.0, down, width, room)} if room >= CHART_LEAST_MM else {}
