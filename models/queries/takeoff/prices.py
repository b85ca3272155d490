"""Prices of the take-off as somebody typed them, read against the items they are for."""

from __future__ import annotations

import re
from fractions import Fraction

from models.entries.bodies import planning
from models.errors import UnreadableError
from models.queries.takeoff.inputs import TakeoffInputs
from models.science.takeoff.items import Amount, Item, Kind
from models.science.takeoff.money import UnitPrice
from models.units.job_units import Figures
from models.units.spec import FOOT_NM

KIND_OF: dict[Item, Kind] = {
    **dict.fromkeys(
        (
            Item.SAND_SLIT_LENGTH,
            Item.PIPED_SLIT_LENGTH,
            Item.COLLECTOR_LENGTH,
            Item.SLIT_PIPE,
            Item.SLIT_PIPE_ORDER,
            Item.COLLECTOR_PIPE,
            Item.COLLECTOR_PIPE_ORDER,
            Item.WIRE,
        ),
        Kind.LENGTH,
    ),
    **dict.fromkeys((Item.TURF_STRIP, Item.FABRIC, Item.SOD), Kind.AREA),
    **dict.fromkeys((Item.SAND_MASS, Item.GRAVEL_MASS), Kind.MASS),
    **dict.fromkeys(
        (
            Item.SLIT_CUT,
            Item.TRENCH_CUT,
            Item.SPOIL_BANK,
            Item.SPOIL_LOOSE,
            Item.SLIT_SAND,
            Item.COLLECTOR_SAND,
            Item.SAND_LOOSE,
            Item.BEDDING,
            Item.SURROUND,
            Item.GRAVEL_LOOSE,
        ),
        Kind.VOLUME,
    ),
    **dict.fromkeys((Item.DAYS, Item.WHOLE_DAYS), Kind.DAYS),
    **dict.fromkeys(
        (
            Item.SPOIL_TRUCKS,
            Item.HOPPER_LOADS,
            Item.SAND_TRUCKS,
            Item.GRAVEL_TRUCKS,
            Item.SLIT_COILS,
            Item.SLIT_SPLICES,
            Item.END_CAPS,
            Item.TEES,
            Item.COLLECTOR_COILS,
            Item.COLLECTOR_SPLICES,
        ),
        Kind.COUNT,
    ),
}
"""What each item that may carry a price is measured in."""

_FORMS: dict[Kind, str] = {
    Kind.LENGTH: "100 ft or 1 m",
    Kind.AREA: "1000 ft2 or 1 m2",
    Kind.VOLUME: "1 yd3 or 1 m3",
    Kind.MASS: "1 ton or 1 t",
    Kind.DAYS: "1 day",
    Kind.COUNT: "1 each",
}
_AREA_NM2 = {"ft2": FOOT_NM**2, "m2": 10**18, "yd2": (3 * FOOT_NM) ** 2}
_PLAIN = re.compile(r"(\d+(?:\.\d+)?)? *([a-z]*2?)")


def prices_of(inputs: TakeoffInputs) -> tuple[dict[Item, UnitPrice], list[str]]:
    """Prices by their item, and a sentence for each that can't be used."""
    items = {item.value: item for item in KIND_OF}
    found: dict[Item, UnitPrice] = {}
    told: list[str] = []
    for price in inputs.prices:
        item = items.get(" ".join(price.item.lower().split()))
        if item is None:
            told.append(
                f"The price of {price.item} is left out: no item of the take-off is so named."
            )
            continue
        per = read_per(price, KIND_OF[item], inputs.figures)
        if per is None or per.size <= 0:
            told.append(
                f"The price of {item.value} is left out: '{price.per}' is no amount of it. "
                f"Accepted: {_FORMS[KIND_OF[item]]}."
            )
            continue
        found[item] = UnitPrice(price.price_cents, per)
    return found, told


def read_per(price: planning.UnitPrice, kind: Kind, figures: Figures) -> Amount | None:
    """Read the amount that a price buys, such as ``1 ton`` or ``100 ft``; None if it is none."""
    text = price.per.strip()
    if not any(letter.isdigit() for letter in text.split(" ")[0]):
        text = f"1 {text}"  # "ton" is "1 ton"
    try:
        match kind:
            case Kind.LENGTH:
                return Amount(figures.read_length(text), kind)
            case Kind.VOLUME:
                return Amount(figures.read_volume(text), kind)
            case Kind.MASS:
                return Amount(figures.read_mass(text), kind)
            case _:
                return _read_plain(text, kind)
    except UnreadableError:
        return None


def _read_plain(text: str, kind: Kind) -> Amount | None:
    """Areas, days and pieces."""
    found = _PLAIN.fullmatch(text.lower().replace("\u00b2", "2").replace("sq ft", "ft2"))
    if found is None:
        return None
    size, unit = Fraction(found[1] or 1), found[2]
    if kind is Kind.AREA:
        return Amount(size * _AREA_NM2[unit], kind) if unit in _AREA_NM2 else None
    words = {"day", "days", "d"} if kind is Kind.DAYS else {"", "each", "piece", "load", "coil"}
    return Amount(size, kind) if unit in words else None
