"""Growth of a finding since it was announced, by which it is announced again."""

from __future__ import annotations

from models.checks.finding import Finding, Severity
from models.checks.registry import severity_of

TELL_AGAIN = 2
"""A fault told once is told again when it is so many times as large: derived here."""

_LIMITS = (
    ("depth_nm", "least_nm"),
    ("width_nm", "least_nm"),
    ("cover_nm", "least_nm"),
    ("thick_nm", "least_nm"),
    ("placed_pl", "least_pl"),
    ("grade_ppm", "least_ppm"),
    ("depth_nm", "most_nm"),
    ("width_nm", "most_nm"),
    ("gap_nm", "most_nm"),
    ("apart_nm", "most_nm"),
    ("placed_pl", "most_pl"),
    ("placed_pl", "delivered_pl"),
    ("laid_nm", "delivered_nm"),
    ("drawn_nm", "held_nm"),
    ("length_nm", "planned_nm"),
    ("missed_nm", "allowed_nm"),
)
"""A reading and its limit: ``least_`` from below, any other from above."""
_ALONE = frozenset(
    {"above_nm", "backwards_nm", "count", "loads", "off_nm", "readings", "short_nm", "water_pl"}
)
"""Facts that are larger the worse it is."""


def excess_of(finding: Finding) -> dict[str, int]:
    """Amounts by which a finding exceeds its limits, by fact and limit; empty without limits."""
    facts = finding.facts
    found: dict[str, int] = {}
    for name, limit in _LIMITS:
        reading, edge = facts.get(name), facts.get(limit)
        if isinstance(reading, int) and isinstance(edge, int):
            out = edge - reading if limit.startswith("least_") else reading - edge
            if out > 0:
                found[f"{name}/{limit}"] = out
    for name in _ALONE & facts.keys():
        alone = facts[name]
        if isinstance(alone, int):
            found[name] = abs(alone)
    return found


def has_doubled(now: Finding, told: Finding) -> bool:
    """Whether a finding exceeds any limit twice as far as when it was announced."""
    before = excess_of(told)
    return any(out >= TELL_AGAIN * before.get(name, 0) for name, out in excess_of(now).items())


def exceeds_announced(now: Finding, told: Finding) -> bool:
    """Whether a finding weighs more than when it was announced, or exceeds a limit twice as far."""
    weighs_more = severity_of(now) is Severity.STOP and severity_of(told) is not Severity.STOP
    return weighs_more or has_doubled(now, told)
