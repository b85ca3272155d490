"""Ring tests of the demo: how fast water left the field, before and after."""

from __future__ import annotations

from crewapp.actions.writing import write
from crewapp.demo.hand import Hand

FIELD = "F2"
READINGS_BEFORE = ((0, "4"), (600, "3-7/8"), (1200, "3-13/16"), (1800, "3-3/4"))
"""Seconds, and inches of water in the inner ring, on the field before it was cut."""

READINGS_AFTER = ((0, "4"), (300, "3-1/8"), (600, "2-3/8"), (900, "1-5/8"))
"""The same over a slit, three weeks after."""


def ring_test(hand: Hand, when: str, where: str, readings: tuple[tuple[int, str], ...]) -> None:
    """Write down a double ring test on the field."""
    write(
        hand.job,
        "infiltration_test",
        surface_id=FIELD,
        where=where,
        when=when,
        method="double_ring",
        inner_nm=hand.inches("12"),
        driven_nm=hand.inches("4"),
        readings=tuple(
            {"after_s": after_s, "level_nm": hand.inches(level), "level_typed": level}
            for after_s, level in readings
        ),
        note="ground wetted the evening before",
    )
