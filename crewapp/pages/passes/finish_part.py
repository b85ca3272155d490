"""The end of a pass: the turf strip put back and rolled, the sand watered in."""

from __future__ import annotations

from kivy.uix.widget import Widget

from crewapp.commands.passes import WaterIn
from crewapp.kit.keys.key_grid import KeyGrid
from crewapp.kit.keys.touchable import MainKey
from crewapp.kit.lists.list_row import ListRow
from crewapp.kit.look.palette import KEY_MM, ButtonKind, Status
from crewapp.pages.frame.parted_page import Part
from crewapp.pages.passes.view import TURF_STEPS, PassView, next_turf
from crewapp.words.translate import say, translate_later

STEP_WORDS = {
    "lifted": translate_later("Turf lifted"),
    "put_back": translate_later("Turf put back"),
    "rolled": translate_later("Turf rolled"),
    "water": translate_later("Watered in"),
}


class FinishPart(Part):
    """Part that finishes a pass: what is done, above; next step and water by a tap, below."""

    back = "hub"
    needs_mm = (57.0, 80.0)

    def build(self) -> None:
        """Make the rows of what is done and the two keys."""
        self.rows = {name: ListRow(key=name) for name in STEP_WORDS}
        self.grid = KeyGrid(least_wide_mm=40.0)
        self.turf = MainKey(text="")
        self.turf.bind(on_release=lambda _: self._turf_done())
        self.water = MainKey(text=say("Watered in"), kind=ButtonKind.PLAIN)
        self.water.bind(on_release=lambda _: self._water_done())
        self.keys = KeyGrid(least_wide_mm=50.0, high_mm=KEY_MM)
        self.add_widget(self.grid)
        self.add_widget(Widget())
        self.add_widget(self.keys)

    def title(self, view: PassView) -> str:
        """Return the title of this step."""
        return say("Turf and water") if view.ground == "green" else say("Water")

    def place(self, view: PassView) -> str:
        """Name the pass and its lines."""
        card = self.page.card
        lines = ", ".join(line.line_id for line in card.lines)
        return say("{name}: {lines}", name=card.pass_id, lines=lines)

    def fill(self, view: PassView) -> None:
        """Show what is done and what comes next, in order."""
        card = self.page.card
        has_turf = view.ground == "green"
        done = set(card.turf_done) | ({"water"} if card.is_watered else set())
        steps = TURF_STEPS[1:] if "lifted" in done else TURF_STEPS[:2]  # what fits in one row
        names = [*steps, "water"] if has_turf else ["water"]
        for name in names:
            row = self.rows[name]
            row.title = say(STEP_WORDS[name])
            row.detail = say("done") if name in done else say("not yet")
            row.status = Status.OK if name in done else Status.NOT_MEASURED
        self.grid.show_keys([self.rows[name] for name in names])
        step = next_turf(card) if has_turf else ""
        keys = []
        if step:
            self.turf.text = say(STEP_WORDS[step])
            self.turf.note = ", ".join(line.line_id for line in card.lines)
            keys.append(self.turf)
        self.water.kind = ButtonKind.PLAIN if step else ButtonKind.PRIMARY
        keys.append(self.water)
        self.keys.show_keys(keys)

    def _turf_done(self) -> None:
        card = self.page.card
        step = next_turf(card)
        if step:
            self.page.finish_turf(step)

    def _water_done(self) -> None:
        self.page.do(WaterIn(surface_id=self.page.view.surface_id, pass_id=self.page.card.pass_id))
