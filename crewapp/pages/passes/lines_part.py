"""Choice of the lines that the next pass cuts: tapped in the list, or on the plan."""

from __future__ import annotations

from typing import Any

from crewapp.kit.drawing.plan_canvas import PlanCanvas
from crewapp.kit.keys.touchable import TapKey
from crewapp.kit.lists.row_list import RowList
from crewapp.kit.look.palette import CAP_LEAST_MM, ButtonKind, Status
from crewapp.kit.look.theme import px
from crewapp.kit.panes.layout import Columns, Rows
from crewapp.pages.frame.parted_page import Part, PartPanes
from crewapp.pages.passes.view import PassView, toggle_line
from crewapp.words.translate import say


class LinesPart(Part):
    """Every line of the kind; those of the pass are ticked by a tap."""

    back = "cut"

    def build(self) -> None:
        """Make the plan, the list and the key that takes the lines."""
        self.plan = PlanCanvas(cap_mm=CAP_LEAST_MM)
        self.plan.bind(on_pick=lambda _, key: self._toggle(key))
        self.plan.bind(height=lambda plan, high: setattr(plan, "has_keys", high > px(62.0)))
        self.rows = RowList()
        self.rows.bind(on_pick=lambda _, key: self._toggle(key))
        self.use = TapKey(text="", kind=ButtonKind.PRIMARY)
        self.use.bind(on_release=lambda _: self.page.turn_to("cut"))
        self.next = TapKey(text=say("As proposed"))
        self.next.bind(on_release=lambda _: self._as_proposed())
        right, row = Rows(), Columns(high_mm=15.0)
        row.add_widget(self.next)
        row.add_widget(self.use)
        right.add_widget(self.rows)
        right.add_widget(row)
        self.add_widget(PartPanes(self.plan, right, share=0.45, high_share=0.3))

    def title(self, view: PassView) -> str:
        """Say what is chosen here."""
        return say("Lines of the pass")

    def place(self, view: PassView) -> str:
        """Return the surface's name, for the head."""
        return view.surface_id

    def fill(self, view: PassView) -> None:
        """Show the lines left first, then those cut."""
        self.plan.picture = view.picture
        lines = sorted(view.lines, key=lambda line: line.is_cut)
        self.rows.show_rows([line_row(line, view.picked) for line in lines])
        self.use.text = say("Use {lines}", lines=", ".join(view.picked))
        self.use.disabled = not view.picked

    def _toggle(self, line_id: str) -> None:
        view = self.page.view
        order = tuple(line.line_id for line in view.lines)
        if line_id in order:
            picked = toggle_line(view.picked, line_id, order)
            self.page.choose(picked=list(picked))

    def _as_proposed(self) -> None:
        self.page.choose(picked=[])
        self.page.turn_to("cut")


def line_row(line: Any, picked: tuple[str, ...]) -> dict[str, Any]:
    """Return one line as a row of the list."""
    is_picked = line.line_id in picked
    detail = say("in this pass") if is_picked else say("cut already") if line.is_cut else ""
    return {
        "key": line.line_id,
        "title": line.line_id,
        "detail": detail,
        "figure": line.length_text,
        "status": Status.OK if is_picked else Status.NOT_MEASURED,
    }
