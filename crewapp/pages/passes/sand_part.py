"""Sand into the pass: hoppers by one tap, or an amount typed; the share of the cut filled."""

from __future__ import annotations

from typing import Any

from crewapp.commands.loads import PlaceHopper
from crewapp.commands.passes import PlaceSand
from crewapp.kit.keys.touchable import TapKey
from crewapp.kit.marks.status_mark import StatusMark
from crewapp.kit.panes.layout import Columns
from crewapp.pages.frame.parted_page import Part, PartPanes, Stack
from crewapp.pages.passes.hopper_keys import HopperKeys
from crewapp.pages.passes.view import PassView
from crewapp.words.translate import say


class SandPart(Part):
    """How full the cut is, at the left; one tap for each load, at the right."""

    back = "hub"
    needs_mm = (57.0, 102.4)

    def build(self) -> None:
        """Make the verdict, the keys for typing, and the hoppers."""
        self.mark = StatusMark(high_mm=15.0)
        self.by_volume = self._key(say("By volume"), lambda: self.page.ask("sand_volume"))
        self.by_weight = self._key(say("By weight"), lambda: self.page.ask("sand_weight"))
        self.into = self._key("", self._turn_into)
        self.sort = self._key("", self._next_sort)
        self.hoppers = HopperKeys()
        self.hoppers.bind(on_load=lambda _, tenths, moisture: self._load(tenths, moisture))
        self.unknown = self._key(say("What does a full hopper hold?"), self._ask_hopper)
        left, right = Stack(), Stack()
        first, second = Columns(high_mm=15.0), Columns(high_mm=15.0)
        for row, keys in ((first, (self.by_volume, self.by_weight)), (second, (self.into,))):
            for key in keys:
                row.add_widget(key)
        self.second, self.side = second, right
        for part in (self.mark, first, second):
            left.add_widget(part)
        self.add_widget(PartPanes(left, right, share=0.4, high_share=0.5205))

    def _key(self, text: str, act: Any) -> TapKey:
        key = TapKey(text=text, cap_mm=3.8)
        key.bind(on_release=lambda _: act())
        return key

    @property
    def material_id(self) -> str:
        """The sand in use: the one chosen, or the job's first."""
        sands = [one.key for one in self.page.card.sand.materials]
        chosen = str(self.page.choice_of("material_id"))
        return chosen if chosen in sands else next(iter(sands), "")

    def title(self, view: PassView) -> str:
        """Return the title of this step."""
        return say("Sand")

    def place(self, view: PassView) -> str:
        """Name the pass and its lines."""
        card = self.page.card
        return say("{name}: {detail}", name=card.pass_id, detail=card.sand.detail or self._holds())

    def fill(self, view: PassView) -> None:
        """Show the share of the cut, and what a hopper holds."""
        sand = self.page.card.sand
        self.mark.status, self.mark.text = sand.status, sand.text
        is_whole = self.page.choice_of("into") == "surface"
        self.into.text = say("Into")
        self.into.note = view.surface_id if is_whole else self.page.card.pass_id
        self.sort.text, self.sort.note = say("Sand"), self.material_id
        self._show(self.sort, len(sand.materials) > 1, self.second)
        has_hopper = bool(self._hopper())
        self._show(self.hoppers, has_hopper, self.side)
        self._show(self.unknown, not has_hopper, self.side)

    def _hopper(self) -> str:
        """Return what a full hopper of the sand holds, or nothing."""
        sands = self.page.card.sand.materials
        return next((one.detail for one in sands if one.key == self.material_id), "")

    def _holds(self) -> str:
        holds = self._hopper()
        return str(say("a hopper holds {volume}", volume=holds)) if holds else self.material_id

    @staticmethod
    def _show(part: Any, is_shown: bool, holder: Any) -> None:
        if is_shown != (part.parent is holder):
            (holder.add_widget if is_shown else holder.remove_widget)(part)

    def _turn_into(self) -> None:
        now = self.page.choice_of("into")
        self.page.keep_draft(into="" if now == "surface" else "surface")
        self.page.fill()

    def _next_sort(self) -> None:
        names = [one.key for one in self.page.card.sand.materials]
        place = names.index(self.material_id) if self.material_id in names else -1
        self.page.keep_draft(material_id=names[(place + 1) % len(names)])
        self.page.fill()

    def _ask_hopper(self) -> None:
        self.page.ask("hopper")

    @property
    def pass_id(self) -> str:
        """The pass that the sand goes into, "" for the whole surface."""
        return "" if self.page.choice_of("into") == "surface" else self.page.card.pass_id

    def _load(self, tenths: int, moisture: str) -> None:
        self.page.do(
            PlaceHopper(
                surface_id=self.page.view.surface_id,
                material_id=self.material_id,
                pass_id=self.pass_id,
                loads_tenths=tenths,
                moisture=moisture,
            )
        )

    def place_sand(
        self,
        moisture: str,
        *,
        amount_typed: str,
        volume_pl: int | None = None,
        mass_ug: int | None = None,
    ) -> None:
        """Ink an amount that was typed."""
        self.page.do(
            PlaceSand(
                surface_id=self.page.view.surface_id,
                material_id=self.material_id,
                pass_id=self.pass_id,
                volume_pl=volume_pl,
                mass_ug=mass_ug,
                amount_typed=amount_typed,
                moisture=moisture,
            )
        )
