"""Parts that prove: ties of ends to permanent points, tests of sand, sieve sheets."""

from __future__ import annotations

from pathlib import Path
from typing import ClassVar

from crewapp.commands.materials import TakeSieveSheet
from crewapp.kit.keys.key_grid import KeyGrid
from crewapp.kit.keys.touchable import TapKey
from crewapp.kit.lists.row_list import RowList
from crewapp.kit.lists.text_list import FactList
from crewapp.kit.look.palette import TOUCH_MM, ButtonKind
from crewapp.kit.text.path_text import PathLabel
from crewapp.pages.after_rain.parts import KeysPart, facts_of
from crewapp.pages.after_rain.view import AfterRainView
from crewapp.pages.day.forms.menu import MenuKey
from crewapp.pages.frame.folder_text import folder_text
from crewapp.pages.frame.parted_page import Part, PartPanes, Stack
from crewapp.words.translate import say


class TiesPart(Part):
    """Ends to be tied, those of collectors first, then outlets; a tap measures, or sees."""

    back: ClassVar[str] = "built"
    needs_mm = (50.0, 70.0)

    def build(self) -> None:
        """Make the list and the keys."""
        self.rows = RowList(TOUCH_MM)
        self.rows.nothing = say("This job has no collector. Tie the end of a line instead.")
        self.rows.bind(on_pick=lambda _, key: self._pick(key))
        self.point = self._key(say("Permanent point"), "point")
        self.line = self._key(say("End of a line"), "tie/line")
        self.other = self._key(say("Something else"), "tie/other")
        side = Stack()
        side.add_widget(KeyGrid((self.point, self.line, self.other), least_wide_mm=36.0))
        self.add_widget(PartPanes(self.rows, side, share=0.66, high_share=0.6))

    def _key(self, text: str, form: str) -> TapKey:
        key = TapKey(text=text, cap_mm=3.8)
        key.bind(on_release=lambda _: self._begin(form))
        return key

    def title(self, view: AfterRainView) -> str:
        """Return the title of this part."""
        return say("Ties")

    def place(self, view: AfterRainView) -> str:
        """Say what is wanted."""
        return say("two points for each end")

    def fill(self, view: AfterRainView) -> None:
        """Show the ends, and how many points there are to measure from."""
        self.rows.show_rows([row.to_row() for row in (*view.ends, *view.outlets)])
        self.point.note = say("{count} so far", count=len(view.points))
        self.point.kind = ButtonKind.PLAIN if len(view.points) > 1 else ButtonKind.PRIMARY
        for key in (self.line, self.other):
            key.disabled = view.is_closed or not view.points
        self.point.disabled = view.is_closed

    def _pick(self, key: str) -> None:
        sort, _, rest = key.partition("/")
        if sort == "line":
            surface, line, end = rest.split("/", 2)
            self._fill_in("tie/line", surface=surface, line=line, end=end)
        elif sort == "other":
            self._fill_in("tie/other", what=rest)
        elif sort == "outlet":
            self._fill_in("outlet", outlet=rest)
        else:
            self._begin(f"tie/{key}")

    def _fill_in(self, form: str, **place: str) -> None:
        """Begin a form whose place is known: it is where, not a measurement."""
        kept = {**self.page.draft.get("answers", {}), form: dict(place)}
        self.page.keep_draft(answers=kept)
        self._begin(form)

    def _begin(self, form: str) -> None:
        view: AfterRainView = self.page.view
        if not view.is_closed:
            has_points = view.points or form in {"point", "outlet"}
            self.page.filling.begin(form if has_points else "point")


class SandPart(KeysPart):
    """Part with the properties known of each sand and gravel, and tests that say more."""

    back: ClassVar[str] = "loads"
    needs_mm = (50.0, 88.0)

    def lay_out(self) -> None:
        """Put what is known beside the keys."""
        self.list = FactList()
        self.list.nothing = say("This job has no sand and no gravel. A plan file brings them.")
        self.add_widget(PartPanes(self.list, self.keys, share=0.5, high_share=0.42))

    def keys_of(self, view: AfterRainView) -> tuple[MenuKey, ...]:
        """Return the keys of the tests."""
        return (
            MenuKey("box", say("Weigh a box"), say("weight to volume"), True),
            MenuKey("jar", say("Bulking jar"), say("moist to dry"), True),
            MenuKey("sieve", say("Sieve sheet"), say("typed here"), True),
            MenuKey("sheets", say("Sheet from a file"), say("CSV")),
        )

    def title(self, view: AfterRainView) -> str:
        """Return the title of this part."""
        return say("Test the sand")

    def fill(self, view: AfterRainView) -> None:
        """Show what is known and the tests."""
        super().fill(view)
        self.list.show_facts(facts_of(view.sand_facts))


class SheetsPart(Part):
    """Sieve sheets that lie in the inbox; a tap takes one in."""

    back: ClassVar[str] = "sand"

    def build(self) -> None:
        """Build the list of this part."""
        self.rows = RowList(TOUCH_MM)
        self.rows.bind(on_pick=lambda _, key: self._take(key))
        self.none = PathLabel(lines=12, cap_mm=4.0)

    @property
    def folder(self) -> Path:
        """Folder of the tablet's inbox."""
        return Path(self.page.shell.tablet.folder) / "inbox"

    def title(self, view: AfterRainView) -> str:
        """Return the title of this part."""
        return say("Which sieve sheet?")

    def fill(self, view: AfterRainView) -> None:
        """Show what lies there, and whose sheet it would be."""
        found = sorted(self.folder.glob("*.csv")) if self.folder.is_dir() else []
        self.none.said = say(
            "Nothing here. Copy a sieve sheet (CSV) into {folder}",
            folder=folder_text(str(self.folder)),
        )
        rows = [
            {
                "key": f"{one.name}\n{path.name}",
                "title": path.name,
                "detail": say("as the sheet of {material}", material=one.name),
            }
            for path in found
            for one in view.materials
        ]
        self.rows.show_rows(rows)
        shown = self.rows if rows else self.none
        if shown.parent is None:
            self.clear_widgets()
            self.add_widget(shown)

    def _take(self, key: str) -> None:
        material, _, name = key.partition("\n")
        self.page.shell.do(
            TakeSieveSheet(material_id=material, path=str(self.folder / name)),
            lambda _: self.page.turn_to("sand"),
        )
