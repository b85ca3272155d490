"""Kinds of buried utility, and the colour in which each is marked on the ground.

The colours are those of the uniform colour code for the temporary marking of underground
utilities, as one-call centres publish it: red electric, yellow gas, oil and steam, orange
communication, blue drinking water, purple reclaimed water, irrigation and slurry, green
sewers and drains. White (proposed digging) and pink (survey) mark no utility.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from enum import Enum

from sync.papers.drawing.primitives import Tone


@dataclass(frozen=True, slots=True)
class Marking:
    """Marking of a kind of utility: letter, name of the colour, words of the code, tone.

    ``drawing_colour`` is the colour's number in a drawing's index of colours.
    """

    letter: str
    colour: str
    said: str
    tone: Tone
    drawing_colour: int


class UtilityKind(Enum):
    """Kinds of utility that the marking code has; colour is never the only sign."""

    ELECTRIC = Marking("E", "red", "electric", Tone.ELECTRIC, 1)
    GAS = Marking("G", "yellow", "gas, oil, steam", Tone.GAS, 2)
    COMMUNICATION = Marking("T", "orange", "communication", Tone.COMMUNICATION, 30)
    WATER = Marking("W", "blue", "drinking water", Tone.WATER, 5)
    RECLAIMED = Marking("R", "purple", "reclaimed water, irrigation", Tone.RECLAIMED, 212)
    SEWER = Marking("S", "green", "sewer, drain", Tone.SEWER, 3)


# Looked through in this order. A wire of an irrigation system is taken for electric: it may
# be live, and that is the safer reading; common practice, no source.
_WORDS: tuple[tuple[UtilityKind, str], ...] = (
    (
        UtilityKind.COMMUNICATION,
        r"phone|fib(?:re|er)|telephone|telecom\w*|communications?|data|signal|alarm|television"
        r"|teléfono|fibra|comunicaci\w+",
    ),
    (UtilityKind.GAS, r"gas|oil|petroleum|steam|diesel|petróleo|vapor"),
    (
        UtilityKind.ELECTRIC,
        r"electric\w*|power|wires?|cables?|lighting|eléctric\w*|electricidad|alambres?",
    ),
    (
        UtilityKind.RECLAIMED,
        r"irrigation|reclaimed|recycled|sprinklers?|slurry|riego|aspersor\w*|reutilizada",
    ),
    (
        UtilityKind.SEWER,
        r"sewers?|sewage|sanitary|drains?|drainage|storm\w*|wastewater|septic|culvert"
        r"|alcantarilla\w*|cloaca|drenajes?|desagües?|drenes?|dren",
    ),
    (UtilityKind.WATER, r"water|potable|hydrant|agua"),
)


def utility_kind(what: str) -> UtilityKind | None:
    """Return the kind that a crew's words name; None where they name none of the code.

    Examples
    --------
    >>> utility_kind("irrigation lateral, 1-1/4 in, grey").value.colour
    'purple'
    >>> utility_kind("water main").value.colour
    'blue'
    >>> utility_kind("rock") is None
    True
    """
    words = what.casefold()
    for kind, pattern in _WORDS:
        if re.search(rf"\b(?:{pattern})\b", words):
            return kind
    return None


def utility_name(number: int, what: str) -> str:
    """Number of what was met, with the letter of its kind: ``U1 R``."""
    kind = utility_kind(what)
    return f"U{number} {kind.value.letter}" if kind else f"U{number}"
