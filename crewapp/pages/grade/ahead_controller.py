"""Go-aheads along a collector: no digging without a ticket, no entering without protection."""

from __future__ import annotations

from crewapp.pages.go_ahead.view import LOCATE, GoAheadView, worst
from crewapp.pages.grade.controller import CollectorPage
from crewapp.words.translate import say

BEFORE_DIGGING = frozenset({"ground", "hub"})


class GoAheads:
    """The go-aheads of the page, and where each is put right."""

    def __init__(self, page: CollectorPage) -> None:
        self.page = page

    def gravest(self) -> GoAheadView | None:
        """Return the go-ahead that weighs most, or None before a collector is read."""
        grade = self.page.view.grade if self.page.view is not None else None
        return worst(grade.trench, grade.dig) if grade is not None else None

    def blocking_go_ahead(self, on: str = "") -> GoAheadView | None:
        """Return why work has to wait, or None; ``on`` is what the rod stands on.

        Ground and hubs are shot before anybody digs.
        """
        gravest = self.gravest()
        is_waiting = gravest is not None and gravest.is_no and on not in BEFORE_DIGGING
        return gravest if is_waiting else None

    def mend(self) -> None:
        """Go where what is missing is put right."""
        gravest = self.gravest()
        if gravest is None:
            return
        if gravest.missing == LOCATE:
            arrival = {"form": "ticket"} if gravest.is_no else {"part": "tickets"}
            self.page.shell.go("day", **arrival)
        else:
            self.page.controllers["cover"].protect(gravest)

    def look(self) -> None:
        """Go where a reason may be given, or where what is missing is put right."""
        if self.blocking_go_ahead() is not None:
            self.page.turn_to("anyway")
        else:
            self.mend()

    def caution(self, part: str) -> str:
        """Say what can hurt somebody at a part of the page."""
        if part in {"setup", "run"}:
            return say("Laser: never stare into the beam; set it above or below eye height.")
        if part in {"cover", "anyway"}:
            return say(
                "Bad air kills: never enter a basin or manhole. Nobody in an unprotected trench."
            )
        return say(
            "Never enter a basin (bad air) or an unprotected trench. Don't stare at the laser."
        )
