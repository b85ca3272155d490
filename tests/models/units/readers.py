"""Every reader under one name, for tables and laws that go over all of them."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial

from models.units import (
    ClockUnit,
    LengthUnit,
    MassUnit,
    StationStyle,
    VolumeUnit,
    parse_count,
    parse_duration,
    parse_grade,
    parse_length,
    parse_mass,
    parse_station,
    parse_time_of_day,
    parse_volume,
)

READERS: dict[str, Callable[[str], object]] = {
    **{f"length {unit}": partial(parse_length, unit=unit) for unit in LengthUnit},
    **{f"signed {unit}": partial(parse_length, unit=unit, signed=True) for unit in LengthUnit},
    **{f"station {style}": partial(parse_station, style=style) for style in StationStyle},
    "grade": parse_grade,
    **{f"volume {unit}": partial(parse_volume, unit=unit) for unit in VolumeUnit},
    **{f"mass {unit}": partial(parse_mass, unit=unit) for unit in MassUnit},
    "count": parse_count,
    "time": parse_time_of_day,
    **{f"duration {unit}": partial(parse_duration, bare=unit) for unit in ClockUnit},
}
