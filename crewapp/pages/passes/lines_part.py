"""The lines that the next pass cuts, and the pieces that its drive comes to."""

from __future__ import annotations

from typing import Any

from crewapp.kit.drawing.plan_canvas import PlanCanvas
from crewapp.kit.keys.touchable import TapKey
from crewapp.kit.lists.row_list import RowList
from crewapp.kit.look.palette import CAP_LEAST_MM, ButtonKind, Status
from crewapp.kit.look.theme import px
from crewapp.kit.panes.layout import Columns, Rows
from crewapp.kit.text.label import TextLabel
from crewapp.pages.frame.parted_page import Part, PartPanes
from crewapp.pages.passes.view import PassView, drive_question, piece_rows, toggle_line
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


class DrivePart(Part):
    """Pieces that a drive comes to, and the question when its length is not the plan's."""

    back = "cut"

    def build(self) -> None:
        """Make the question, the pieces, and the keys that answer."""
        self.asked = TextLabel(cap_mm=4.2, lines=3)
        self.asked.size_hint_y, self.asked.height = None, px(16.0)
        self.rows = RowList()
        self.rows.bind(on_pick=lambda _, key: self._type_piece(key))
        self.again = TapKey(text=say("Type the length again"))
        self.again.bind(on_release=lambda _: self.page.ask("length"))
        self.use = TapKey(text="", kind=ButtonKind.PRIMARY)
        self.use.bind(on_release=lambda _: self._use())
        row = Columns(high_mm=15.0)
        row.add_widget(self.again)
        row.add_widget(self.use)
        for part in (self.asked, self.rows, row):
            self.add_widget(part)

    def title(self, view: PassView) -> str:
        """Return the title of this part."""
        return say("Pieces of the pass")

    def place(self, view: PassView) -> str:
        """Name the lines, for the head."""
        return ", ".join(view.picked)

    def fill(self, view: PassView) -> None:
        """Show the pieces, by the length that waits for an answer or by the plan."""
        length_nm = self.page.driven_nm()
        self.asked.text = drive_question(view, length_nm)
        self.again.text = say("Type the length again") if length_nm else say("Cut: type the length")
        self.rows.show_rows(piece_rows(view, length_nm, self.page.typed_pieces()))
        agrees = view.drive.match(length_nm).agrees if length_nm else "agrees"
        self.use.text = {
            "stopped": say("Stopped here"),
            "ran_over": say("Ran over the end"),
            "agrees": say("Log the pass") if length_nm else say("Back"),
        }[agrees]

    def _use(self) -> None:
        if self.page.driven_nm():
            self.page.log_pass()
        else:
            self.page.turn_to("cut")

    def _type_piece(self, line_id: str) -> None:
        self.page.keep_draft(piece_line=line_id)
        self.page.ask("piece")


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
