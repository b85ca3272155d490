"""Sentence of a finding, with its figures in the job's units."""

from __future__ import annotations

import re
from collections.abc import Callable

from models.checks.finding import Finding
from models.checks.registry import BY_ID
from models.units.filled_text import Fact, fill_template
from models.units.job_units import Figures

NOBODY = "a person not named"
"""Who wrote an entry, where no name was set on the tablet."""
_PEOPLE = frozenset({"author", "other"})
_WHEN = frozenset({"after", "at", "calibrated_on", "day", "expires_on", "good_until"})
_MOMENT = re.compile(r"(\d{4}-\d\d-\d\d)((?: \d\d:\d\d)?)")


def sentence(
    finding: Finding,
    figures: Figures,
    message: str | None = None,
    *,
    shown_day: Callable[[str], str] | None = None,
    nobody: str = NOBODY,
) -> str:
    """Write a finding as a sentence.

    ``message`` is the check's own template unless one in another language is
    given; ``{depth_nm:depth}`` names a fact and the method of ``Figures`` that
    shows it. Quantities shown the same way are told apart where rounding would
    make them look equal. ``shown_day`` says a day, in words unless given, and
    ``nobody`` stands for an author without a name.
    """
    template = message if message is not None else BY_ID[finding.check].text_of(finding)
    facts = finding.facts
    words = {name: _word(name, facts[name], shown_day or figures.day, nobody) for name in facts}
    return fill_template(template, facts, figures, words)


def _word(name: str, value: Fact, shown_day: Callable[[str], str], nobody: str) -> Fact:
    """A fact that is a day in words, one that is a person never without any."""
    if name in _PEOPLE:
        return value or nobody
    found = _MOMENT.fullmatch(value) if name in _WHEN and isinstance(value, str) else None
    return shown_day(found[1]) + found[2] if found else value
