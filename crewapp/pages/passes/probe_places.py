"""Where a pass is probed next: near both ends, and never further apart than allowed.

Only the place is proposed; the reading never is.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

STEP_US_NM = 304_800_000
STEP_METRIC_NM = 500_000_000


@dataclass(frozen=True, slots=True)
class ProbeRule:
    """Pattern of a line's probes; a figure of 0 demands nothing."""

    every_nm: int
    end_nm: int


@dataclass(frozen=True, slots=True)
class ProbeStretch:
    """A stretch of a line to be probed: where it begins, how long it is, its rule."""

    from_nm: int
    length_nm: int
    rule: ProbeRule


@dataclass(frozen=True, slots=True)
class ProbePlace:
    """A place to probe: the line and the distance from its start."""

    line_id: str
    along_nm: int


def next_along(
    length_nm: int, taken_nm: Sequence[int], rule: ProbeRule, step_nm: int
) -> int | None:
    """Return the next distance to probe along a line, or None when it has all it needs.

    Distances are whole steps where the rule leaves room for one.
    """
    end = min(rule.end_nm, length_nm) if rule.end_nm else length_nm // 2
    places = sorted(set(taken_nm))
    if not places or (rule.end_nm and places[0] > end):
        return _down(end, step_nm)
    for here, there in zip(places, places[1:], strict=False):
        if rule.every_nm and there - here > rule.every_nm:
            return here + _down(rule.every_nm, step_nm)
    last = length_nm - end if rule.end_nm else places[-1]
    if places[-1] >= last:
        return None
    gap = rule.every_nm or length_nm
    if last - places[-1] <= gap:
        return min(_up(last, step_nm), _on(places[-1], gap, step_nm), length_nm)
    return _on(places[-1], gap, step_nm)


def _down(nm: int, step_nm: int) -> int:
    """Round down to a whole step, unless nothing is left then."""
    whole = nm // step_nm * step_nm
    return whole or nm


def _on(here_nm: int, gap_nm: int, step_nm: int) -> int:
    """Go on by a gap, to a whole step unless that is no step forward."""
    whole = _down(here_nm + gap_nm, step_nm)
    return whole if whole > here_nm else here_nm + gap_nm


def _up(nm: int, step_nm: int) -> int:
    return -(-nm // step_nm) * step_nm


def probes_wanted(stretch: ProbeStretch, taken_nm: Sequence[int], step_nm: int) -> int:
    """Return how many probes a stretch of a line still wants."""
    taken, count = list(taken_nm), 0
    while (along := next_on_line(stretch, taken, step_nm)) is not None and count < 500:
        taken.append(along)
        count += 1
    return count


def next_on_line(stretch: ProbeStretch, taken_nm: Sequence[int], step_nm: int) -> int | None:
    """Return the next place to probe, from the line's start; None when it has all it needs."""
    end_nm = stretch.from_nm + stretch.length_nm
    own = [nm - stretch.from_nm for nm in taken_nm if stretch.from_nm <= nm <= end_nm]
    along = next_along(stretch.length_nm, own, stretch.rule, step_nm)
    if along is None or along in own:
        return None
    return stretch.from_nm + along


def next_place(
    stretches: Mapping[str, ProbeStretch],
    taken: Mapping[str, Sequence[int]],
    step_nm: int,
) -> ProbePlace | None:
    """Return the next place of a pass: nearest to the start, the first leg first.

    A crew walks along the pass once and probes every leg where it stands.
    """
    wanted = []
    for leg, (line_id, stretch) in enumerate(stretches.items()):
        along = next_on_line(stretch, taken.get(line_id, ()), step_nm)
        if along is not None:
            wanted.append((along, leg, line_id))
    if not wanted:
        return None
    along, _, line_id = min(wanted)
    return ProbePlace(line_id, along)
