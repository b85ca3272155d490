"""Real touches in a real window: fingers go in where the touch screen's do."""

from __future__ import annotations

from typing import Any

from kivy.animation import Animation
from kivy.app import App
from kivy.base import EventLoop
from kivy.clock import Clock
from kivy.core.window import Window
from kivy.input.motionevent import MotionEvent
from kivy.metrics import Metrics
from kivy.uix.textinput import TextInput

from tests.kivy_env import Profile

FRAME_S = 1 / 60


class Finger(MotionEvent):
    """One finger on the glass, at a place in window pixels."""

    _next = 0

    def __init__(self, x: float, y: float) -> None:
        Finger._next += 1
        super().__init__("test", Finger._next, self._part(x, y), is_touch=True, type_id="touch")
        self.profile = ["pos"]

    @staticmethod
    def _part(x: float, y: float) -> dict[str, float]:
        return {"x": x / (Window.width - 1), "y": y / (Window.height - 1)}

    def depack(self, args: Any) -> None:
        """Take the place from what a provider would send."""
        self.sx, self.sy = args["x"], args["y"]
        super().depack(args)

    def down(self) -> Finger:
        """Put the finger on the glass."""
        EventLoop.post_dispatch_input("begin", self)
        return self

    def to(self, x: float, y: float) -> Finger:
        """Move it."""
        self.move(self._part(x, y))
        EventLoop.post_dispatch_input("update", self)
        return self

    def up(self) -> None:
        """Lift it."""
        EventLoop.post_dispatch_input("end", self)


class UI:
    """A window of one tablet, and a hand."""

    def __init__(self) -> None:
        EventLoop.ensure_window()
        assert Window is not None, "no window: see SDL_VIDEODRIVER"
        self.window: Any = EventLoop.window
        if EventLoop.status != "started":
            EventLoop.start()
        Clock._max_fps = 0  # else every idle() sleeps for a frame
        self._ahead_s = 0.0
        real = Clock.time
        Clock.time = lambda: real() + self._ahead_s
        self.root: Any = None

    def hold(self, profile: Profile) -> None:
        """Become another tablet, or the same held the other way."""
        Metrics.dpi = profile.dpi
        Window.size = (profile.wide_px, profile.high_px)
        Window.clearcolor = (1, 1, 1, 1)
        self.pump(3)

    def draw(self, is_drawn: bool) -> None:
        """Draw each frame, or lay it out alone: what a touch finds is the same either way."""
        if is_drawn:
            vars(self.window).pop("on_draw", None)
        else:
            self.window.on_draw = lambda: None

    def show(self, root: Any) -> Any:
        """Put a root widget up and let it be laid out."""
        self.root = root
        Window.add_widget(root)
        self.pump(6)
        return root

    def pump(self, frames: int = 3) -> None:
        """Let so many frames pass."""
        for _ in range(frames):
            EventLoop.idle()

    def wait(self, seconds: float) -> None:
        """Let frames pass until so much of the app's time has gone.

        Its clock is set forward by each frame, so that nobody sits through it.
        """
        end = Clock.get_time() + seconds
        while Clock.get_time() < end:
            self._ahead_s += FRAME_S
            EventLoop.idle()

    def tap(self, widget: Any) -> None:
        """Tap the middle of a widget."""
        assert widget.get_root_window() is not None, f"not on the screen: {widget}"
        finger = Finger(*widget.to_window(*widget.center)).down()
        self.pump(1)
        finger.up()
        self.pump(2)

    def hold_down(self, widget: Any, seconds: float) -> None:
        """Press a widget for so long."""
        finger = Finger(*widget.to_window(*widget.center)).down()
        self.wait(seconds)
        finger.up()
        self.pump(2)

    def type(self, text: str) -> None:
        """Type on the system's keyboard."""
        for letter in text:
            Window.dispatch("on_key_down", ord(letter), 0, letter, [])
            Window.dispatch("on_textinput", letter)
            Window.dispatch("on_key_up", ord(letter), 0)
        self.pump(1)

    def pixel(self, x: float, y: float) -> tuple[int, int, int]:
        """Return the colour of one pixel of the root, on the white of the page.

        Drawn anew beside the window: offscreen, the window's own surface was seen
        to keep an older size, and what is read beyond it is anything.
        """
        picture = self.root.export_as_image().texture
        column = int(x - self.root.x)
        row = picture.height - 1 - int(y - self.root.y)  # its first row is the topmost
        start = (row * picture.width + column) * 4
        red, green, blue, cover = picture.pixels[start : start + 4]
        return red + 255 - cover, green + 255 - cover, blue + 255 - cover

    def close(self) -> None:
        """Clear the glass for the next test."""
        for child in Window.children[:]:
            Window.remove_widget(child)
        self._let_go()
        EventLoop.touches.clear()
        Window.release_all_keyboards()
        self.pump(1)

    def _let_go(self) -> None:
        """Forget the page that was up, and have Kivy forget it: thousands of dead widgets."""
        self.root = None
        App._running_app = None
        Animation._instances.clear()
        TextInput._adjust_viewport(None)  # it remembers whom it was called with last
        TextInput._adjust_viewport.cancel()


def find(root: Any, kind: type, **facts: Any) -> Any:
    """Return the one widget below ``root`` of a kind whose properties are as stated."""
    found = [
        w
        for w in root.walk()
        if isinstance(w, kind) and all(getattr(w, k, None) == v for k, v in facts.items())
    ]
    assert len(found) == 1, f"{len(found)} widgets {kind.__name__} {facts}"
    return found[0]
