"""Colours of buried utilities against the published uniform colour code for marking them."""

from __future__ import annotations

import colorsys
from pathlib import Path

import pytest
from ezdxf.colors import aci2rgb
from PIL import ImageColor

from crewapp.demo import tuesday
from crewapp.kit.look.palette import TONES, rgb
from crewapp.pages.day.forms.answers import MET
from crewapp.words.translate import table
from sync.papers.asbuilt.dxf import styles as dxf_styles
from sync.papers.asbuilt.features.feature_types import LineStatus
from sync.papers.asbuilt.plans.marks import utility_ring
from sync.papers.drawing.marking_code import UtilityKind, utility_kind, utility_name
from sync.papers.drawing.primitives import Mark, Tone
from sync.papers.drawing.tones import PRINT_TONES

# APWA Uniform Color Code for the temporary marking of underground utilities (colours of ANSI
# Z535.1), as one-call centres publish it: callbeforeyoudig.org/apwa-color-code.asp and
# digline.com/utility-color-codes. White is proposed excavation, pink temporary survey.
PUBLISHED = {
    "red": "electric power lines, cables, conduit and lighting cables",
    "yellow": "gas, oil, steam, petroleum",
    "orange": "communication, alarm or signal lines, cables",
    "blue": "potable water",
    "purple": "reclaimed water, irrigation and slurry lines",
    "green": "sewers and drain lines",
}
# What one-call centres mark, in a crew's words, and its colour in the code.
MARKED = {
    "electric": "red",
    "gas": "yellow",
    "oil line": "yellow",
    "steam": "yellow",
    "phone or fibre": "orange",
    "alarm cable": "orange",
    "water main": "blue",
    "potable water": "blue",
    "irrigation pipe": "purple",
    "irrigation lateral, 1-1/4 in, grey": "purple",
    "reclaimed water": "purple",
    "slurry": "purple",
    "sewer": "green",
    "storm drain": "green",
    "old drain": "green",
}
UNNAMED = {"rock", "unknown"}


def hue(red: float, green: float, blue: float) -> float:
    """Angle of a colour on the circle of hues, in degrees."""
    return colorsys.rgb_to_hsv(red, green, blue)[0] * 360


def named_hue(red: float, green: float, blue: float) -> str:
    """Name of the nearest hue, by the names of CSS Color Module Level 4 as Pillow has them."""
    own = hue(red, green, blue)
    hues = {name: hue(*(part / 255 for part in ImageColor.getrgb(name)[:3])) for name in PUBLISHED}
    return min(hues, key=lambda name: abs((own - hues[name] + 180) % 360 - 180))


@pytest.mark.parametrize("kind", UtilityKind)
def test_hues_are_those_of_the_code(kind: UtilityKind) -> None:
    """On paper, on glass and in a drawing each kind has the hue that the code names."""
    told = kind.value
    paper = [part / 255 for part in PRINT_TONES[told.tone]]
    drawn = [part / 255 for part in aci2rgb(told.drawing_colour)]

    assert told.colour in PUBLISHED
    assert named_hue(*paper) == told.colour
    assert named_hue(*rgb(TONES[told.tone])) == told.colour
    assert named_hue(*drawn) == told.colour


def test_every_colour_of_the_code_is_there_once() -> None:
    """Six colours of utilities, six kinds, six letters: none is told by colour alone."""
    assert sorted(kind.value.colour for kind in UtilityKind) == sorted(PUBLISHED)
    assert len({kind.value.letter for kind in UtilityKind}) == len(PUBLISHED)


@pytest.mark.parametrize(("what", "colour"), MARKED.items())
def test_words_lead_to_the_colour_of_the_code(what: str, colour: str) -> None:
    """What a crew writes down gets the colour that the code gives to it."""
    kind = utility_kind(what)
    assert kind is not None
    assert kind.value.colour == colour


@pytest.mark.parametrize("what", MET)
def test_every_choice_on_the_tablet_has_its_colour_in_both_languages(what: str) -> None:
    """A find picked in Spanish is of the same kind as in English; rock is of none."""
    assert utility_kind(table("es")[what]) is utility_kind(what)
    assert (utility_kind(what) is None) == (what in UNNAMED)


def test_irrigation_is_never_the_blue_of_drinking_water() -> None:
    """The ring round an irrigation line is purple, with its letter beside it."""
    ring = next(iter(utility_ring("irrigation pipe", (0.0, 0.0))))

    assert isinstance(ring, Mark)
    assert ring.tone is Tone.RECLAIMED
    assert utility_name(3, "irrigation pipe") == "U3 R"
    assert not list(utility_ring("rock", (0.0, 0.0)))


def test_the_demo_marks_its_irrigation_line_in_the_colour_of_the_code() -> None:
    """The find of the demo's second day is an irrigation lateral: paint in purple, not blue."""
    told = Path(tuesday.__file__).read_text("utf-8")
    assert "marked with purple paint" in told
    assert "blue paint" not in told


def test_our_own_drains_are_drawn_in_the_colour_of_drains() -> None:
    """Collectors and piped slits are drains: in a drawing green, never the blue of water."""
    pipes = (dxf_styles.PLANNED_PIPE, dxf_styles.LAID_PIPE, dxf_styles.INVERT, dxf_styles.JOINT)
    for layer in (*pipes, dxf_styles.LINE_LAYERS[LineStatus.PIPED]):
        assert named_hue(*(part / 255 for part in aci2rgb(layer.colour))) == "green", layer.name
