"""How the lines are to lie: typed on tiles, drawn at once, laid out by a key that is held."""

from __future__ import annotations

from typing import Any, ClassVar

from crewapp.kit.keys.hold_key import HoldKey
from crewapp.kit.keys.touchable import MainKey
from crewapp.pages.plan.forms import shape_tiles, terms_tiles
from crewapp.pages.plan.question_fields import ShapeTile, TermsTile
from crewapp.pages.plan.tiles_part import TilesPart
from crewapp.pages.plan.view import PlanPageView, Row
from crewapp.words.translate import say


def layout_sentences(rows: tuple[Row, ...]) -> list[str]:
    """Return the results of a layout as sentences."""
    return [": ".join(part for part in (row.title, row.figure, row.detail) if part) for row in rows]


class TermsPart(TilesPart[TermsTile]):
    """The layout of a surface: terms on tiles, the lines as they would lie."""

    back: ClassVar[str] = "plan"

    def feet(self) -> list[Any]:
        """Make the key that lays the lines."""
        self.lay = HoldKey(text=say("Hold: lay so"))
        self.lay.bind(on_held=lambda _: self.page.lay_out())
        return [self.lay]

    def title(self, view: PlanPageView) -> str:
        """Say what is laid out."""
        return say("Lay out {name}", name=view.surface_name)

    def take_tap(self, field: TermsTile) -> None:
        """Ask for one term, or compare bearings."""
        if field == "compare":
            self.page.turn_to("bearings")
        else:
            self.page.ask_term(field)

    def fill(self, view: PlanPageView) -> None:
        """Show the terms, and the lines that they make."""
        self.show_tiles(terms_tiles(view, self.page.use, self.page.typed_of(view.surface_id)))
        preview = view.preview
        self.plan.picture = preview.picture
        told = layout_sentences(preview.rows)
        if not preview.picture.lines:
            told.insert(0, say("No lines yet: type their spacing, and the slit's width and depth."))
        if preview.moves:
            told.insert(
                0, say("Work is written on {lines}: they may not move.", lines=preview.moves)
            )
        self.say_below(told, preview.why_not)
        is_asked = bool(self.page.new or self.page.typed_of(view.surface_id))
        has_lines = bool(preview.picture.lines)
        self.lay.disabled = bool(preview.why_not or preview.moves) or not (is_asked and has_lines)


class ShapePart(TilesPart[ShapeTile]):
    """A new surface: what it is and its measures; its outline is drawn as they are typed."""

    back: ClassVar[str] = "plan"

    def feet(self) -> list[Any]:
        """Make the way to its lines."""
        self.next = MainKey(text=say("Next: its lines"), is_logging=False)
        self.next.bind(on_release=lambda _: self.page.turn_to("terms"))
        return [self.next]

    def title(self, view: PlanPageView) -> str:
        """Return the title of this part."""
        return say("New surface")

    def place(self, view: PlanPageView) -> str:
        """Say that it is not written before its lines are laid."""
        return say("written with its lines")

    def take_tap(self, field: ShapeTile) -> None:
        """Ask for one measure."""
        self.page.ask_shape(field)

    def fill(self, view: PlanPageView) -> None:
        """Show the measures, and the outline that they make."""
        self.show_tiles(shape_tiles(self.page.new, view.figures))
        self.plan.picture = view.preview.picture
        self.say_below(layout_sentences(view.preview.rows), view.preview.why_not)
        self.next.disabled = len(view.preview.picture.outline) < 3
