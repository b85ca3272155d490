"""List of people and machines with their hours today; a tap asks how long."""

from __future__ import annotations

from typing import Any, ClassVar

from crewapp.kit.lists.row_list import RowList
from crewapp.kit.look.palette import TOUCH_MM, Status
from crewapp.pages.day.view import DayView, Worker
from crewapp.pages.frame.parted_page import Part
from crewapp.words.translate import say


class HoursPart(Part):
    """Part with hours of the crew first, then of the machines."""

    back: ClassVar[str] = "menu"
    needs_mm = (33.0, 51.0)

    def build(self) -> None:
        """Build the list of this part."""
        self.rows = RowList(TOUCH_MM)
        self.rows.nothing = say("The plan names no crew and no machine.")
        self.rows.bind(on_pick=lambda _, key: self._pick(key))
        self.add_widget(self.rows)
        self.shown: tuple[Worker, ...] | None = None

    def title(self, view: DayView) -> str:
        """Return the title of this part."""
        return say("Crew, machines")

    def place(self, view: DayView) -> str:
        """Say how many have hours."""
        with_hours = sum(bool(one.hours) for one in view.workers)
        return say("{count} of {all} have hours", count=with_hours, all=len(view.workers))

    def fill(self, view: DayView) -> None:
        """Show hours that stand, and who has none."""
        if view.workers != self.shown:
            self.shown = view.workers
            self.rows.show_rows([worker_row(one) for one in view.workers])

    def _pick(self, key: str) -> None:
        of, _, who = key.partition("/")
        worker = self.page.view.worker(of, who)
        if worker is None:
            return
        if worker.entry_id:
            self.page.turn_to("strike", striking=worker.entry_id, came_from="hours")
        else:
            self.page.filling.begin(f"hours/{key}")


def worker_row(worker: Worker) -> dict[str, Any]:
    """Return a person or a machine as a row of the list."""
    of = say("machine") if worker.of == "machine" else ""
    detail = worker.hours or say("no hours yet")
    return {
        "key": f"{worker.of}/{worker.who}",
        "title": worker.name,
        "detail": f"{of}: {detail}" if of else detail,
        "status": Status.OK if worker.hours else Status.NOT_MEASURED,
    }
