"""A finding as a sentence, with its figures in the job's units."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from string import Formatter

from models.checks.finding import Fact, Finding
from models.checks.registry import BY_ID
from models.figures import Figures

NOBODY = "a person not named"
"""Who wrote an entry, where no name was set on the tablet."""
_PEOPLE = frozenset({"author", "other"})
_WHEN = frozenset({"after", "at", "calibrated_on", "day", "expires_on", "good_until"})
_MOMENT = re.compile(r"(\d{4}-\d\d-\d\d)((?: \d\d:\d\d)?)")


@dataclass(frozen=True, slots=True)
class _Quantity:
    """A fact that shows itself by the way its place in the message asks for."""

    value: Fact
    shown: Mapping[str, str]

    def __format__(self, spec: str) -> str:
        return self.shown.get(spec, str(self.value))


def sentence(
    finding: Finding,
    figures: Figures,
    message: str | None = None,
    *,
    shown_day: Callable[[str], str] | None = None,
    nobody: str = NOBODY,
) -> str:
    """Write a finding out.

    ``message`` is the check's own template unless one in another language is
    given; ``{depth_nm:depth}`` names a fact and the method of ``Figures`` that
    shows it. Quantities shown the same way are told apart where rounding would
    make them look equal. ``shown_day`` says a day, in words unless given, and
    ``nobody`` stands for an author without a name.
    """
    template = message if message is not None else BY_ID[finding.check].message
    facts = finding.facts
    shown: dict[str, dict[str, str]] = {name: {} for name in facts}
    for name, spec, text in _figures_in(template, facts, figures):
        shown[name][spec] = text
    words = {name: _word(name, facts[name], shown_day or figures.day, nobody) for name in facts}
    return template.format(**{name: _Quantity(words[name], shown[name]) for name in facts})


def _figures_in(
    template: str, facts: Mapping[str, Fact], figures: Figures
) -> list[tuple[str, str, str]]:
    """Facts with the way that the template shows each, and the text of it."""
    ways: dict[str, dict[str, int]] = {}
    for _, name, spec, _ in Formatter().parse(template):
        value = facts.get(name or "")
        if name and spec and isinstance(value, int):
            ways.setdefault(spec, {})[name] = value
    return [
        (name, spec, text)
        for spec, asked in ways.items()
        for name, text in zip(asked, figures.apart(spec, list(asked.values())), strict=True)
    ]


def _word(name: str, value: Fact, shown_day: Callable[[str], str], nobody: str) -> Fact:
    """A fact that is a day in words, one that is a person never without any."""
    if name in _PEOPLE:
        return value or nobody
    found = _MOMENT.fullmatch(value) if name in _WHEN and isinstance(value, str) else None
    return shown_day(found[1]) + found[2] if found else value
