"""Fingers on the plan: one pulls the paper, two pull and enlarge it, none of it is a tap."""

from __future__ import annotations

import math
from dataclasses import dataclass, field

Point = tuple[float, float]
LEAST_APART_PX = 8.0  # fingers nearer than this give no steady measure


@dataclass(frozen=True, slots=True)
class PaperMove:
    """How the paper moves: by so many pixels, and so many times larger about a place."""

    dx_px: float
    dy_px: float
    times: float
    about: Point


@dataclass(slots=True)
class Fingers:
    """The fingers that are down, each by its name; the first two count.

    ``shaky_px`` is how far a tapping finger may wander. A touch in which a second
    finger came down, or one that pulled, is no tap.
    """

    shaky_px: float
    _at: dict[object, Point] = field(default_factory=dict)
    _began: Point = (0.0, 0.0)
    _is_pull: bool = False

    def down(self, finger: object, at: Point) -> None:
        """Put a finger down."""
        if not self._at:
            self._began, self._is_pull = at, False
        self._at[finger] = at
        self._is_pull = self._is_pull or len(self._at) > 1

    def move(self, finger: object, to: Point) -> PaperMove | None:
        """Move a finger; return what that does to the paper, if anything."""
        if finger not in self._at:
            return None
        held = list(self._at)[:2]
        before = [self._at[one] for one in held]
        if not self._is_pull:
            far = max(abs(to[0] - self._began[0]), abs(to[1] - self._began[1]))
            if far <= self.shaky_px:
                return None  # its place stays, so that the paper does not jump when it moves on
            self._is_pull = True
        self._at[finger] = to
        return _pull(before, [self._at[one] for one in held])

    def up(self, finger: object) -> bool:
        """Lift a finger; return whether that was a tap."""
        was_down = self._at.pop(finger, None) is not None
        return was_down and not self._at and not self._is_pull

    @property
    def is_down(self) -> bool:
        """Whether any finger is on the plan."""
        return bool(self._at)


def _pull(before: list[Point], after: list[Point]) -> PaperMove:
    """Return how fingers that were here and are there have moved the paper."""
    was, now = _middle(before), _middle(after)
    times = 1.0
    if len(before) == 2:
        apart = math.dist(*before)
        if apart >= LEAST_APART_PX and math.dist(*after) >= LEAST_APART_PX:
            times = math.dist(*after) / apart
    return PaperMove(now[0] - was[0], now[1] - was[1], times, now)


def _middle(points: list[Point]) -> Point:
    return sum(x for x, _ in points) / len(points), sum(y for _, y in points) / len(points)
