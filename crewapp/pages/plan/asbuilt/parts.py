"""Parts of the As-built screen: the profile, the quantities, the package."""

from __future__ import annotations

from typing import ClassVar

from crewapp.kit.drawing.drawing_canvas import ProfileCanvas
from crewapp.kit.keys.copy_key import CopyKey
from crewapp.kit.keys.touchable import MainKey, TapKey
from crewapp.kit.lists.fact_list import Fact
from crewapp.kit.lists.text_list import FactList
from crewapp.kit.look.palette import TOUCH_MM
from crewapp.kit.look.theme import px
from crewapp.kit.panes.layout import Columns, SectionRule
from crewapp.kit.text.path_text import PathLabel
from crewapp.pages.frame.parted_page import Part, PartPanes, Stack
from crewapp.pages.plan.asbuilt.package_writer import PackageMaker
from crewapp.pages.plan.list_part import quiet_key
from crewapp.pages.plan.map_part import facts_of
from crewapp.pages.plan.view import PlanPageView
from crewapp.words.translate import say, translate_later

PATH_MM = 14.4
PAPERS = {
    "letter": translate_later("letter"),
    "tabloid": translate_later("tabloid"),
    "a4": translate_later("A4"),
    "a3": translate_later("A3"),
}


class ProfilePart(Part):
    """Two strips on one station axis: the profile with its exaggeration, the deviation."""

    back: ClassVar[str] = "plan"

    def build(self) -> None:
        """Make the strips and the way to another collector."""
        self.rule = SectionRule()
        self.strips = ProfileCanvas()
        self.other = quiet_key(
            say("Another collector"), lambda: self.page.choose("collector"), high_mm=15.0
        )
        self.add_widget(self.rule)
        self.add_widget(self.strips)

    def title(self, view: PlanPageView) -> str:
        """Return the title of this part."""
        return say("Profile as laid")

    def place(self, view: PlanPageView) -> str:
        """Tell the design grade."""
        return view.built.design

    def fill(self, view: PlanPageView) -> None:
        """Show the collector as it stands."""
        built = view.built
        row = next((one for one in built.collectors if one.key == built.collector_id), None)
        self.rule.text = row.title if row else say("No collector yet: a plan file brings it")
        self.strips.layout = built.chart
        if (len(built.collectors) > 1) != (self.other.parent is self):
            (self.remove_widget if self.other.parent else self.add_widget)(self.other)


class QuantitiesPart(Part):
    """Part with quantities placed against quantities planned."""

    back: ClassVar[str] = "plan"

    def build(self) -> None:
        """Build the list of this part."""
        self.told = FactList()
        self.told.nothing = say("Nothing planned and nothing placed yet.")
        self.add_widget(self.told)

    def title(self, view: PlanPageView) -> str:
        """Return the title of this part."""
        return say("Placed against planned")

    def fill(self, view: PlanPageView) -> None:
        """Show the quantities placed and planned."""
        self.told.show_facts(facts_of(view.built.quantities))


class PackagePart(Part):
    """The package written file by file; stopped by the same key; then where it lies."""

    back: ClassVar[str] = "plan"
    needs_mm = (46.0, 76.0)

    def build(self) -> None:
        """Make the words, the paper, and the keys."""
        self.maker = PackageMaker(self.page.shell, self._say)
        self.told = FactList()
        self.paper = TapKey(text="", note=say("paper"))
        self.paper.bind(on_release=lambda _: self._next_paper())
        self.path = PathLabel(lines=4, cap_mm=3.5, size_hint_y=None, height=px(PATH_MM))
        self.copy = CopyKey()
        self.row = Columns(high_mm=TOUCH_MM)
        self.row.add_widget(self.paper)
        self.make = MainKey(text="", is_logging=False)
        self.make.bind(on_release=lambda _: self._make())
        side = Stack()
        for part in (self.path, self.row, self.make):
            side.add_widget(part)
        self.add_widget(PartPanes(self.told, side, share=0.5, high_share=0.35))

    def title(self, view: PlanPageView) -> str:
        """Return the title of this part."""
        return say("As-built package")

    def fill(self, view: PlanPageView) -> None:
        """Show what will be in it and what stands open, or what was made."""
        self.paper.text = say(PAPERS[self._paper()])
        made = self.maker.made
        if made is None:
            about = say(
                "Plan and profile sheets, tables, drawings and data, for whoever digs here next."
            )
            facts = [Fact(about), *(Fact(note, status="check") for note in view.built.notes)]
        else:
            facts = [
                Fact(
                    say("{count:file|files}", count=made.count),
                    say("check code {code}", code=made.code),
                )
            ]
            facts += [Fact(say("Left out: {name}", name=name), why) for name, why in made.left_out]
        self.told.show_facts(facts)
        self._show_keys()

    def _make(self) -> None:
        if self.maker.is_busy:
            self.maker.stop()
        else:
            self.maker.make(self._paper(), self._refill)
        self._show_keys()

    def _paper(self) -> str:
        """Return the paper chosen, or the one that is usual where the job is."""
        usual = "letter" if self.page.view.figures.is_us else "a4"
        kept = str(self.page.draft.get("paper", ""))
        return kept if kept in PAPERS else usual

    def _next_paper(self) -> None:
        names = list(PAPERS)
        after = names[(names.index(self._paper()) + 1) % len(names)]
        self.page.keep_draft(paper=after)
        self._refill()

    def _refill(self) -> None:
        if self.page.view is not None:
            self.fill(self.page.view)

    def _say(self, text: str) -> None:
        self.path.said = text
        self._show_keys()

    def _show_keys(self) -> None:
        """Let the one key begin or stop, and the folder be copied once it is there."""
        self.make.text = say("Stop") if self.maker.is_busy else say("Package out")
        self.copy.copied = str(self.maker.folder) if self.maker.made else ""
        if bool(self.copy.copied) != (self.copy.parent is self.row):
            (self.row.add_widget if self.copy.copied else self.row.remove_widget)(self.copy)
