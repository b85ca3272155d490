"""The bearing along which a surface's lines lie, read off the lines themselves."""

from __future__ import annotations

import math

from models.entries.surface import Surface
from models.plan.line import LineUse
from models.units import show_bearing

HALF_TURN_UDEG = 180_000_000


def lying_bearing(surface: Surface | None, use: LineUse) -> str:
    """Return how the lines of a use lie now, "" where there are none."""
    line = next((one for one in surface.lines if one.use == use), None) if surface else None
    if line is None or not line.length_nm:
        return ""
    turn = math.degrees(math.atan2(line.x2_nm - line.x1_nm, line.y2_nm - line.y1_nm)) % 360
    return show_bearing(round(turn * 1_000_000) % (2 * HALF_TURN_UDEG))
