"""A finding as a sentence, with its figures in the job's units."""

from __future__ import annotations

from dataclasses import dataclass

from models.checks.finding import Finding
from models.checks.registry import BY_ID
from models.figures import Figures


@dataclass(frozen=True, slots=True)
class _Quantity:
    """A fact that shows itself by the way its place in the message asks for."""

    value: int | str
    figures: Figures

    def __format__(self, spec: str) -> str:
        if not spec or isinstance(self.value, str):
            return str(self.value)
        return str(getattr(self.figures, spec)(self.value))


def sentence(finding: Finding, figures: Figures, message: str | None = None) -> str:
    """Write a finding out.

    ``message`` is the check's own template unless one in another language is
    given; ``{depth_nm:depth}`` names a fact and the method of ``Figures`` that
    shows it.
    """
    template = message if message is not None else BY_ID[finding.check].message
    facts = {name: _Quantity(value, figures) for name, value in finding.facts.items()}
    return template.format(**facts)
