"""Mouse, pen, touch and a pointer that hovers: what of it counts as a finger."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import pytest

if TYPE_CHECKING:
    from tests.uidriver import UI


class Mouse:
    """Kivy's own mouse provider, told what a window tells it; events go the whole way."""

    def __init__(self) -> None:
        from kivy.core.window import Window
        from kivy.input.providers.mouse import MouseMotionEventProvider

        self.window = Window
        self.provider = MouseMotionEventProvider("mouse", "disable_multitouch,disable_on_activity")

    def hover(self, widget: Any) -> None:
        """Move the pointer over a widget without a press."""
        self.window.mouse_pos = widget.to_window(*widget.center)
        self.provider.begin_or_update_hover_event(self.window)
        self.dispatch()

    def press(self, widget: Any, button: str = "left") -> None:
        """Press a button over a widget."""
        x, y = widget.to_window(*widget.center)
        self.provider.on_mouse_press(self.window, x, self.window.height - y, button, [])
        self.dispatch()

    def release(self, widget: Any, button: str = "left") -> None:
        """Let a button go over a widget."""
        x, y = widget.to_window(*widget.center)
        self.provider.on_mouse_release(self.window, x, self.window.height - y, button, [])
        self.dispatch()

    def click(self, ui: UI, widget: Any, button: str = "left") -> None:
        """Press and let go."""
        self.press(widget, button)
        ui.pump(1)
        self.release(widget, button)
        ui.pump(1)

    def dispatch(self) -> None:
        """Send what waits through the app's own sieve, as the event loop does."""
        from kivy.base import EventLoop

        from crewapp.kit.keys.pointer import FingersOnly

        events: list[tuple[str, Any]] = []
        self.provider.update(lambda *event: events.append(event))
        for kind, event in FingersOnly().process(events):
            EventLoop.post_dispatch_input(kind, event)


@pytest.fixture
def mouse(ui: UI) -> Mouse:
    """A mouse over the clean glass."""
    return Mouse()


def depth_pad() -> Any:
    """Return the pad of a depth, with nothing typed."""
    from crewapp.kit.gallery.pages import DEPTH
    from crewapp.kit.input.keypad_value import KeypadState
    from crewapp.kit.keys.keypad import Keypad

    return Keypad(KeypadState(DEPTH))


def test_digit_is_taken_while_the_pointer_hovers(ui: UI, mouse: Mouse) -> None:
    """The pointer lies over the pad, as a mouse always does, and its button types 8-1/8."""
    pad = ui.show(depth_pad())
    for name in ("8", "1/8"):
        mouse.hover(pad.touches[name])
        mouse.click(ui, pad.touches[name])

    assert (pad.keypad.typed, pad.keypad.refused) == ("8-1/8", "")


def test_finger_is_taken_while_the_pointer_hovers(ui: UI, mouse: Mouse) -> None:
    """A pen or a mouse left lying over the glass does not stop a finger."""
    pad = ui.show(depth_pad())
    mouse.hover(pad.touches["5"])
    ui.tap(pad.touches["8"])

    assert (pad.keypad.typed, pad.keypad.refused) == ("8", "")


def test_palm_beside_the_mouse_is_told(ui: UI, mouse: Mouse) -> None:
    """Two at once are refused whichever came first: mouse and palm are two fingers."""
    from tests.uidriver import Finger

    pad = ui.show(depth_pad())
    mouse.press(pad.touches["8"])
    palm = Finger(20, 20).down()
    mouse.release(pad.touches["8"])
    palm.up()

    assert pad.keypad.typed == ""
    assert "fingertip" in pad.keypad.refused


def test_press_whose_release_got_lost_counts_no_more(ui: UI, mouse: Mouse) -> None:
    """Another window came to the front and kept the release: the next click types as before."""
    pad = ui.show(depth_pad())
    mouse.press(pad.touches["5"])
    mouse.provider.current_drag = None
    mouse.click(ui, pad.touches["8"])

    assert (pad.keypad.typed, pad.keypad.refused) == ("8", "")


@pytest.mark.parametrize("button", ["right", "middle", "mouse4", "mouse5"])
def test_other_button_presses_nothing(ui: UI, mouse: Mouse, button: str) -> None:
    """Only the left button is a finger; what the others do leaves nothing behind."""
    pad = ui.show(depth_pad())
    mouse.click(ui, pad.touches["8"], button)
    assert (pad.keypad.typed, pad.keypad.refused) == ("", "")
    mouse.click(ui, pad.touches["7"])

    assert pad.keypad.typed == "7"


def test_wheel_writes_nothing(ui: UI, mouse: Mouse) -> None:
    """A notch over a key or over the place to sign leaves neither digit nor dot."""
    from crewapp.kit.drawing.signature_pad import SignaturePad

    pad = ui.show(depth_pad())
    mouse.click(ui, pad.touches["8"], "scrollup")
    assert (pad.keypad.typed, pad.keypad.refused) == ("", "")
    ui.root.parent.remove_widget(pad)
    signature = ui.show(SignaturePad(name="Foreman", size_hint=(1, 1)))
    for button in ("scrollup", "scrollleft"):
        mouse.click(ui, signature, button)

    assert signature.strokes == []


def test_app_sieves_what_comes_in(ui: UI) -> None:
    """The sieve stands in Kivy's own row of them, once however often it is asked for."""
    from kivy.base import EventLoop

    from crewapp.kit.keys.pointer import FingersOnly, take_fingers_only

    take_fingers_only()
    take_fingers_only()
    try:
        assert [type(one) for one in EventLoop.postproc_modules].count(FingersOnly) == 1
    finally:
        EventLoop.postproc_modules[:] = [
            one for one in EventLoop.postproc_modules if not isinstance(one, FingersOnly)
        ]
