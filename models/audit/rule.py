"""A rule of the plan audit and the faults that it reports."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field
from enum import StrEnum

from models.audit.plan_view import PlanView
from models.units.filled_text import Fact, fill_template
from models.units.job_units import Figures


class Level(StrEnum):
    """Weight of a fault of a plan: refuse, ask or note."""

    REFUSE = "refuse"
    """The plan is not written with it."""
    ASK = "ask"
    """It may be meant: it is told, and flagged until somebody answers why it stands."""
    NOTE = "note"
    """Worth knowing."""


@dataclass(frozen=True, slots=True)
class FaultTemplate:
    """Sentences of one fault of a rule: what is met, and what would be accepted.

    Both are templates: ``{width_nm:depth}`` is a fact and the way the job shows it.
    """

    level: Level
    what: str
    accepted: str


Part = tuple[str, str]
"""A kind of plan entry and the name of one: ("surface", "G7")."""


@dataclass(frozen=True, slots=True)
class PlanFault:
    """A fault of a plan: its rule and sentence, the part of the plan, and the facts.

    ``column`` is where in the part it stands, as a plan file names it; ``place`` tells
    several faults of one part apart; ``others`` are parts that it rests on as well.
    """

    rule: str
    saying: str
    part: Part
    column: str = ""
    place: str = ""
    facts: Mapping[str, Fact] = field(default_factory=dict)
    others: tuple[Part, ...] = ()

    @property
    def parts(self) -> tuple[Part, ...]:
        """Every part of the plan that the fault rests on."""
        return (self.part, *self.others)


@dataclass(frozen=True, slots=True)
class Rule:
    """A rule of the audit: its id in the audit's table, what it looks for, why, and the cure.

    ``problem``, ``why`` and ``cure`` hold no figures; ``sayings`` hold them, by a name for
    each way in which the rule is broken. ``kinds`` are the kinds of plan entry it looks at;
    none where it looks at a file.
    """

    id: str
    problem: str
    why: str
    cure: str
    sayings: Mapping[str, FaultTemplate]
    kinds: tuple[str, ...]
    examine: Callable[[PlanView], Iterator[PlanFault]]


def met_text(saying: FaultTemplate, fault: PlanFault, figures: Figures) -> str:
    """Sentence on what was met, without its full stop, in the job's units."""
    return fill_template(saying.what, fault.facts, figures).removesuffix(".")


def accepted_text(saying: FaultTemplate, fault: PlanFault, figures: Figures) -> str:
    """Sentence on what would be accepted in its place."""
    return fill_template(saying.accepted, fault.facts, figures).removesuffix(".")
