"""Large slips are recognised and the figure that was meant is offered."""

from __future__ import annotations

import pytest

from crewapp.kit.input.plausible import Band, Bands, verdict

DEPTH = Bands(Band(0, 2400), Band(700, 1100), 900)


@pytest.mark.parametrize(
    ("typed", "meant", "slip"),
    [
        ("90", 9, "point moved"),
        ("0.9", 9, "point moved"),
        ("900", 9, "point left out"),
        ("0.75", 9, "feet for inches"),
        ("108", 9, "inches for feet"),
        ("99", 9, "digit doubled"),
    ],
)
def test_slip_is_undone(typed: str, meant: int, slip: str) -> None:
    """The figure without its slip is offered first, and the slip is named."""
    question = verdict(
        round(float(typed) * 100),
        typed,
        DEPTH,
        lambda text: round(float(text) * 100),
        lambda value: f"{value / 100:g} in",
    )

    assert question is not None
    assert (question.offers[0].value, question.offers[0].slip) == (meant * 100, slip)


def test_swapped_digits_are_undone() -> None:
    """543 for 453 is offered where 453 is expected."""
    bands = Bands(None, Band(440, 460), 450)
    question = verdict(543, "543", bands, int, str)

    assert question is not None
    assert [(offer.value, offer.slip) for offer in question.offers] == [(453, "digits swapped")]


@pytest.mark.parametrize("value", [700, 900, 1100])
def test_limits_of_the_band_are_inside(value: int) -> None:
    """A figure on the limit is expected."""
    assert verdict(value, "9", DEPTH, int, str) is None


def test_weight_was_never_feet_for_inches() -> None:
    """201 tons is 20.1 with its point moved; a twelfth of it is offered for lengths alone."""
    bands = Bands(Band(1, 6000), Band(100, 3000))
    for in_feet in (True, False):
        question = verdict(20100, "201", bands, int, str, in_feet)
        assert question is not None
        slips = {offer.slip for offer in question.offers}
        assert ("point moved" in slips, "inches for feet" in slips) == (True, in_feet)


@pytest.mark.parametrize(
    ("low", "value", "said"),
    [
        (1, 2500, "2500 can't be: 2400 is the most here."),
        (1, 0, "0 can't be: it must be more than nothing."),
        (5, 2500, "2500 can't be: this field holds 5 to 2400."),
    ],
)
def test_impossible_figure_is_told_its_bounds(low: int, value: int, said: str) -> None:
    """The least of a field is said only where it is a figure that a crew would read."""
    question = verdict(value, "x", Bands(Band(low, 2400)), int, str)

    assert question is not None
    assert (question.sentence, question.can_keep) == (said, False)


def test_without_bands_nothing_is_asked() -> None:
    """A field that knows no bands takes any figure."""
    assert verdict(5, "5", Bands(), int, str) is None


def test_nothing_likely_is_offered_for_a_plain_odd_figure() -> None:
    """11.5 in is no slip of 9 in: it is asked about, with nothing put in its mouth."""
    question = verdict(1150, "1150", DEPTH, int, str)

    assert question is not None
    assert question.offers == ()
    assert question.can_keep
