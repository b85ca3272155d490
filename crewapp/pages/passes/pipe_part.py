"""Pipe into piped slits: which line, from which coil, joined and capped, how long."""

from __future__ import annotations

from typing import Any

from crewapp.commands.passes import LayPipe
from crewapp.kit.keys.touchable import MainKey, TapKey
from crewapp.kit.lists.row_list import RowList
from crewapp.kit.look.palette import KEY_MM, ButtonKind, Status
from crewapp.kit.panes.layout import Columns, Rows
from crewapp.pages.frame.parted_page import Part, PartPanes, Stack
from crewapp.pages.passes.view import Coil, LineWork, PassView
from crewapp.words.translate import say


class PipePart(Part):
    """The piped lines at the left; coil, ends and length at the right."""

    back = "hub"

    def build(self) -> None:
        """Make the list of lines and the keys."""
        self.rows = RowList()
        self.rows.bind(on_pick=lambda _, key: self._take_line(key))
        self.coil_key = TapKey(text="", is_logging=False)
        self.coil_key.bind(on_release=lambda _: self._next_coil())
        self.joined = TapKey(text="", is_logging=False)
        self.joined.bind(on_release=lambda _: self._turn("joined"))
        self.capped = TapKey(text="", is_logging=False)
        self.capped.bind(on_release=lambda _: self._turn("capped"))
        self.main = MainKey(text="", high_mm=KEY_MM)
        self.main.bind(on_release=lambda _: self._go_on())
        right, row = Stack(), Columns(high_mm=15.0)
        row.add_widget(self.joined)
        row.add_widget(self.capped)
        left = Rows()
        left.add_widget(self.rows)
        left.add_widget(self.coil_key)
        for part in (row, self.main):
            right.add_widget(part)
        self.add_widget(PartPanes(left, right, share=0.5, high_share=0.55))

    @property
    def lines(self) -> list[LineWork]:
        """Piped lines of the pass."""
        return [line for line in self.page.card.lines if line.use == "piped_slit"]

    @property
    def line_id(self) -> str:
        """The line chosen, or the first without pipe; "" when all have theirs."""
        names = [line.line_id for line in self.lines]
        chosen = str(self.page.choice_of("pipe_line"))
        if chosen in names:
            return chosen
        return next((line.line_id for line in self.lines if not line.pipe_text), "")

    @property
    def coil(self) -> Coil | None:
        """The coil chosen, or the one in use."""
        coils = self.page.card.coils
        chosen = self.page.choice_of("coil_id")
        found = (one for one in coils if one.coil_id == chosen)
        return next(found, coils[0] if coils else None)

    def title(self, view: PassView) -> str:
        """Return the title of this step."""
        return say("Pipe")

    def place(self, view: PassView) -> str:
        """Return the pass's name, for the head."""
        return self.page.card.pass_id

    def fill(self, view: PassView) -> None:
        """Show the lines, the coil and what is true of the ends."""
        now, coil = self.line_id, self.coil
        self.rows.show_rows([pipe_row(line, line.line_id == now) for line in self.lines])
        self.coil_key.text = coil.coil_id if coil else say("No coil came in yet")
        self.coil_key.note = coil.text if coil else say("take one in on Loads")
        for key, name, text in (
            (self.joined, "joined", say("Joined")),
            (self.capped, "capped", say("End cap")),
        ):
            is_on = bool(self.page.draft.get(name))
            key.text, key.note = text, say("yes") if is_on else say("no")
            key.kind = ButtonKind.PRIMARY if is_on else ButtonKind.PLAIN
        self.main.text, self.main.note = (
            (say("Length of pipe"), now) if now else (say("Sand next"), "")
        )
        self.main.disabled = coil is None and bool(now)

    def _go_on(self) -> None:
        """Ask for the length of the line's pipe, or leave for the sand when all have theirs."""
        if self.line_id:
            self.page.ask("pipe")
        else:
            self.page.turn_to("sand")

    def _take_line(self, line_id: str) -> None:
        self.page.keep_draft(pipe_line=line_id)
        self.page.fill()

    def _turn(self, name: str) -> None:
        self.page.keep_draft(**{name: not self.page.draft.get(name)})
        self.page.fill()

    def _next_coil(self) -> None:
        """Take the next coil of the list; the one in use comes first."""
        coils, now = self.page.card.coils, self.coil
        if now is not None:
            after = (coils.index(now) + 1) % len(coils)
            self.page.keep_draft(coil_id=coils[after].coil_id)
            self.page.fill()

    def lay(self, length_nm: int, length_typed: str) -> None:
        """Ink the pipe of the line chosen."""
        coil = self.coil
        if coil is None:
            return
        self.page.do(
            LayPipe(
                surface_id=self.page.view.surface_id,
                line_id=self.line_id,
                material_id=coil.material_id,
                coil_id=coil.coil_id,
                length_nm=length_nm,
                length_typed=length_typed,
                connected=bool(self.page.draft.get("joined")),
                end_capped=bool(self.page.draft.get("capped")),
            )
        )


def pipe_row(line: LineWork, is_chosen: bool) -> dict[str, Any]:
    """Return a piped line as a row of the list."""
    return {
        "key": line.line_id,
        "title": say("{line}, next", line=line.line_id) if is_chosen else line.line_id,
        "detail": line.pipe_text or say("no pipe yet"),
        "status": Status.OK if line.pipe_text else Status.NOT_MEASURED,
    }
