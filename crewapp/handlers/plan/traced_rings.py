"""Outlines traced in a file, each sound or mended; all faults are reported at once."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from models.errors import CrewError, OutlineError
from models.plan.collector import PlanPoint
from models.queries.layout.lay_lines import plan_points
from models.science.shapes.outline import Trace, require_outline
from models.science.shapes.outline_repair import MendedOutline, mend_outline


class MendedOfferError(CrewError, ValueError):
    """Outlines can't be used as traced, and mended ones are offered for each.

    ``offers`` holds the mended outlines, by the names of the traces.
    """

    code = "outlines.mended_offer"
    sentence = "{fault}\n{offer}"

    def __init__(self, faults: Sequence[OutlineError], offers: dict[str, MendedOutline]) -> None:
        self.offers = offers
        self.problems = list(faults)
        told = [
            f"A mended outline ({name}) is offered, to be looked at before it is taken:\n"
            + "\n".join(f"  {change}" for change in mended.changes)
            for name, mended in offers.items()
        ]
        super().__init__(fault="\n".join(map(str, faults)), offer="\n".join(told))


class OutlinesFaultyError(CrewError, ValueError):
    """Several outlines of one file can't be used, nor all of them mended; each is named."""

    code = "outlines.faulty"
    sentence = "{listing}"


@dataclass(slots=True)
class TracedRings:
    """Outlines of one file being read, and everything that is wrong with them."""

    takes_mended: bool
    faults: list[OutlineError] = field(default_factory=list)
    offers: dict[str, MendedOutline] = field(default_factory=dict)

    def read(self, trace: Trace, least_area_nm2: int) -> tuple[PlanPoint, ...]:
        """Points of a sound outline, or of the mended one if it is taken; else none."""
        try:
            return plan_points(require_outline(trace, least_area_nm2).ring)
        except OutlineError as fault:
            mended = mend_outline(trace, least_area_nm2)
            if mended is not None and self.takes_mended:
                return plan_points(mended.outline.ring)
            self.faults.append(fault)
            if mended is not None:
                self.offers[trace.name] = mended
        return ()

    def refuse(self) -> None:
        """Raise one error for all outlines that can't be used; offer mended ones if all have one.

        Raises
        ------
        MendedOfferError, OutlineError, OutlinesFaultyError
            If there is any.
        """
        if not self.faults:
            return
        if len(self.offers) == len(self.faults):
            raise MendedOfferError(self.faults, self.offers) from self.faults[0]
        if len(self.faults) == 1:
            raise self.faults[0]
        told = tuple(map(str, self.faults))
        raise OutlinesFaultyError(listing="\n".join(told), faults=told)
