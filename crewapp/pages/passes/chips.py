"""The chips of slit work: lengths, depths and places, in the steps a tape is read in."""

from __future__ import annotations

from crewapp.kit.input.chips import Chip, chips
from crewapp.pages.passes.view import DepthLimits, PassView
from models.units import LengthStyle, show_length
from models.units.job_units import Figures

EIGHTH_NM, FIVE_MM_NM, MM_NM = 3_175_000, 5_000_000, 1_000_000
HALF_FOOT_NM, FIFTH_METRE_NM = 152_400_000, 200_000_000
PLACE_STEPS_US_NM = tuple(feet * 304_800_000 for feet in (1, 2, 5, 10, 20, 50, 100))
PLACE_STEPS_METRIC_NM = tuple(metres * 500_000_000 for metres in (1, 2, 4, 10, 20, 40))
ENOUGH = 99


def depth_number(figures: Figures, nm: int) -> str:
    """Return a depth as it would be typed, without its unit."""
    style = LengthStyle.IN_8 if figures.is_us else LengthStyle.MM
    return show_length(nm, style, unit=False)


def length_number(figures: Figures, nm: int) -> str:
    """Return a length along the ground as it would be typed, without its unit."""
    style = LengthStyle.FT_10 if figures.is_us else LengthStyle.M_100
    return show_length(nm, style, unit=False)


def depth_chips(limits: DepthLimits | None, figures: Figures) -> tuple[Chip, ...]:
    """Return chips of depth from one step below the least to one above the most.

    They lie round the design, or where it is no whole figure of the job's units, such as 9 in
    in a metric job, on the whole steps next to it: what a chip says is what is inked.
    """
    if limits is None:
        return ()
    step, whole = (EIGHTH_NM, EIGHTH_NM) if figures.is_us else (FIVE_MM_NM, MM_NM)
    design_nm = limits.design_nm
    near = design_nm if design_nm % whole == 0 else (design_nm + step // 2) // step * step
    return chips(
        near,
        limits.least_nm,
        limits.most_nm,
        (step,),
        lambda nm: depth_number(figures, nm),
        most=ENOUGH,
    )


def length_chips(view: PassView) -> tuple[Chip, ...]:
    """Return seven chips of length round the planned one; none for lines without a length."""
    if not view.planned_nm:
        return ()
    step = HALF_FOOT_NM if view.figures.is_us else FIFTH_METRE_NM
    near = view.planned_nm // step * step
    return chips(
        near,
        near - 2 * step,
        near + 2 * step,
        (step,),
        lambda nm: length_number(view.figures, nm),
        most=ENOUGH,
    )


def place_chips(
    length_nm: int, figures: Figures, most: int = 12, again: tuple[int, ...] = ()
) -> tuple[Chip, ...]:
    """Return chips of distance from the start to the end of a line, in one even step.

    Those of ``again`` come first, whatever the step: places to be probed once more.
    """
    steps = PLACE_STEPS_US_NM if figures.is_us else PLACE_STEPS_METRIC_NM
    first = again[: most // 2]
    step = next((one for one in steps if length_nm // one < most - len(first)), steps[-1])
    places = dict.fromkeys((*first, *range(0, length_nm + 1, step)))
    return tuple(Chip(nm, length_number(figures, nm).removesuffix(".0")) for nm in places)
