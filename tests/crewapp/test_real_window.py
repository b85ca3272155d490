"""A real mouse on a real X window does whatever a finger does, on every part that is touched."""

from __future__ import annotations

import ast
import re
import time
from collections.abc import Iterator

import pytest

from crewapp.kit.input.key_grammar import KeyKind
from tests.crewapp.real_window import HAS_SCREEN, NO_SCREEN, ROOT, RealWindow

pytestmark = pytest.mark.skipif(not HAS_SCREEN, reason=NO_SCREEN)

PADS = {
    "inch_pad": (("8", "1/8", "Enter"), "took figure 8-1/8"),
    "percent_pad": (("1", ".", "2", "Enter"), "took figure 1.2"),
    "signed_pad": (("\u2212", "5", "Enter"), "took figure -5"),
    "rod_pad": (("5", "4", "3", "Enter"), "took figure 5.43"),
    "station_pad": (("1", "+", "2", "5", "Enter"), "took figure 1+25"),
    "clock_pad": (("0", "9", "3", "0", "Enter"), "took figure 0930"),
    "ticket_pad": (("ABC", "T", "Q", "123", "4", "0", "Enter"), "took figure TQ40"),
    "ending_pad": (("1", "2", ".", "5", "Wet"), "took figure 12.5 wet"),
    "shot_pad": (("5", "4", "3", "Enter"), "took figure 5.43"),
    "code_pad": (("0", "A", "Back one", "Z", "7"), "took typed 0Z7"),
}
"""For each pad that the app has: the keys clicked, and what it told after the last of them."""


@pytest.fixture(scope="module")
def glass(tmp_path_factory: pytest.TempPathFactory) -> Iterator[RealWindow]:
    """One window for every part, shown one after the other."""
    window = RealWindow("tests.crewapp.parts_on_glass", tmp_path_factory.mktemp("home"), "ready")
    yield window
    window.kill()


@pytest.mark.parametrize("pad", PADS)
def test_figure_is_typed_with_a_mouse(glass: RealWindow, pad: str) -> None:
    """Hovering first, from key to key as a hand does; the last thing told is what was typed."""
    keys, told = PADS[pad]
    glass.ask("show", pad)
    glass.hover(keys[-1])
    for key in keys:
        glass.click(key)

    glass.heard(told)


KEYED = {
    "inch_pad": ("11\n", "took figure 11"),
    "percent_pad": ("1,2\n", "took figure 1.2"),
    "rod_pad": ("5443\b\b3\n", "took figure 5.43"),
    "station_pad": ("1+25\n", "took figure 1+25"),
    "shot_pad": ("543\n", "took figure 5.43"),
}


@pytest.mark.parametrize("pad", KEYED)
def test_figure_is_typed_on_a_keyboard(glass: RealWindow, pad: str) -> None:
    """One that is plugged in: the same key twice is two, a comma is a point, Back takes back."""
    typed, told = KEYED[pad]
    glass.ask("show", pad)
    for part in re.split("(\b|\n)", typed):
        names = {"\b": "BackSpace", "\n": "Return"}
        if part in names:
            glass.xdotool("key", names[part])
        elif part:
            glass.type(part)

    glass.heard(told)


CLICKS = {
    "keys": (
        ("bare", "took key bare"),
        ("tap", "took key tap"),
        ("main", "took key main"),
        ("tile", "took key tile"),
        ("copy", "took key copy"),
        ("8-1/8", "took chip 8-1/8"),
        ("second", "took choice two"),
    ),
    "frame": (("Seen", "took answered"), ("Undo", "took undo"), ("Loads", "took tab loads")),
    "inch_pad": (("Close", "took left"),),
    "code_pad": (("Close", "took left"),),
    "shot_pad": (
        ("0+50 invert", "took where"),
        ("+10", "took step 1"),
        ("\u221210", "took step -1"),
        ("Undo", "took undo"),
    ),
    "card": (("It matches", "took card"),),
    "rain_lock": (("Pass", ""), ("now here", "took do pass")),
}
"""Keys that are no figure's, and what each told."""


@pytest.mark.parametrize("part", CLICKS)
def test_key_is_clicked(glass: RealWindow, part: str) -> None:
    """Each key of the part does its work under the mouse, the pointer never off the window."""
    glass.ask("show", part)
    for key, told in CLICKS[part]:
        glass.click(key)
        if told:
            glass.heard(told)


def test_question_is_answered_with_a_mouse(glass: RealWindow) -> None:
    """90 for 9: the offer is clicked, after a slip was erased."""
    glass.ask("show", "inch_pad")
    for key in ("9", "3", "Erase", "0", "Enter", "9 in"):
        glass.click(key)
    glass.heard("took figure 9 in")


@pytest.mark.parametrize("button", [2, 3, 4, 5])
def test_other_buttons_are_no_finger(glass: RealWindow, button: int) -> None:
    """Right, middle and wheel over a key write nothing, and the left one goes on as before."""
    glass.ask("show", "inch_pad")
    glass.click("8", button)
    glass.click("Enter", button)
    for key in ("7", "Enter"):
        glass.click(key)
    glass.heard("took figure 7")


def test_pointer_that_left_the_window_comes_back(glass: RealWindow) -> None:
    """The pointer goes off the window and comes in again: the next digit is taken."""
    glass.ask("show", "rod_pad")
    glass.click("6")
    glass.xdotool("mousemove", "1370", "890")
    for key in ("2", "1", "Enter"):
        glass.click(key)
    glass.heard("took figure 6.21")


def test_long_press_holds_under_a_hand_that_trembles(glass: RealWindow) -> None:
    """A click does nothing; held, with the pointer never quite still, the key acts once."""
    glass.ask("show", "keys")
    glass.click("held")
    glass.hold("held", 1.2)
    glass.click("tap")
    assert [glass.heard("took") for _ in range(2)] == ["took held", "took key tap"]


def test_keys_come_by_pages(glass: RealWindow) -> None:
    """More turns to keys that had no place; each is where it is seen."""
    glass.ask("show", "keys")
    glass.click("More")
    glass.click("tap")
    glass.heard("took key tap")
    assert glass.ask("at", "paged 0") is None


def test_note_is_written_after_a_click(glass: RealWindow) -> None:
    """A click puts the keyboard into the note; a second one puts the cursor at its end."""
    glass.ask("show", "note")
    glass.click("TextArea")
    glass.type("clay")
    glass.heard("took note clay")
    time.sleep(0.5)  # two clicks at once would choose the word
    glass.click("TextArea", 3)
    glass.click("TextArea")
    glass.type(" at 9")
    glass.heard("took note clay at 9")


def test_name_is_signed_with_a_mouse(glass: RealWindow) -> None:
    """Two strokes with the button down; hovering, the wheel and the right button leave no dot."""
    glass.ask("show", "signature")
    glass.hover("SignaturePad")
    glass.wheel("SignaturePad", 2)
    glass.click("SignaturePad", 3)
    glass.drag("SignaturePad", (200, -100), (60, 140))
    glass.heard("took strokes 1 True")
    glass.drag("SignaturePad", (-150, 30))
    glass.heard("took strokes 2 True")
    glass.click("Wipe")
    glass.heard("took strokes 0 True")


def test_plan_is_pulled_enlarged_and_picked(glass: RealWindow) -> None:
    """A click picks; a pull moves the paper and picks nothing; the wheel enlarges and goes back."""
    glass.ask("show", "plan")
    whole = glass.ask("plan")
    glass.click("line 10.0")
    glass.heard("took line line 10.0")
    glass.wheel("PlanCanvas", 2)
    glass.click("line 10.0")  # by its answer the wheel is known to have been taken in
    glass.heard("took line line 10.0")
    near = glass.ask("plan")
    assert near[2] == pytest.approx(whole[2] * 1.6**2)
    glass.drag("line 10.0", (-120, 40))
    glass.click("+")
    glass.wheel("+", -1)
    glass.click("All")
    glass.click("line 10.0")
    assert glass.heard("took") == "took line line 10.0"
    assert glass.ask("plan") == whole


def test_paper_follows_the_mouse(glass: RealWindow) -> None:
    """Pulled to the left by 120 px, the middle of the glass shows what lay 120 px to its right."""
    glass.ask("show", "plan")
    before = glass.ask("plan")
    glass.drag("line 10.0", (-120, 0))
    glass.click("line 10.0")
    glass.heard("took line line 10.0")
    after = glass.ask("plan")
    assert after[0] - before[0] == pytest.approx(120 / before[2], abs=6 / before[2])


def test_list_is_turned_and_picked(glass: RealWindow) -> None:
    """Rows are picked by a click, turned by the page key, and by the wheel row for row."""
    glass.ask("show", "long_list")
    glass.click("Row 1")
    glass.heard("took row row 1")
    glass.wheel("Row 1", -3)
    glass.click("Row 4")
    glass.heard("took row row 4")
    assert glass.ask("first") == 3
    glass.wheel("Row 4", 2)
    glass.click("next rows")
    glass.click("Row 9")
    glass.heard("took row row 9")


def test_no_part_is_left_out(glass: RealWindow) -> None:
    """Whatever the app has that is touched, pads above all, was under the mouse here."""
    for part in (*PADS, *CLICKS, "note", "signature", "plan", "long_list"):
        glass.ask("show", part)
    assert touched_classes() | {f"{kind} pad" for kind in KeyKind} <= set(glass.ask("seen"))


def touched_classes() -> set[str]:
    """Name the classes of the app that take touches, or stand on one that does."""
    bases: dict[str, set[str]] = {}
    found = {"Touchable", "TextInput"}
    for folder in ("kit", "pages"):
        for path in (ROOT / "crewapp" / folder).rglob("*.py"):
            for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
                if isinstance(node, ast.ClassDef):
                    bases[node.name] = {one.id for one in node.bases if isinstance(one, ast.Name)}
                    methods = {one.name for one in node.body if isinstance(one, ast.FunctionDef)}
                    found |= {node.name} if "on_touch_down" in methods else set()
    for _ in bases:
        found |= {name for name, stands_on in bases.items() if stands_on & found}
    return found
