"""Probes: where to probe next, one tap for its depth, the verdict at once."""

from __future__ import annotations

from typing import Any

from kivy.clock import Clock

from crewapp.kit.drawing.plan_canvas import PlanCanvas
from crewapp.kit.keys.chip_row import ChipRow
from crewapp.kit.keys.touchable import MainKey, TapKey, buzz
from crewapp.kit.look.palette import GAP_MM, Status
from crewapp.kit.look.theme import px
from crewapp.kit.marks.status_mark import StatusMark
from crewapp.kit.text.label import TextLabel
from crewapp.pages.frame.parted_page import Part
from crewapp.pages.passes.chips import depth_chips
from crewapp.pages.passes.view import (
    PassView,
    count_probes,
    judge_depth,
    last_reading,
    next_step,
    probes_left,
)
from crewapp.words.translate import say

BAR_MM = 15.0
PLAN_LEAST_MM = 34.0
KEY_WIDE_MM = 19.0
BAR_IN_ONE_MM = 130.0  # narrower than this, the keys of the bar go under it


class ProbePart(Part):
    """A bar (where, how the last one did, the pad, the pass) over chips of depth."""

    has_head = False
    needs_mm = (15.0, 15.0)  # it makes room by itself

    def build(self) -> None:
        """Make the bar, the chips, the plan, and what comes when all are taken."""
        self.where = TapKey(text="", cap_mm=4.2, is_logging=False)
        self.where.bind(on_release=lambda _: self.page.turn_to("place"))
        self.mark = StatusMark(high_mm=BAR_MM, cap_mm=3.6)
        self.mark.words.lines = 3
        self.pad_key = TapKey(text=say("Type it"), is_logging=False, cap_mm=3.8)
        self.pad_key.bind(on_release=lambda _: self.page.ask("depth"))
        self.hub_key = TapKey(text=say("Steps"), cap_mm=3.8)
        self.hub_key.bind(on_release=lambda _: self.page.turn_to("hub"))
        self.chips = ChipRow(cap_mm=4.2)
        self.chips.bind(on_pick=lambda _, value, text: self.take(value, text))
        self.plan = PlanCanvas(has_keys=False)
        self.unit = TextLabel(cap_mm=3.5, lines=2)
        self.go_on = MainKey(text="", is_logging=False)
        self.go_on.bind(on_release=lambda _: self.page.turn_to(self.leads_to))
        self.one_more = TapKey(text=say("One more probe"), high_mm=22.0)
        self.one_more.bind(on_release=lambda _: self.page.turn_to("place"))
        self.is_inking = False
        self.leads_to: str = "hub"
        for part in (self.where, self.mark, self.pad_key, self.hub_key):
            part.size_hint = (None, None)
            self.add_widget(part)
        for part in (self.chips, self.plan, self.unit, self.go_on, self.one_more):
            part.size_hint = (None, None)
        self._arrange = Clock.create_trigger(lambda _: self._place_parts(), -1)
        self.bind(pos=self._arrange, size=self._arrange)

    def do_layout(self, *_: object) -> None:
        """Place the parts by the room there is, not in a column."""
        self._arrange()

    def title(self, view: PassView) -> str:
        """Return no title, since this part shows no head."""
        return ""

    def fill(self, view: PassView) -> None:
        """Show where to probe, and how the last one did."""
        card = self.page.card
        self.is_inking = False
        place = self.page.place_now()
        taken, left = count_probes(card), probes_left(card, view.figures)
        if place is None:
            self.where.text = say("All probed")
            self.where.note = say("{count:probe|probes}", count=taken)
        else:
            along = view.figures.length(place.along_nm)
            self.where.text = say("{line} at {along}", line=place.line_id, along=along)
            self.where.note = self._count(taken, left)
        self._show_last(view)
        line = card.line(place.line_id) if place else None
        self.chips.show_chips(depth_chips(line.limits, view.figures) if line else ())
        unit = say("inches") if view.figures.is_us else say("millimetres")
        self.unit.text = say("Depth in {unit}", unit=unit)
        self.plan.picture = view.picture
        self.pad_key.disabled = place is None
        self.leads_to = next_step(card, view.ground, view.figures) or "hub"
        self.leads_to = "hub" if self.leads_to == "probe" else self.leads_to
        self.go_on.text = {
            "pipe": say("Pipe next"),
            "sand": say("Sand next"),
            "finish": say("Turf next"),
        }.get(self.leads_to, say("On to the pass"))
        self._arrange()

    def _count(self, taken: int, left: int) -> str:
        """Say which probe this is, and the width that goes with it."""
        text = say(
            "probe {number} of {count}", number=taken + 1, count=max(taken + left, taken + 1)
        )
        width = self.page.choice_of("width_typed")
        return say("{text}, width {width}", text=text, width=width) if width else text

    def _show_last(self, view: PassView) -> None:
        row = last_reading(self.page.card)
        if row is None:
            self.mark.status, self.mark.text = Status.NOT_MEASURED, ""
            return
        limits = self.page.card.line(row.line_id)
        verdict = judge_depth(limits.limits if limits else None, row.depth_nm, view.figures)
        self.mark.status = verdict.status
        self.mark.text = say("{reading}, inked", reading=verdict.text)

    def take(self, depth_nm: int, depth_typed: str) -> None:
        """Show the verdict in this frame, buzz if it is out, and send it to be inked."""
        place = self.page.place_now()
        if place is None or self.is_inking:
            return
        self.is_inking = True
        line = self.page.card.line(place.line_id)
        verdict = judge_depth(line.limits if line else None, depth_nm, self.page.view.figures)
        self.mark.status = verdict.status
        self.mark.text = say("{reading} ...", reading=verdict.text)
        if verdict.status is Status.OUT:
            buzz()
            Clock.schedule_once(lambda _: buzz(), 0.25)
        self.page.probe(depth_nm, depth_typed)

    def show_not_inked(self) -> None:
        """Say so where the verdict stands: the reading is not in the book."""
        self.is_inking = False
        self.mark.status, self.mark.text = Status.CHECK, say("not inked: tap it again")

    def _show(self, part: Any, is_shown: bool) -> None:
        if is_shown != (part.parent is self):
            (self.add_widget if is_shown else self.remove_widget)(part)

    def _place_parts(self) -> None:
        """Lay out the bar on top, chips under the thumb, the plan where room is left."""
        bars = self._place_bar()
        room = self.height - bars - px(GAP_MM)
        has_chips = bool(self.chips.children)
        if has_chips:
            self._place_chips(room)
        else:
            self._place_end(room)
        for part in (self.go_on, self.one_more):
            self._show(part, not has_chips and room > px(22.0))

    def _place_bar(self) -> float:
        """Put where and verdict beside the keys, or above them; return the height used."""
        gap, bar, key = px(GAP_MM), px(BAR_MM), px(KEY_WIDE_MM)
        is_wide = self.width >= px(BAR_IN_ONE_MM)
        beside = 2 * key + 2 * gap if is_wide else 0.0
        where = min((self.width - beside - gap) * 0.46, px(60.0))
        y = self.top - bar
        # The mark comes first: where a banner has its key there is none under it.
        wide = self.width - beside - gap - where
        self.mark.pos, self.mark.size = (
            (self.x, y),
            (wide, bar),
        )
        self.where.pos, self.where.size = (self.x + wide + gap, y), (where, bar)
        if not is_wide:
            y -= bar + gap
            key = (self.width - gap) / 2
        self.hub_key.pos, self.hub_key.size = (self.right - key, y), (key, bar)
        self.pad_key.pos, self.pad_key.size = (self.right - 2 * key - gap, y), (key, bar)
        return float(self.top - y)

    def _place_chips(self, room: float) -> None:
        """Give the chips the whole width, or less with the plan beside them."""
        gap = px(GAP_MM)
        beside = self.width * 0.36 if self.width >= self.height else 0.0
        if beside and self.chips.high_for(self.width - beside - gap) > room:
            beside = 0.0
        self.chips.width = self.width - (beside + gap if beside else 0.0)
        fits = self.chips.height <= room + 1
        self._show(self.chips, fits)
        self.chips.pos = (self.right - self.chips.width, self.y)
        left = room - self.chips.height - gap
        self._place_unit(fits, left, room)
        high = left - px(7.0)
        if beside:
            self.plan.pos, self.plan.size = self.pos, (beside, room)
        else:
            self.plan.pos = (self.x, self.chips.top + px(7.0) + gap)
            self.plan.size = (self.width, max(high, 1.0))
        self._show(self.plan, fits and (beside > 0 or high >= px(PLAN_LEAST_MM)))

    def _place_unit(self, fits: bool, left: float, room: float) -> None:
        """Say the unit above the chips if there is room, or why there are none."""
        self._show(self.unit, left > px(7.0) if fits else room > px(7.0))
        if fits:
            self.unit.size = (self.chips.width, px(6.0))
            self.unit.pos = (self.chips.x, self.chips.top + px(1.0))
        else:
            self.unit.text = say("Read the flag below, then tap Seen.")
            self.unit.size, self.unit.pos = (self.width, min(room, px(12.0))), self.pos

    def _place_end(self, room: float) -> None:
        """Show the plan and the two ways on, once every place is probed."""
        gap = px(GAP_MM)
        for part in (self.chips, self.unit):
            self._show(part, False)
        keys = min(px(26.0), room)
        wide = (self.width - gap) * 0.4
        self.one_more.pos, self.one_more.size = self.pos, (wide, keys)
        self.go_on.pos = (self.x + wide + gap, self.y)
        self.go_on.size = (self.width - wide - gap, keys)
        high = room - keys - gap
        self.plan.pos, self.plan.size = (self.x, self.y + keys + gap), (self.width, max(high, 1.0))
        self._show(self.plan, high >= px(PLAN_LEAST_MM / 2))
