"""The look as plain figures: colours, states, sizes. No Kivy, so no window.

Black ink on a white page, as in a field book read in the sun. Colour is never
the only bearer of a meaning: each state also has a shape and a word.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from sync.papers.drawing.primitives import Shape, Tone
from sync.papers.drawing.tones import hex_code

PAGE = hex_code(Tone.PAPER)
INK = hex_code(Tone.INK)
RULE = hex_code(Tone.RULE)  # edges and ruled lines that must be seen, never text
FEINT = "#D9D9D9"  # ground behind ink (pressed key, band), never carries a meaning alone
BLUE = hex_code(Tone.OK)
AMBER = hex_code(Tone.CHECK)
OXIDE = hex_code(Tone.OUT)
DARK = "#2E2E2E"  # the second ink: text that waits, a design line

# As on paper, but for two: in the sun the second ink is darker and the band heavier.
TONES: dict[Tone, str] = {tone: hex_code(tone) for tone in Tone}
TONES |= {Tone.BAND: FEINT, Tone.PLANNED: DARK}


class Status(StrEnum):
    """The four states of a reading, best first but for the one not yet read."""

    OK = "ok"
    CHECK = "check"
    OUT = "out"
    NOT_MEASURED = "not measured"


@dataclass(frozen=True, slots=True)
class StatusLook:
    """Look of one state: fill, text on the fill, shape and word."""

    fill: str
    text: str
    shape: Shape
    word: str
    tone: Tone


STATUS: dict[Status, StatusLook] = {
    Status.OK: StatusLook(BLUE, PAGE, Shape.DISC, "OK", Tone.OK),
    Status.CHECK: StatusLook(AMBER, INK, Shape.TRIANGLE, "CHECK", Tone.CHECK),
    Status.OUT: StatusLook(OXIDE, PAGE, Shape.CROSSED_SQUARE, "OUT", Tone.OUT),
    Status.NOT_MEASURED: StatusLook(PAGE, INK, Shape.RING, "not yet measured", Tone.INK),
}


class ButtonKind(StrEnum):
    """Purpose of a button; its look and its distance from others follow."""

    PRIMARY = "primary"  # the one next thing: black, white words
    PLAIN = "plain"  # white with a heavy black edge
    QUIET = "quiet"  # white with an underline only: leads elsewhere, writes nothing
    DESTRUCTIVE = "destructive"  # strikes out or gives up
    SEND = "send"  # leaves the tablet or closes something


@dataclass(frozen=True, slots=True)
class ButtonLook:
    """Ground, text and edge of a touchable in one state."""

    ground: str
    text: str
    edge: str


_DISABLED = ButtonLook(PAGE, RULE, RULE)
LOOKS: dict[ButtonKind, ButtonLook] = {
    ButtonKind.PRIMARY: ButtonLook(INK, PAGE, INK),
    ButtonKind.PLAIN: ButtonLook(PAGE, INK, INK),
    ButtonKind.QUIET: ButtonLook(PAGE, INK, RULE),
    ButtonKind.DESTRUCTIVE: ButtonLook(PAGE, OXIDE, OXIDE),
    ButtonKind.SEND: ButtonLook(BLUE, PAGE, BLUE),
}


def look_of(kind: ButtonKind, is_pressed: bool = False, is_disabled: bool = False) -> ButtonLook:
    """Return the colours of a touchable as it stands now."""
    if is_disabled:
        return _DISABLED
    look = LOOKS[kind]
    # Pressed is the same look turned inside out: no state owns a colour for it,
    # and it shows in any light.
    return ButtonLook(look.text, look.ground, look.edge) if is_pressed else look


# Sizes in millimetres on the glass. Bare-hand error stops falling at 20 mm and a
# gloved hand still gains beyond it, hence 22 for what is hit most.
KEY_MM = 22.0
TOUCH_MM = 15.0
CHIP_HIGH_MM = 18.0
GAP_MM = 3.0
GAP_TO_DIGITS_MM = 6.0
GAP_TO_DESTRUCTIVE_MM = 10.0
EDGE_MM = 5.0
HEAVY_MM = 0.8
RULE_MM = 0.35
EDGE_LINE_MM = 0.6

CAP_LEAST_MM = 2.9
CAP_LABEL_MM = 3.5
CAP_TITLE_MM = 4.6
CAP_VALUE_MM = 6.0
CAP_FIGURE_MM = 9.0
CAP_PER_EM = 1456 / 2048  # Roboto's capital height, from its OS/2 table

HOLD_MS = 800
BOUNCE_MS = 250


def rgb(code: str) -> tuple[float, float, float]:
    """Return ``#RRGGBB`` as three numbers from 0 to 1."""
    return int(code[1:3], 16) / 255, int(code[3:5], 16) / 255, int(code[5:7], 16) / 255
