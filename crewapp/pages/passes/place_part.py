"""Where the next probe is taken: its line, its distance, and a width if one is read."""

from __future__ import annotations

from crewapp.kit.input.chips import Chip
from crewapp.kit.keys.chip_row import ChipRow
from crewapp.kit.keys.key_grid import KeyGrid
from crewapp.kit.keys.touchable import TapKey
from crewapp.kit.look.palette import ButtonKind
from crewapp.kit.panes.layout import Columns
from crewapp.pages.frame.parted_page import Part, PartPanes, Stack
from crewapp.pages.passes.chips import place_chips
from crewapp.pages.passes.view import PassCard, PassView, places_out_of_limits
from crewapp.words.translate import say


class PlacePart(Part):
    """Lines as keys, distances as chips: a tap on a distance leads back to the depth."""

    back = "probe"
    needs_mm = (57.0, 88.0)

    def build(self) -> None:
        """Make the lines, the distances, and the keys for the pad."""
        self.lines = KeyGrid(least_wide_mm=17.0, high_mm=18.0)
        self.width_key = TapKey(text=say("Width too"))
        self.width_key.bind(on_release=lambda _: self.page.ask("width"))
        self.along_key = TapKey(text=say("Type the distance"))
        self.along_key.bind(on_release=lambda _: self.page.ask("along"))
        self.chips = ChipRow(is_logging=False, cap_mm=4.0)
        self.chips.bind(on_pick=lambda _, value, text: self._pick(value, text))
        left, right, row = Stack(), Stack(), Columns(high_mm=15.0)
        left.add_widget(self.lines)
        row.add_widget(self.width_key)
        row.add_widget(self.along_key)
        right.add_widget(self.chips)
        right.add_widget(row)
        self.add_widget(PartPanes(left, right, share=0.28, high_share=0.26))

    def title(self, view: PassView) -> str:
        """Say what is chosen here."""
        return say("Where is the probe?")

    def place(self, view: PassView) -> str:
        """Return the pass's name, for the head."""
        unit = say("feet") if view.figures.is_us else say("metres")
        return say("{unit} from its start", unit=unit)

    def _line_id(self) -> str:
        chosen = str(self.page.choice_of("line_id"))
        place = self.page.place_now()
        card = self.page.card
        if card.line(chosen) is not None:
            return chosen
        return place.line_id if place is not None else str(card.lines[0].line_id)

    def fill(self, view: PassView) -> None:
        """Show the lines of the pass and distances along the one chosen."""
        card, now = self.page.card, self._line_id()
        keys = []
        for line in card.lines:
            kind = ButtonKind.PRIMARY if line.line_id == now else ButtonKind.PLAIN
            key = TapKey(text=line.line_id, kind=kind, cap_mm=5.0, high_mm=18.0)
            key.bind(on_release=lambda _, name=line.line_id: self._take_line(name))
            keys.append(key)
        self.lines.show_keys(keys)
        again = places_out_of_limits(card, now)
        made: tuple[Chip, ...] = place_chips(_end_nm(card, now), view.figures, most=7, again=again)
        self.chips.show_chips(made)

    def _take_line(self, line_id: str) -> None:
        self.page.keep_draft(line_id=line_id, along_nm=None, along_typed="")
        self.page.fill()

    def _pick(self, along_nm: int, text: str) -> None:
        self.page.turn_to("probe", line_id=self._line_id(), along_nm=along_nm, along_typed=text)


def _end_nm(card: PassCard, line_id: str) -> int:
    """How far along a line the pass reached."""
    line = card.line(line_id)
    return line.to_nm if line is not None else card.length_nm
