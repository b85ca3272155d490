"""Views of a go-ahead before an act: good to go on, look first, or not yet."""

from __future__ import annotations

from dataclasses import dataclass

from crewapp.kit.look.palette import Status
from crewapp.words.translate import translate_later

LOCATE, TRENCH = "locate_ticket", "trench_protection"

REASONS = {
    LOCATE: (
        translate_later("locator is here"),
        translate_later("called in, marks stand"),
        translate_later("dug by hand only"),
    ),
    TRENCH: (
        translate_later("rod from above, nobody in it"),
        translate_later("work from the bank only"),
    ),
}
"""Why work may go on although what guards people is missing, by what is missing."""


@dataclass(frozen=True, slots=True)
class GoAheadView:
    """Go-ahead: ``missing`` says what it is about, ``place`` where.

    ``status`` is OUT for "not yet", CHECK for "look first" and OK; ``mend`` names the one
    key that puts it right. ``from_nm`` and ``to_nm`` are the stretch of a trench.
    """

    missing: str
    place: str
    status: str
    title: str
    text: str
    mend: str = ""
    from_nm: int = 0
    to_nm: int = 0

    @property
    def is_no(self) -> bool:
        """Whether the act has to wait."""
        return self.status == Status.OUT

    @property
    def sentence(self) -> str:
        """Title and text in one sentence."""
        return f"{self.title}: {self.text}"


def worst(*told: GoAheadView | None) -> GoAheadView | None:
    """Return the go-ahead that weighs most; of equals the first."""
    weight = {Status.OUT: 0, Status.CHECK: 1}
    found = [one for one in told if one is not None]
    return min(found, key=lambda one: weight.get(Status(one.status), 2), default=None)
