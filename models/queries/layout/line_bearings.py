"""Bearings of lines that are to be laid where nobody says how they run."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Literal

from models.entries.bodies.surfaces import Surface
from models.plan.layout import LayoutTerms
from models.plan.line import LineUse
from models.science.shapes.longest_direction import longest_direction
from models.science.shapes.rings import FULL_TURN_UDEG, PointNm
from models.science.shapes.staking import longest_bearing

Reason = Literal["laid before", "as they lie", "square", "longest", "across", "no longest"]
"""Why lines run as they do: as the layout or the lines that stand, square to the other lines,
along or across the longest way of the surface, or north where no way is longest."""

_QUARTER_UDEG = FULL_TURN_UDEG // 4
_OTHER: dict[LineUse, LineUse] = {"sand_slit": "piped_slit", "piped_slit": "sand_slit"}


@dataclass(frozen=True, slots=True)
class SettledBearing:
    """A bearing that nobody gave, and where it comes from."""

    use: LineUse
    bearing_udeg: int
    reason: Reason


def fill_bearings(
    surface: Surface, terms: Sequence[Any], laid: Sequence[LayoutTerms] = ()
) -> tuple[list[Any], tuple[SettledBearing, ...]]:
    """Give terms that say no bearing the one they run at; return them, and what was settled.

    Parameters
    ----------
    surface : Surface
        The surface with its outline and the lines it has.
    terms : sequence
        ``LayoutTerms``, or mappings of their fields.
    laid : sequence of LayoutTerms
        Terms of the layout that stands.
    """
    asked: dict[LineUse, int | None] = {}
    for one in terms:
        fields = one if isinstance(one, Mapping) else one.model_dump()
        if fields.get("use") in _OTHER:  # any other is refused by the one who reads the terms
            asked[fields["use"]] = fields.get("bearing_udeg")
    laid_udeg = {one.use: one.bearing_udeg for one in laid}
    settled = tuple(settle_bearings(surface, asked, laid_udeg))
    found = {one.use: one.bearing_udeg for one in settled}
    filled = [
        {**one, "bearing_udeg": found[one["use"]]}
        if isinstance(one, Mapping) and one.get("use") in found
        else one
        for one in terms
    ]
    return filled, settled


def settle_bearings(
    surface: Surface,
    asked_udeg: Mapping[LineUse, int | None],
    laid_udeg: Mapping[LineUse, int],
) -> Iterator[SettledBearing]:
    """Settle the bearings that layout terms leave open.

    Lines that were laid keep their way, and so do sand slits that lie on the plan. New piped
    slits run square to the sand slits, so that each crosses them all, and new sand slits
    square to piped ones that are there. Where there is neither, sand slits run along the
    longest way of the surface and piped slits across it (common practice, no source).

    Parameters
    ----------
    surface : Surface
        The surface with its outline and the lines it has.
    asked_udeg : mapping
        Bearing of each use that is to be laid, None where nobody said. [1e-6 degree]
    laid_udeg : mapping
        Bearings of a layout that stands. [1e-6 degree]
    """
    known: dict[LineUse, int] = dict(laid_udeg)
    known |= {use: udeg for use, udeg in asked_udeg.items() if udeg is not None}
    for use in _OTHER:  # sand slits first: new piped slits lie square to them
        if use in asked_udeg and asked_udeg[use] is None:
            settled = _settle(surface, use, known)
            yield settled
            known[use] = settled.bearing_udeg


def _settle(surface: Surface, use: LineUse, known: Mapping[LineUse, int]) -> SettledBearing:
    """One bearing, from the lines that stand or else from the outline."""
    if use in known:
        return SettledBearing(use, known[use], "laid before")
    lying, other = lying_bearing(surface, use), known.get(_OTHER[use])
    if lying is not None and (use == "sand_slit" or other is None):
        return SettledBearing(use, lying, "as they lie")
    if other is None:
        other = lying_bearing(surface, _OTHER[use])
    if other is not None:
        return SettledBearing(use, _square(other), "square")
    way = longest_direction([PointNm(one.x_nm, one.y_nm) for one in surface.outline])
    udeg = way.bearing_udeg if use == "sand_slit" else _square(way.bearing_udeg)
    if not way.is_longer:
        return SettledBearing(use, udeg, "no longest")
    return SettledBearing(use, udeg, "longest" if use == "sand_slit" else "across")


def _square(bearing_udeg: int) -> int:
    """The bearing square to another, below half a turn."""
    return (bearing_udeg + _QUARTER_UDEG) % (2 * _QUARTER_UDEG)


def lying_bearing(surface: Surface, use: LineUse) -> int | None:
    """Bearing of the longest line of a use that the surface has, udeg; None where it has none."""
    ends = [
        (PointNm(line.x1_nm, line.y1_nm), PointNm(line.x2_nm, line.y2_nm))
        for line in surface.lines
        if line.use == use
    ]
    apart = [pair for pair in ends if pair[0] != pair[1]]
    return longest_bearing(apart) if apart else None
