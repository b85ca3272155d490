"""The palette can be read in the sun, without colour, and by every eye."""

from __future__ import annotations

import math
from itertools import combinations

import pytest

from crewapp.kit.look.palette import (
    DARK,
    INK,
    LOOKS,
    PAGE,
    RULE,
    STATUS,
    TONES,
    ButtonKind,
    ButtonLook,
    Status,
    look_of,
    rgb,
)
from sync.papers.drawing.primitives import Tone

# Machado, Oliveira, Fernandes, "A Physiologically-based Model for Simulation of Color
# Vision Deficiency", IEEE TVCG 15(6), 2009: severity 1.0, for linear RGB. From memory.
MACHADO_2009 = {
    "normal": ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0)),
    "protan": (
        (0.152286, 1.052583, -0.204868),
        (0.114503, 0.786281, 0.099216),
        (-0.003882, -0.048116, 1.051998),
    ),
    "deutan": (
        (0.367322, 0.860646, -0.227968),
        (0.280085, 0.672501, 0.047413),
        (-0.011820, 0.042940, 0.968881),
    ),
    "tritan": (
        (1.255528, -0.076749, -0.178779),
        (-0.078411, 0.930809, 0.147602),
        (0.004733, 0.691367, 0.303900),
    ),
}
Triple = tuple[float, float, float]


def linear(code: str) -> Triple:
    """Return a colour's linear light (IEC 61966-2-1)."""
    red, green, blue = (
        part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in rgb(code)
    )
    return red, green, blue


def luminance(code: str) -> float:
    """Return relative luminance as WCAG 2 defines it."""
    red, green, blue = linear(code)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    """Return the WCAG 2 contrast ratio."""
    dark, light = sorted((luminance(one), luminance(other)))
    return (light + 0.05) / (dark + 0.05)


def lab(light: Triple) -> Triple:
    """Return CIE Lab of linear sRGB, D65 white."""
    rows = (
        (0.4124564, 0.3575761, 0.1804375),
        (0.2126729, 0.7151522, 0.0721750),
        (0.0193339, 0.1191920, 0.9503041),
    )
    white = (0.95047, 1.0, 1.08883)
    parts = []
    for row, full in zip(rows, white, strict=True):
        t = sum(a * b for a, b in zip(row, light, strict=True)) / full
        parts.append(t ** (1 / 3) if t > 216 / 24389 else (24389 / 27 * t + 16) / 116)
    x, y, z = parts
    return 116 * y - 16, 500 * (x - y), 200 * (y - z)


def seen(code: str, eye: str) -> Triple:
    """Return the Lab colour that an eye sees."""
    light = linear(code)
    red, green, blue = (
        min(max(sum(a * b for a, b in zip(row, light, strict=True)), 0.0), 1.0)
        for row in MACHADO_2009[eye]
    )
    return lab((red, green, blue))


def all_looks() -> list[tuple[str, ButtonLook]]:
    """Return every look of every kind of touchable."""
    found = [
        (f"{kind} pressed={down}", look_of(kind, down))
        for kind in ButtonKind
        for down in (False, True)
    ]
    return [*found, ("disabled", look_of(ButtonKind.PLAIN, is_disabled=True))]


def test_contrast_agrees_with_known_figures() -> None:
    """White on black is 21:1, and #005387 and #9B2423 carry white at 8.1 and 7.9."""
    assert round(contrast("#FFFFFF", "#000000"), 6) == 21.0
    assert round(contrast("#FFFFFF", "#005387"), 1) == 8.1
    assert round(contrast("#FFFFFF", "#9B2423"), 1) == 7.9


def test_page_is_white_and_ink_black() -> None:
    """E5: nothing survives the sun but black on white."""
    assert (PAGE, INK) == ("#FFFFFF", "#000000")


@pytest.mark.parametrize(("name", "look"), all_looks(), ids=lambda part: str(part)[:24])
def test_words_stand_out_in_every_state(name: str, look: ButtonLook) -> None:
    """E4: 7:1 for words, 3:1 for an edge against the page or the ground."""
    assert contrast(look.text, look.ground) >= 7.0, name
    assert max(contrast(look.edge, PAGE), contrast(look.ground, PAGE)) >= 3.0, name


def test_pressed_look_differs_for_every_kind() -> None:
    """E16: a press is seen whatever is pressed."""
    assert all(look_of(kind, True).ground != LOOKS[kind].ground for kind in ButtonKind)


@pytest.mark.parametrize("status", Status)
def test_status_words_stand_out(status: Status) -> None:
    """E4 for the four states."""
    assert contrast(STATUS[status].text, STATUS[status].fill) >= 7.0


@pytest.mark.parametrize("code", [INK, RULE, DARK])
def test_no_text_is_grey(code: str) -> None:
    """E5: no tone that words are written in lies between L* 40 and 90."""
    assert lab(linear(code))[0] < 40


def test_states_differ_in_fill_shape_and_word() -> None:
    """E6: three ways to tell each state."""
    for part in ("fill", "shape", "word"):
        assert len({getattr(look, part) for look in STATUS.values()}) == len(Status)


@pytest.mark.parametrize("eye", MACHADO_2009)
def test_states_are_far_apart_for_every_eye(eye: str) -> None:
    """E7: 40 Lab units between any two fills, under each kind of colour vision."""
    for one, other in combinations(STATUS.values(), 2):
        far = math.dist(seen(one.fill, eye), seen(other.fill, eye))
        assert far >= 40, (eye, one.word, other.word, far)


def test_every_tone_has_a_colour() -> None:
    """A drawing can't ask for a tone that the canvas does not know."""
    assert set(TONES) == set(Tone)


def test_marks_in_amber_are_edged() -> None:
    """Amber alone is below 3:1 on white, so its shape is drawn with an ink edge."""
    below = [s for s, look in STATUS.items() if contrast(look.fill, PAGE) < 3.0]

    assert below == [Status.CHECK, Status.NOT_MEASURED]
