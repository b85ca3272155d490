"""A24: an outlet to which nobody has given leave."""

from __future__ import annotations

from collections.abc import Iterator

from models.audit.plan_view import PlanView
from models.audit.rule import FaultTemplate, Level, PlanFault, Rule


def _examine(view: PlanView) -> Iterator[PlanFault]:
    for name, outlet in view.outlets.items():
        if outlet.permission in {"not_asked", "asked"}:
            yield PlanFault(
                RULE.id,
                outlet.permission,
                ("outlet", name),
                "permission",
                facts={"outlet_id": name},
            )


RULE = Rule(
    id="A24",
    problem="Nobody has given leave to let water out where the plan does.",
    why="Water let into a ditch, drain or pond of somebody else can be stopped when all is laid.",
    cure="Ask who owns it, and write down who gave leave and until when.",
    sayings={
        "not_asked": FaultTemplate(
            Level.ASK,
            "Leave to give water to {outlet_id} has not been asked.",
            "leave given, or a reason why none is needed",
        ),
        "asked": FaultTemplate(
            Level.ASK,
            "Leave to give water to {outlet_id} was asked and is not given.",
            "leave given, or a reason why none is needed",
        ),
    },
    kinds=("outlet",),
    examine=_examine,
)
