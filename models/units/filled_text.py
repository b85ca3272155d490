"""Template of a sentence, filled with facts, each figure in the job's units."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from string import Formatter

from models.units.job_units import Figures

Fact = int | str


@dataclass(frozen=True, slots=True)
class _Quantity:
    """A fact that shows itself by the way its place in the sentence asks for."""

    value: Fact
    shown: Mapping[str, str]

    def __format__(self, spec: str) -> str:
        return self.shown.get(spec, str(self.value))


def fill_template(
    template: str,
    facts: Mapping[str, Fact],
    figures: Figures,
    words: Mapping[str, Fact] | None = None,
) -> str:
    """Fill a template: ``{depth_nm:depth}`` is a fact and the method of ``Figures`` that writes it.

    Figures shown the same way are told apart where rounding would make them look equal.
    ``words`` stand in place of facts that are no figures.
    """
    shown: dict[str, dict[str, str]] = {name: {} for name in facts}
    for name, spec, text in _figures_in(template, facts, figures):
        shown[name][spec] = text
    said = words or {}
    return template.format(
        **{name: _Quantity(said.get(name, facts[name]), shown[name]) for name in facts}
    )


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
        for name, text in zip(asked, figures.show_distinct(spec, list(asked.values())), strict=True)
    ]
