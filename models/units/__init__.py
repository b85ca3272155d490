"""Exact quantities, never floats; one rounding rule, applied once, when showing.

Lengths are whole nanometres, volumes whole picolitres, masses whole micrograms,
grades fractions, times whole minutes. Imports the standard library alone and the
family of errors.
"""

from models.units.bearing import parse_bearing, parse_latitude, parse_longitude, show_bearing
from models.units.clock_times import (
    ClockUnit,
    parse_count,
    parse_duration,
    parse_time_of_day,
    show_duration,
    show_time_of_day,
)
from models.units.day import DAY_FORMS, is_day_of_a_job, parse_day
from models.units.grade import GradeStyle, has_grade_unit, parse_grade, show_grade
from models.units.length import (
    NM_PER,
    STEP_NM,
    LengthStyle,
    LengthUnit,
    UnitSystem,
    parse_length,
    show_length,
)
from models.units.limit_rounding import show_length_beside_limits
from models.units.mass import UG_PER, MassStyle, MassUnit, parse_mass, show_mass
from models.units.rates import parse_area, parse_density, parse_flow, parse_share, parse_water_rate
from models.units.rounding import round_half_even
from models.units.station import STATION_UNIT, StationStyle, parse_station, show_station
from models.units.volume import PL_PER, VolumeStyle, VolumeUnit, parse_volume, show_volume

__all__ = [
    "DAY_FORMS",
    "NM_PER",
    "PL_PER",
    "STATION_UNIT",
    "STEP_NM",
    "UG_PER",
    "ClockUnit",
    "GradeStyle",
    "LengthStyle",
    "LengthUnit",
    "MassStyle",
    "MassUnit",
    "StationStyle",
    "UnitSystem",
    "VolumeStyle",
    "VolumeUnit",
    "has_grade_unit",
    "is_day_of_a_job",
    "parse_area",
    "parse_bearing",
    "parse_count",
    "parse_day",
    "parse_density",
    "parse_duration",
    "parse_flow",
    "parse_grade",
    "parse_latitude",
    "parse_length",
    "parse_longitude",
    "parse_mass",
    "parse_share",
    "parse_station",
    "parse_time_of_day",
    "parse_volume",
    "parse_water_rate",
    "round_half_even",
    "show_bearing",
    "show_duration",
    "show_grade",
    "show_length",
    "show_length_beside_limits",
    "show_mass",
    "show_station",
    "show_time_of_day",
    "show_volume",
]
