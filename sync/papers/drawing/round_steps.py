"""Round steps along an axis: from a list of the trade, and past its end as coarse as it takes."""

from __future__ import annotations

from collections.abc import Sequence

_TIMES = 10


def round_step(steps: Sequence[int], least: float) -> int:
    """Return the first of some rising steps that is no less than a wanted one.

    Past the last it is ten times that, a hundred times and so on: an axis has an end,
    however long it is.

    Examples
    --------
    >>> round_step((1, 2, 5), 1.5)
    2
    >>> round_step((1, 2, 5), 60)
    500
    """
    for step in steps:
        if step >= least:
            return step
    step = steps[-1]
    while step < least:
        step *= _TIMES
    return step
