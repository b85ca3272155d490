"""Each part does its work under a real finger in a real window."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import pytest

from tests.kivy_env import PROFILES

if TYPE_CHECKING:
    from tests.uidriver import UI


def pad_for(*keys: str) -> Any:
    """Return a depth pad with some keys pressed."""
    from crewapp.kit.gallery.pages import DEPTH
    from crewapp.kit.input.keypad_value import KeypadState
    from crewapp.kit.keys.keypad import Keypad

    state = KeypadState(DEPTH)
    for number, key in enumerate(keys):
        state = state.press(key, number * 1000)
    return Keypad(state)


def test_depth_is_typed_and_entered(ui: UI) -> None:
    """8, 1/8, Enter: three taps give the figure and its text."""
    pad, entered = ui.show(pad_for()), list[tuple[int, str]]()
    pad.bind(on_enter=lambda _, value, text: entered.append((value, text)))
    for name in ("8", "1/8", "enter"):
        ui.tap(pad.touches[name])

    assert entered == [(206_375_000, "8-1/8")]


def test_refused_key_tells_why_and_changes_nothing(ui: UI) -> None:
    """The reason stands where the echo was, and the buzz is called."""
    pad, buzzed = ui.show(pad_for("8", "1/8")), list[str]()
    pad.bind(on_refused=lambda _, reason: buzzed.append(reason))
    ui.tap(pad.touches["3"])

    assert pad.keypad.typed == "8-1/8"
    assert pad.value_line.echo_words.text == buzzed[0]


def test_question_is_answered_by_a_tap(ui: UI) -> None:
    """90 for 9: the eighths give way to what was likely meant."""
    pad, entered = ui.show(pad_for("9", "0")), list[str]()
    pad.bind(on_enter=lambda _, value, text: entered.append(text))
    ui.tap(pad.touches["enter"])
    assert pad.touches["1/8"].parent is None
    ui.tap(pad.touches["?0"])

    assert entered == ["9 in"]


def test_two_fingers_write_nothing(ui: UI) -> None:
    """A palm beside the finger is told, not taken."""
    from tests.uidriver import Finger

    pad = ui.show(pad_for())
    palm = Finger(20, 20).down()
    ui.tap(pad.touches["8"])
    palm.up()

    assert pad.keypad.typed == ""
    assert "fingertip" in pad.keypad.refused


def test_close_leaves_an_empty_pad(ui: UI) -> None:
    """Clear empties; on an empty pad the same key closes it."""
    pad, left = ui.show(pad_for("8")), list[bool]()
    pad.bind(on_leave=lambda _: left.append(True))
    ui.tap(pad.touches["clear"])
    assert (pad.keypad.typed, left) == ("", [])
    ui.wait(0.3)
    ui.tap(pad.touches["clear"])

    assert left == [True]


def test_hold_acts_once_and_only_when_held(ui: UI) -> None:
    """A tap, and a finger that slides off, do nothing; 0.8 s acts once."""
    from crewapp.kit.keys.hold_key import HoldKey
    from tests.uidriver import Finger

    key, held = ui.show(HoldKey(text="Close the day", size_hint=(1, 1))), list[bool]()
    key.bind(on_held=lambda _: held.append(True))
    ui.tap(key)
    finger = Finger(*key.center).down()
    ui.wait(0.3)
    finger.to(key.right + 50, key.center_y)
    ui.wait(0.7)
    finger.up()
    assert held == []
    ui.hold_down(key, 1.3)

    assert (held, key.progress) == ([True], 0.0)


def test_pressed_look_shows_in_the_next_frame(ui: UI) -> None:
    """E16: the ground turns over, and the buzz is called, before the finger lifts."""
    from crewapp.kit.keys import touchable
    from tests.uidriver import Finger

    felt: list[bool] = []
    touchable.on_every_touch(lambda: felt.append(True))
    key = ui.show(touchable.TapKey(text="", size_hint=(1, 1)))
    before = ui.pixel(*key.center)
    finger = Finger(*key.center).down()
    ui.pump(1)
    after = ui.pixel(*key.center)
    finger.up()
    touchable._feel.clear()

    assert (before, after) == ((255, 255, 255), (0, 0, 0))
    assert felt == [True]


def test_signature_is_kept_as_whole_numbers(ui: UI) -> None:
    """Two strokes from corner to corner; Wipe takes both."""
    from crewapp.kit.drawing.signature_pad import SPAN, SignaturePad
    from tests.uidriver import Finger

    pad = ui.show(SignaturePad(name="Foreman", size_hint=(1, 1)))
    x, y, width, height = pad._area()
    finger = Finger(x + 1, y + 1).down()
    finger.to(x + width - 1, y + height - 1)
    finger.up()
    ui.pump(2)
    (first, last), *_ = [(stroke[0], stroke[-1]) for stroke in pad.strokes]
    assert all(0 <= part <= SPAN and isinstance(part, int) for part in (*first, *last))
    assert (first < (20, 20), last > (980, 980)) == (True, True)
    ui.tap(pad.key)

    assert pad.strokes == []


def test_line_on_the_plan_is_picked(ui: UI) -> None:
    """A tap near a line tells its key, also after a zoom."""
    from crewapp.kit.drawing.plan_canvas import PlanCanvas
    from crewapp.kit.drawing.plan_picture import PlanLine, PlanPicture
    from tests.uidriver import Finger

    lines = tuple(PlanLine(str(y), ((0.0, y), (40.0, y))) for y in (5.0, 15.0))
    view = ui.show(PlanCanvas(picture=PlanPicture(((0, 0), (40, 0), (40, 20), (0, 20)), (), lines)))
    picked: list[str] = []
    view.bind(on_pick=lambda _, key: picked.append(key))
    for _ in range(2):
        place = view._seen().place((10.0, 14.6), view.center)
        finger = Finger(*place).down()
        ui.pump(1)
        finger.up()
        ui.pump(1)
        ui.tap(view.keys[0])

    assert picked == ["15.0", "15.0"]


def test_paper_follows_the_finger(ui: UI) -> None:
    """A pulled plan picks nothing, and the point under the finger stays under it."""
    from crewapp.kit.drawing.plan_canvas import PlanCanvas
    from crewapp.kit.drawing.plan_picture import PlanLine, PlanPicture
    from tests.uidriver import Finger

    view = ui.show(PlanCanvas(picture=PlanPicture((), (), (PlanLine("a", ((0, 0), (40, 20))),))))
    picked: list[str] = []
    view.bind(on_pick=lambda _, key: picked.append(key))
    before = view._seen().world(view.center, view.center)
    finger = Finger(*view.center).down()
    for step in range(1, 5):
        finger.to(view.center_x + 30 * step, view.center_y)
        ui.pump(1)
    finger.up()
    ui.pump(1)

    assert picked == []
    after = view._seen().world((view.center_x + 120, view.center_y), view.center)
    assert after == pytest.approx(before, abs=0.1)


@pytest.mark.parametrize("profile", sorted(PROFILES))
def test_long_list_is_turned_without_a_drag(ui: UI, profile: str) -> None:
    """The page keys reach the last row, and a tap on it tells its key."""
    from crewapp.kit.lists.list_row import ListRow
    from crewapp.kit.lists.row_list import RowList

    ui.hold(PROFILES[profile])
    rows, picked = RowList(), list[str]()
    rows.show_rows([{"key": str(n), "title": f"Row {n}"} for n in range(23)])
    ui.show(rows)
    rows.bind(on_pick=lambda _, key: picked.append(key))
    for _ in range(8):
        ui.tap(rows.down)
    last = next(w for w in rows.walk() if isinstance(w, ListRow) and w.key == "22")
    ui.tap(last)

    assert picked == ["22"]
    assert rows.down.disabled


def test_tabs_that_do_not_fit_are_behind_more(ui: UI) -> None:
    """More turns to the rest; a tap there picks."""
    from crewapp.kit.gallery.pages import TABS
    from crewapp.kit.keys.tab_bar import TabBar
    from tests.uidriver import find

    ui.hold(PROFILES["8in"])
    bar, picked = ui.show(TabBar(TABS, current="today", size_hint=(0.12, 0.9))), list[str]()
    bar.bind(on_pick=lambda _, name: picked.append(name))
    ui.tap(next(key for key in bar.children if key.text == "More"))
    ui.tap(find(bar, type(bar.children[0]), text="Settings"))

    assert picked == ["settings"]


def test_undo_has_a_key_only_with_words(ui: UI) -> None:
    """Nothing inked, nothing to touch; then one tap takes it back."""
    from crewapp.kit.marks.undo_strip import UndoStrip

    strip, undone = ui.show(UndoStrip()), list[bool]()
    strip.bind(on_undo=lambda _: undone.append(True))
    assert strip.key.parent is None
    strip.text = "Inked 10:42: depth 8-1/8 in"
    ui.pump(2)
    ui.tap(strip.key)

    assert undone == [True]


def test_chip_gives_its_figure(ui: UI) -> None:
    """One tap a reading; no chip is pressed or dark beforehand."""
    from crewapp.kit.input.chips import Chip
    from crewapp.kit.keys.chip_row import ChipRow
    from crewapp.kit.look.palette import ButtonKind

    row = ui.show(ChipRow([Chip(n, str(n)) for n in range(7)]))
    picked: list[tuple[int, str]] = []
    row.bind(on_pick=lambda _, value, text: picked.append((value, text)))
    assert {(chip.kind, chip.state) for chip in row.children} == {(ButtonKind.PLAIN, "normal")}
    ui.tap(row.children[-4])

    assert picked == [(3, "3")]


def test_note_takes_no_more_than_it_holds(ui: UI) -> None:
    """Typed on the system's keyboard; the end is cut, what stands stays."""
    from crewapp.kit.text.text_area import TextArea

    note = ui.show(TextArea(longest=5))
    note.focus = True
    ui.pump(1)
    ui.type("clay at 9")

    assert note.text == "clay "


def test_card_on_the_glass_is_measured(ui: UI) -> None:
    """Two steps narrower than claimed: the screen has fewer pixels an inch than it says."""
    from crewapp.device.ports import set_true_dpi
    from crewapp.kit.look.theme import px
    from crewapp.kit.marks.card_gauge import CardGauge

    gauge, measured = ui.show(CardGauge()), list[float]()
    gauge.bind(on_measured=lambda _, dpi: measured.append(dpi))
    ui.tap(gauge.keys[0])
    ui.wait(0.1)
    ui.tap(gauge.keys[0])
    ui.tap(gauge.done)
    assert measured == [pytest.approx(149.0 * 84.6 / 85.6)]
    set_true_dpi(measured[0])

    assert px(85.6) == pytest.approx(149.0 * 84.6 / 25.4)
