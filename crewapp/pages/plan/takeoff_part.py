"""The take-off with its arithmetic and prices, and the gates of the water."""

from __future__ import annotations

from typing import Any, ClassVar

from crewapp.kit.keys.touchable import MainKey
from crewapp.kit.lists.fact_list import Fact
from crewapp.kit.lists.row_list import RowList
from crewapp.kit.lists.text_list import FactList
from crewapp.kit.look.palette import KEY_MM
from crewapp.kit.look.theme import px
from crewapp.kit.text.fit_text import FitSentences
from crewapp.pages.frame.parted_page import Part
from crewapp.pages.plan.forms import rain_tiles
from crewapp.pages.plan.list_part import quiet_key
from crewapp.pages.plan.map_part import facts_of
from crewapp.pages.plan.question_fields import RainField, WaterQuestion
from crewapp.pages.plan.tiles_part import TilesPart
from crewapp.pages.plan.view import PlanPageView
from crewapp.words.translate import say

TOLD = "told"
PRICE = WaterQuestion("price")


class TakeoffPart(Part):
    """Every item of the job; a tap tells its arithmetic."""

    back: ClassVar[str] = "plan"

    def build(self) -> None:
        """Build the list of this part."""
        self.rows = RowList()
        self.rows.nothing = say("Nothing to take off yet: no lines are planned.")
        self.rows.bind(on_pick=lambda _, key: self.page.turn_to("item", item=key))
        self.add_widget(self.rows)

    def title(self, view: PlanPageView) -> str:
        """Return the title of this part."""
        return say("Take-off of the job")

    def place(self, view: PlanPageView) -> str:
        """Tell the estimate, where prices were typed."""
        if not view.takeoff.estimate:
            return say("tap a line for its arithmetic")
        return say("estimate {money}", money=view.takeoff.estimate)

    def fill(self, view: PlanPageView) -> None:
        """Show the items, what they rest on last."""
        takeoff = view.takeoff
        rows = [
            {"key": one.key, "title": one.name, "detail": one.price, "figure": one.figure}
            for one in takeoff.items
        ]
        if takeoff.missing or takeoff.basis:
            count = len(takeoff.missing)
            words = say("{count:thing is|things are} not known", count=count) if count else ""
            rows.insert(0, {"key": TOLD, "title": say("What it rests on"), "detail": words})
        if takeoff.money:
            rows.insert(0, {"key": "money", "title": say("Estimate"), "figure": takeoff.estimate})
        self.rows.show_rows(rows)


class ItemPart(Part):
    """The arithmetic of one item, or what the whole take-off rests on."""

    back: ClassVar[str] = "takeoff"

    def build(self) -> None:
        """Make the words and the key for a price."""
        self.told = FactList()
        self.price = quiet_key("", lambda: self.page.ask(PRICE), high_mm=KEY_MM)
        self.add_widget(self.told)

    def title(self, view: PlanPageView) -> str:
        """Return the title: the item's name."""
        key = self.page.draft.get("item")
        names = {TOLD: say("What it rests on"), "money": say("Estimate")}
        item = self.page.item(view)
        return names.get(str(key)) or (item.name if item else "")

    def fill(self, view: PlanPageView) -> None:
        """Show the arithmetic, and the price if there is one."""
        item, takeoff = self.page.item(view), view.takeoff
        if item is not None:
            facts = [Fact(item.figure, item.arithmetic)]
            if item.price:
                facts.append(Fact(say("Price typed"), item.price))
        elif self.page.draft.get("item") == "money":
            facts = facts_of(takeoff.money)
        else:
            facts = [Fact(one, status="check") for one in takeoff.missing]
            facts += [Fact(one) for one in takeoff.basis]
        self.told.show_facts(facts)
        has_price = item is not None and bool(item.per)
        if has_price != (self.price.parent is self):
            (self.add_widget if has_price else self.remove_widget)(self.price)
        self.price.text = say("Type a price")
        self.price.note = say("for {per}", per=item.per) if item is not None and has_price else ""


class GatesPart(Part):
    """Part with the gates: which governs, what would widen it, when the rain is gone."""

    back: ClassVar[str] = "plan"

    def build(self) -> None:
        """Make the words and the way to what they rest on."""
        self.estimate = FitSentences(cap_mm=3.2, size_hint_y=None, height=px(11.0))
        self.rain = quiet_key(say("Sand, rain, pipe"), lambda: self.page.turn_to("rain"))
        self.told = FactList(foot=self.rain)
        for part in (self.estimate, self.told):
            self.add_widget(part)

    def title(self, view: PlanPageView) -> str:
        """Return the title of this part."""
        return say("Gates of the water")

    def place(self, view: PlanPageView) -> str:
        """Return the surface's name, for the head."""
        return view.surface_id

    def fill(self, view: PlanPageView) -> None:
        """Show the gates with the words of an estimate over them."""
        gates = view.gates
        self.estimate.sentences = [gates.estimate] if gates.estimate else []
        facts = [Fact(gates.why_not, status="check")] if gates.why_not else facts_of(gates.rows)
        facts += [Fact(say("Not known"), note, status="check") for note in gates.notes]
        self.told.show_facts(facts)


class RainPart(TilesPart[RainField]):
    """Part with the rain that the gates are reckoned with: typed, never taken for granted."""

    back: ClassVar[str] = "gates"
    share, high_share = 0.3, 0.3
    tile_mm: ClassVar[float] = 36.0

    def feet(self) -> list[Any]:
        """Make the key that inks it."""
        self.ink = MainKey(text=say("Ink it"))
        self.ink.bind(on_release=lambda _: self.page.water.ink_rain())
        return [self.ink]

    def title(self, view: PlanPageView) -> str:
        """Say what it is for."""
        return say("What the gates rest on")

    def take_tap(self, field: RainField) -> None:
        """Ask for one figure."""
        self.page.ask(WaterQuestion(field))

    def fill(self, view: PlanPageView) -> None:
        """Show the figures of the rain."""
        self.plan.picture = view.picture
        self.show_tiles(rain_tiles(view.gates, self.page.water.texts(), view.figures))
        self.say_below(
            [say("Saturated conductivity: from a test of this sand and soil, not from a book.")], ""
        )
        self.ink.disabled = not self.page.water.is_whole(view)
