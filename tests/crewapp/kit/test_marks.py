"""The shapes of the states can be told in grey, and drawings are drawn to size."""

from __future__ import annotations

from itertools import combinations
from typing import TYPE_CHECKING

from sync.papers.drawing.primitives import (
    Anchor,
    Drawing,
    Line,
    Mark,
    Polygon,
    Polyline,
    Shape,
    Text,
    Tone,
    translate,
)

if TYPE_CHECKING:
    from tests.uidriver import UI

SIZE = 60


def test_states_differ_in_grey(ui: UI) -> None:
    """E6: with the colour taken away a fifth of the picture still differs in each pair."""
    from kivy.graphics import Fbo

    from crewapp.kit.look.paint import status_shape
    from crewapp.kit.look.palette import Status

    pictures = []
    for status in Status:
        fbo = Fbo(size=(SIZE, SIZE), clear_color=(1, 1, 1, 1))
        with fbo:
            status_shape(status, (SIZE / 2, SIZE / 2), SIZE * 0.9)
        fbo.clear_buffer()
        fbo.draw()
        data = fbo.pixels
        grey = [sum(data[at : at + 3]) // 3 for at in range(0, len(data), 4)]
        pictures.append(grey)
    for one, other in combinations(pictures, 2):
        differ = sum(abs(a - b) > 60 for a, b in zip(one, other, strict=True))
        assert differ > SIZE * SIZE / 8, differ


def test_drawing_is_drawn_to_size_and_colour(ui: UI) -> None:
    """A 20 by 10 mm drawing on a wide glass: a known point has a known colour."""
    from crewapp.kit.drawing.drawing_canvas import DrawingCanvas

    square = ((0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0))
    drawing = Drawing(20, 10, (Polygon(square, Tone.OK), Line((15, 0), (15, 10), 2, Tone.OUT)))
    view = ui.show(DrawingCanvas(drawing=drawing))
    scale = min(view.width / 20, view.height / 10)
    left, low = view.center_x - 10 * scale, view.center_y - 5 * scale

    seen = [ui.pixel(left + x * scale, low + 5 * scale) for x in (5, 15, 18)]
    assert seen == [(0x00, 0x53, 0x87), (0x9B, 0x24, 0x23), (255, 255, 255)]


def test_every_primitive_can_be_drawn(ui: UI) -> None:
    """Every shape, turned text, a halo, a line without length: nothing raises."""
    from crewapp.kit.drawing.drawing_canvas import DrawingCanvas

    items = [Mark((n * 3.0, 5), shape, 2.5, Tone.INK, n % 2 == 0) for n, shape in enumerate(Shape)]
    items += [
        Text((5, 5), "0+25", 2.9, anchor, True, Tone.INK, 90.0, True)  # type: ignore[misc]
        for anchor in Anchor
    ]
    extra = (Line((1, 1), (1, 1)), Polyline(((0, 0), (5, 5), (9, 0)), is_closed=True))
    bow = Polygon(((0, 0), (9, 9), (9, 0), (0, 9)), Tone.BAND)
    view = ui.show(DrawingCanvas(layout=lambda w, h: Drawing(w, h, (*items, *extra, bow))))

    assert view.canvas.before.length() > 20


def test_dashes_carry_on_round_a_corner() -> None:
    """2 drawn and 1 blank along 3 + 3: the third piece bends."""
    from crewapp.kit.drawing.drawing_canvas import dashes

    pieces = list(dashes([(0, 0), (3, 0), (3, 3)], 2.0, 1.0))

    assert [(piece[0], piece[-1]) for piece in pieces] == [((0, 0), (2, 0)), ((3, 0), (3, 2))]


def test_moved_shifts_every_kind() -> None:
    """A drawing put into a larger one keeps its parts, each shifted alike."""
    parts = (
        Line((0, 0), (1, 1)),
        Polyline(((0, 0), (1, 1))),
        Polygon(((0, 0), (1, 1), (1, 0))),
        Text((0, 0), "a"),
        Mark((0, 0), Shape.DISC),
    )
    there = Drawing(5, 5, parts).translate(10, 20)

    assert tuple(translate(part, -10, -20) for part in there) == parts
    assert there[3] == Text((10, 20), "a")
