"""A row of figures to tap, in natural steps round the design and past its limits.

None is preselected or looks different: the row is a faster keypad, not an answer.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

INCH_STEPS_NM = (3_175_000, 6_350_000, 12_700_000, 25_400_000)  # 1/8, 1/4, 1/2, 1 in
MM_STEPS_NM = (1_000_000, 2_000_000, 5_000_000, 10_000_000, 20_000_000)
HUNDREDTH_FOOT_STEPS_NM = (3_048_000, 6_096_000, 15_240_000, 30_480_000)  # 0.01 to 0.1 ft
MOST_CHIPS = 11


@dataclass(frozen=True, slots=True)
class Chip:
    """Figure to tap: base units, and the text on it."""

    value: int
    text: str


def chips(
    design: int,
    low: int,
    high: int,
    steps: Sequence[int],
    show: Callable[[int], str],
    most: int = MOST_CHIPS,
) -> tuple[Chip, ...]:
    """Return chips from one step below ``low`` to one step above ``high``.

    The finest of ``steps`` that needs no more than ``most`` chips is taken, or
    the coarsest. The chips lie on whole steps counted from the design figure,
    which is one of them, and none is below zero.
    """
    for step in sorted(steps):
        found = _row(design, low, high, step)
        if len(found) <= most:
            break
    return tuple(Chip(value, show(value)) for value in found)


def _row(design: int, low: int, high: int, step: int) -> list[int]:
    """Return the figures of a row: the first and the last lie outside the limits."""
    below = -((low - design) // -step) - 1  # one past the last step inside
    above = (high - design) // step + 1
    figures = [design + count * step for count in range(min(below, -1), max(above, 1) + 1)]
    return [figure for figure in figures if figure >= 0]
