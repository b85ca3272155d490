"""The allowable misclosure as a person names it."""

from __future__ import annotations

from models.errors import UnreadableError
from models.science.levelling.closure import ALLOWANCES, KM_NM, MILE_NM, Allowance, AllowanceKind
from models.units import LengthUnit, parse_length
from models.units.spec import FOOT_NM

_GROWTH: dict[str, tuple[AllowanceKind, int]] = {
    "setup": (AllowanceKind.SETUPS, KM_NM),
    "sqrt-setup": (AllowanceKind.ROOT_SETUPS, KM_NM),
    "sqrt-mile": (AllowanceKind.ROOT_DISTANCE, MILE_NM),
    "sqrt-km": (AllowanceKind.ROOT_DISTANCE, KM_NM),
    "": (AllowanceKind.FIXED, KM_NM),
}


MOST_NM = FOOT_NM
"""Largest misclosure that may be allowed, 1 ft: 5 typed for 5 mm would let any run of levels in
metres close. Common practice, no source."""


def read_allowance(text: str, unit: LengthUnit) -> Allowance:
    """Read ``third``, ``0.05ft-mile``, ``0.02`` or ``0.02 ft/setup``; a bare number is in ``unit``.

    Raises
    ------
    UnreadableError
        If it is neither the name of a rule nor an amount with what it grows with, or above
        ``MOST_NM``.
    """
    name = " ".join(text.split())
    if name in ALLOWANCES:
        return ALLOWANCES[name]
    amount, slash, growth = name.rpartition("/")
    if not slash:
        amount, growth = name, ""
    growth = growth.strip().casefold()
    if growth not in _GROWTH or (slash and not growth):
        raise UnreadableError(
            text=text,
            what="an allowable misclosure",
            why=f"{growth!r} is not what a misclosure grows with",
            place=len(amount) + 2,
            forms=f"{', '.join(ALLOWANCES)}, 0.02, 0.01/setup, 0.01/sqrt-setup, 0.05/sqrt-mile",
        )
    kind, per_nm = _GROWTH[growth]
    allowed_nm = parse_length(amount, unit)
    if allowed_nm > MOST_NM:
        raise UnreadableError(
            text=text,
            what="an allowable misclosure",
            why="more than 1 ft (0.305 m) is no tolerance of levels",
            place=1,
            forms="5 mm, 0.02 ft, 3.6 mm/sqrt-setup",
        )
    return Allowance(name, kind, allowed_nm, per_nm, "chosen for this run")
