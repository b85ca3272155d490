"""Grade shots of the demo: rod readings that a stated error off the design would give."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from typing import Any

from crewapp.commands.grade import CheckLayer, CheckSetup, SetUpLaser, ShootGrade
from crewapp.commands.passes import LayPipe
from crewapp.demo.typist import Hand
from crewapp.job.dispatch import do
from models.entries.bodies.surfaces import Collector
from models.entries.kind_names import COLLECTOR
from models.queries.levelling.elevations import design_of, plane_of
from models.science.levelling.laser_plane import elevation_at_nm
from models.units import round_half_even

_HUNDREDTH_NM = 3_048_000
COLLECTOR_ID = "C1"


def shoot(hand: Hand, setup_id: str, station: str, on: str, off: int) -> None:
    """Read the rod at a station where the thing shot lies ``off`` hundredths above design."""
    state = hand.job.state
    collector = state.latest(COLLECTOR, COLLECTOR_ID)
    plane = plane_of(state, setup_id)
    assert isinstance(collector, Collector)
    assert plane is not None
    station_nm = hand.station(station)
    design = design_of(collector, on, station_nm)
    assert design is not None
    rod = Fraction(elevation_at_nm(plane, station_nm) - design) / _HUNDREDTH_NM - off
    typed = f"{round_half_even(rod.numerator, rod.denominator) / 100:.2f}"
    hand.wait(35, 90)
    do(
        hand.job,
        ShootGrade(
            setup_id=setup_id,
            collector_id=COLLECTOR_ID,
            station_nm=station_nm,
            station_typed=station,
            on=on,
            reading_nm=hand.level(typed),
            reading_typed=typed,
        ),
    )


def shoot_along(
    hand: Hand, setup_id: str, on: str, first_ft: int, errors: Sequence[int], step_ft: int = 10
) -> None:
    """Shoot from a station on, one shot a step, each with its error in hundredths."""
    for number, off in enumerate(errors):
        shoot(hand, setup_id, station_typed(first_ft + number * step_ft), on, off)


def station_typed(feet: int) -> str:
    """Write a station as it is typed: 125 is ``1+25``."""
    return f"{feet // 100}+{feet % 100:02d}"


def layer(
    hand: Hand, from_ft: int, to_ft: int, what: str, thick: str = "", whole: bool | None = None
) -> None:
    """Look at a layer from station to station."""
    hand.wait(200, 420)
    do(
        hand.job,
        CheckLayer(
            collector_id=COLLECTOR_ID,
            from_nm=hand.station(station_typed(from_ft)),
            to_nm=hand.station(station_typed(to_ft)),
            layer=what,
            thickness_nm=hand.inches(thick) if thick else None,
            thickness_typed=thick,
            continuous=whole,
        ),
    )


def stand(hand: Hand, setup_id: str, on_point: str, reading: str, **plane: Any) -> None:
    """Set the laser up with its backsight; a level plane unless one is dialled."""
    hand.wait(200, 300)
    do(
        hand.job,
        SetUpLaser(
            setup_id=setup_id,
            on_point=on_point,
            backsight_nm=hand.level(reading),
            backsight_typed=reading,
            calibrated_on="2026-04-20",
            **plane,
        ),
    )


def look_back(hand: Hand, setup_id: str, on_point: str, reading: str) -> None:
    """Read the rod on a benchmark to prove a setup."""
    hand.wait(200, 300)
    do(
        hand.job,
        CheckSetup(
            setup_id=setup_id,
            on_point=on_point,
            reading_nm=hand.level(reading),
            reading_typed=reading,
        ),
    )


def lay_sticks(hand: Hand, feet: int, *, capped: bool) -> None:
    """Lay collector pipe, joined to what lies below."""
    hand.wait(1300, 1700)
    do(
        hand.job,
        LayPipe(
            collector_id=COLLECTOR_ID,
            material_id="4 in collector pipe",
            length_nm=hand.feet(str(feet)),
            length_typed=str(feet),
            connected=True,
            end_capped=capped,
        ),
    )
