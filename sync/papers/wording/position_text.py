"""A place that the tablet's own position gave, worded so that nobody takes it for a survey."""

from __future__ import annotations

from models.entries.bodies.collector_work import OutletSeen, UtilityMet
from models.units.job_units import Figures

NANODEGREES = 10**9


def is_by_position(body: UtilityMet | OutletSeen) -> bool:
    """Whether a place was recorded by the tablet's position."""
    return body.placed_by == "position" and body.lat_ndeg is not None and body.lon_ndeg is not None


def good_words(good_to_nm: int | None, figures: Figures) -> str:
    """How well a position is known, and what that means to whoever digs."""
    if good_to_nm is None:
        return "by position, accuracy not known: dig by hand well around it"
    return f"by position, good to {figures.distance(good_to_nm)}: dig by hand well beyond it"


def position_words(body: UtilityMet | OutletSeen, figures: Figures) -> str:
    """The position of a body with its accuracy; "" where it has none."""
    if not is_by_position(body) or body.lat_ndeg is None or body.lon_ndeg is None:
        return ""
    where = latitude_longitude(body.lat_ndeg, body.lon_ndeg)
    return f"{where} {good_words(body.placed_sd_nm, figures)}"


def latitude_longitude(lat_ndeg: int, lon_ndeg: int) -> str:
    """Latitude, then longitude, to a tenth of a metre: ``45.123456, -93.654321``.

    Examples
    --------
    >>> latitude_longitude(45_123_456_700, -93_654_321_000)
    '45.123457, -93.654321'
    """
    return f"{lat_ndeg / NANODEGREES:.6f}, {lon_ndeg / NANODEGREES:.6f}"
