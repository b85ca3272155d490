"""Grade shots of the demo: rod readings that a stated error off the design would give."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from typing import Any

from crewapp.commands.grade import CheckLayer, CheckSetup, SetUpLaser, ShootGrade
from crewapp.commands.passes import LayPipe
from crewapp.commands.ties import LogOutlet
from crewapp.demo.typist import Typist
from crewapp.job.dispatch import do
from models.entries.bodies.surfaces import Collector
from models.entries.kind_names import COLLECTOR
from models.queries.levelling.elevations import design_of, plane_of
from models.science.levelling.laser_plane import elevation_at_nm
from models.units import round_half_even

_HUNDREDTH_NM = 3_048_000
COLLECTOR_ID = "C1"


def shoot(typist: Typist, setup_id: str, station: str, on: str, off: int) -> None:
    """Read the rod at a station where the thing shot lies ``off`` hundredths above design."""
    state = typist.job.state
    collector = state.latest(COLLECTOR, COLLECTOR_ID)
    plane = plane_of(state, setup_id)
    assert isinstance(collector, Collector)
    assert plane is not None
    station_nm = typist.station(station)
    design = design_of(collector, on, station_nm)
    assert design is not None
    rod = Fraction(elevation_at_nm(plane, station_nm) - design) / _HUNDREDTH_NM - off
    typed = f"{round_half_even(rod.numerator, rod.denominator) / 100:.2f}"
    typist.wait(35, 90)
    do(
        typist.job,
        ShootGrade(
            setup_id=setup_id,
            collector_id=COLLECTOR_ID,
            station_nm=station_nm,
            station_typed=station,
            on=on,
            reading_nm=typist.level(typed),
            reading_typed=typed,
        ),
    )


def shoot_along(
    typist: Typist, setup_id: str, on: str, first_ft: int, errors: Sequence[int], step_ft: int = 10
) -> None:
    """Shoot from a station on, one shot a step, each with its error in hundredths."""
    for number, off in enumerate(errors):
        shoot(typist, setup_id, station_text(first_ft + number * step_ft), on, off)


def station_text(feet: int) -> str:
    """Write a station as it is typed: 125 is ``1+25``."""
    return f"{feet // 100}+{feet % 100:02d}"


def layer(
    typist: Typist, from_ft: int, to_ft: int, what: str, thick: str = "", whole: bool | None = None
) -> None:
    """Look at a layer from station to station."""
    typist.wait(200, 420)
    do(
        typist.job,
        CheckLayer(
            collector_id=COLLECTOR_ID,
            from_nm=typist.station(station_text(from_ft)),
            to_nm=typist.station(station_text(to_ft)),
            layer=what,
            thickness_nm=typist.inches(thick) if thick else None,
            thickness_typed=thick,
            continuous=whole,
        ),
    )


def set_up_level(typist: Typist, setup_id: str, on_point: str, reading: str, **plane: Any) -> None:
    """Set the laser up with its backsight; a level plane unless one is dialled."""
    typist.wait(200, 300)
    do(
        typist.job,
        SetUpLaser(
            setup_id=setup_id,
            on_point=on_point,
            backsight_nm=typist.level(reading),
            backsight_typed=reading,
            calibrated_on="2026-04-20",
            **plane,
        ),
    )


def prove_setup(typist: Typist, setup_id: str, on_point: str, reading: str) -> None:
    """Read the rod on a benchmark to prove a setup."""
    typist.wait(200, 300)
    do(
        typist.job,
        CheckSetup(
            setup_id=setup_id,
            on_point=on_point,
            reading_nm=typist.level(reading),
            reading_typed=reading,
        ),
    )


def see_outlet(typist: Typist, outlet_id: str, *, invert: str, water: str) -> None:
    """Look at an outlet before the first pipe: its invert, and the water that stands in it."""
    typist.wait(200, 300)
    do(
        typist.job,
        LogOutlet(
            outlet_id=outlet_id,
            flows="free",
            note="grate lifted from above, nobody leaned in; measured with the rod",
            invert_nm=typist.level(invert),
            invert_typed=invert,
            water_nm=typist.level(water),
            water_typed=water,
        ),
    )


def lay_sticks(typist: Typist, feet: int, *, capped: bool) -> None:
    """Lay collector pipe, joined to what lies below."""
    typist.wait(1300, 1700)
    do(
        typist.job,
        LayPipe(
            collector_id=COLLECTOR_ID,
            material_id="4 in collector pipe",
            length_nm=typist.feet(str(feet)),
            length_typed=str(feet),
            connected=True,
            end_capped=capped,
        ),
    )
