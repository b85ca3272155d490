"""Who and what has hours today: a tap on one asks how long."""

from __future__ import annotations

from typing import Any, ClassVar

from crewapp.palette import TOUCH_MM, Status
from crewapp.screens.parted_page import Part
from crewapp.state.day import DayFace, Worker
from crewapp.widgets.layout import Rows, SectionRule, Turning
from crewapp.widgets.row_list import RowList
from crewapp.wording import say


class HoursPart(Part):
    """Crew at the left, machines at the right; hours that stand are shown."""

    back: ClassVar[str] = "menu"

    def build(self) -> None:
        """Make the two lists."""
        self.crew, self.machines = RowList(TOUCH_MM), RowList(TOUCH_MM)
        self.crew.nothing = say("The plan names no crew.")
        self.machines.nothing = say("The plan names no machine.")
        sides = []
        for text, rows in ((say("Crew"), self.crew), (say("Machines"), self.machines)):
            side = Rows()
            side.add_widget(SectionRule(text=text))
            side.add_widget(rows)
            rows.bind(on_pick=lambda _, key: self._pick(key))
            sides.append(side)
        self.add_widget(Turning(*sides, share=0.56, high_share=0.5))

    def title(self, face: DayFace) -> str:
        """Name the part."""
        return say("Crew, machines")

    def fill(self, face: DayFace) -> None:
        """Show hours that stand, and who has none."""
        for of, rows in (("person", self.crew), ("machine", self.machines)):
            rows.show_rows([worker_row(one) for one in face.workers if one.of == of])

    def _pick(self, key: str) -> None:
        of, _, who = key.partition("/")
        worker = self.page.told.worker(of, who)
        if worker is None:
            return
        if worker.entry_id:
            self.page.turn_to("strike", striking=worker.entry_id, came_from="hours")
        else:
            self.page.filling.begin(f"hours/{key}")


def worker_row(worker: Worker) -> dict[str, Any]:
    """One person or machine as a row of the list."""
    return {
        "key": f"{worker.of}/{worker.who}",
        "title": worker.name,
        "detail": worker.hours or say("no hours yet"),
        "status": Status.OK if worker.hours else Status.NOT_MEASURED,
    }
