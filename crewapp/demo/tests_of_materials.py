"""Tests of the demo: the sand in a box, a jar and sieves; water in a ring on the field."""

from __future__ import annotations

from crewapp.commands.after_rain import LogInfiltration, RingLevel
from crewapp.commands.materials import LogBoxWeighing, LogBulking, LogSieveTest
from crewapp.demo.slitting import SAND
from crewapp.demo.typist import Typist
from crewapp.job.dispatch import do

FIELD = "F2"
READINGS_BEFORE = ((0, "4"), (600, "3-7/8"), (1200, "3-13/16"), (1800, "3-3/4"))
"""Seconds, and inches of water in the inner ring, on the field before it was cut."""

READINGS_AFTER = ((0, "4"), (300, "3-1/8"), (600, "2-3/8"), (900, "1-5/8"))
"""The same over a slit, three weeks after."""


SIEVED_G = (
    (3350, 0),
    (2000, 4),
    (1000, 34),
    (500, 152),
    (250, 208),
    (150, 78),
    (53, 20),
    (0, 4),
)
"""Opening of a sieve in um, 0 the pan, and grams held back: 500 g in all."""


def ring_test(typist: Typist, when: str, where: str, readings: tuple[tuple[int, str], ...]) -> None:
    """Write down a double ring test on the field."""
    do(
        typist.job,
        LogInfiltration(
            surface_id=FIELD,
            where=where,
            when=when,
            method="double_ring",
            inner_nm=typist.inches("12"),
            driven_nm=typist.inches("4"),
            readings=tuple(
                RingLevel(after_s=after_s, level_nm=typist.inches(level), level_typed=level)
                for after_s, level in readings
            ),
            note="ground wetted the evening before",
        ),
    )


def weigh_and_sieve(typist: Typist) -> None:
    """Weigh a box of the first load, and let a jar of it settle under water."""
    typist.wait(60, 120)
    do(
        typist.job,
        LogBoxWeighing(
            material_id=SAND,
            volume_pl=typist.job.figures.read_volume("1 ft3"),
            volume_typed="1 ft3",
            mass_ug=typist.job.figures.read_mass("98 lb"),
            mass_typed="98 lb",
        ),
    )
    typist.wait(30, 60)
    do(
        typist.job,
        LogBulking(
            material_id=SAND,
            moist_nm=typist.inches("6-1/8"),
            moist_typed="6-1/8",
            flooded_nm=typist.inches("6"),
            flooded_typed="6",
        ),
    )
    typist.wait(30, 60)
    do(
        typist.job,
        LogSieveTest(
            material_id=SAND,
            held=tuple((opening_um, grams * 1000) for opening_um, grams in SIEVED_G),
            laboratory="the pit's own sheet of 4 May, sample 3",
        ),
    )
