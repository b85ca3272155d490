"""One finger pulls, two pull and enlarge, and only a finger alone that lay still has tapped."""

from __future__ import annotations

import pytest

from crewapp.kit.drawing.plan_fingers import Fingers, PaperMove


def test_shaky_finger_taps() -> None:
    """A wander within the bound moves nothing and is a tap."""
    fingers = Fingers(shaky_px=20)
    fingers.down("a", (100, 100))

    assert fingers.move("a", (112, 95)) is None
    assert fingers.up("a")


def test_finger_past_the_bound_pulls_from_where_it_began() -> None:
    """The first pull makes up for the wander, so that the paper is under the finger."""
    fingers = Fingers(shaky_px=20)
    fingers.down("a", (100, 100))
    fingers.move("a", (115, 100))

    assert fingers.move("a", (125, 100)) == PaperMove(25, 0, 1.0, (125, 100))
    assert fingers.move("a", (125, 130)) == PaperMove(0, 30, 1.0, (125, 130))
    assert not fingers.up("a")


def test_two_fingers_enlarge_about_their_middle() -> None:
    """Apart twice as far: twice as large about the middle between them."""
    fingers = Fingers(shaky_px=20)
    fingers.down("a", (100, 100))
    fingers.down("b", (200, 100))
    pull = fingers.move("b", (300, 100))

    assert pull == PaperMove(50, 0, 2.0, (200, 100))


def test_second_finger_makes_it_no_tap() -> None:
    """Two fingers down at once pick nothing, in whatever order they are lifted."""
    fingers = Fingers(shaky_px=20)
    fingers.down("a", (100, 100))
    fingers.down("b", (200, 100))

    assert [fingers.up("a"), fingers.up("b"), fingers.is_down] == [False, False, False]


def test_finger_left_over_goes_on_pulling() -> None:
    """After one of two is lifted the other pulls without a jump."""
    fingers = Fingers(shaky_px=20)
    fingers.down("a", (100, 100))
    fingers.down("b", (200, 100))
    fingers.up("a")

    assert fingers.move("b", (203, 100)) == PaperMove(3, 0, 1.0, (203, 100))


def test_third_finger_does_nothing() -> None:
    """A palm that comes down too neither pulls nor enlarges."""
    fingers = Fingers(shaky_px=20)
    for name, at in (("a", (100, 100)), ("b", (200, 100)), ("c", (300, 300))):
        fingers.down(name, at)

    assert fingers.move("c", (10, 10)) == PaperMove(0, 0, 1.0, (150, 100))


@pytest.mark.parametrize("to", [(100, 100), (103, 100)])
def test_fingers_on_each_other_do_not_enlarge(to: tuple[float, float]) -> None:
    """Too near for a measure: no leap to endless size."""
    fingers = Fingers(shaky_px=20)
    fingers.down("a", (100, 100))
    fingers.down("b", (200, 100))
    pull = fingers.move("b", to)

    assert pull is not None
    assert pull.times == 1.0
