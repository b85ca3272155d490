"""Is this figure meant? Bands of what can be and what is expected, and likely slips.

The slips that matter are the large ones: a point moved, feet read as inches, two
digits changed places, a digit doubled. If the figure with the slip undone is
expected here, it is offered; it is never put in by itself.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from crewapp.words.translate import say, translate_later

INCHES_IN_FOOT = 12


@dataclass(frozen=True, slots=True)
class Band:
    """The figures from ``low`` to ``high``, both among them."""

    low: int
    high: int

    def __contains__(self, value: object) -> bool:
        return isinstance(value, int) and self.low <= value <= self.high


@dataclass(frozen=True, slots=True)
class Offer:
    """Figure that may have been meant, as the pad shows it, and the slip."""

    value: int
    text: str
    slip: str


@dataclass(frozen=True, slots=True)
class Question:
    """Doubt about a figure: what is odd, what may have been meant, may it be kept."""

    sentence: str
    offers: tuple[Offer, ...] = ()
    can_keep: bool = True


@dataclass(frozen=True, slots=True)
class Bands:
    """Bands of a field: what it can hold (plausible), what it should hold here (expected)."""

    plausible: Band | None = None
    expected: Band | None = None
    design: int | None = None


def verdict(
    value: int,
    typed: str,
    bands: Bands,
    parse: Callable[[str], int],
    show: Callable[[int], str],
    in_feet: bool = True,
) -> Question | None:
    """Return what to ask about a figure, or None when there is nothing odd.

    ``typed`` is the text the figure was read from; twins with swapped or
    doubled digits are made from it and read by ``parse``. Only a figure typed
    ``in_feet`` or inches may have meant the other.
    """
    offered = offers(value, typed, bands, parse, show, in_feet=in_feet)
    if bands.plausible is not None and value not in bands.plausible:
        sentence = _bounds(value, bands.plausible, show)
        return Question(sentence, offered, can_keep=False)
    if bands.expected is None or value in bands.expected:
        return None
    if bands.design is not None:
        sentence = say("{value}? Design is {design}.", value=show(value), design=show(bands.design))
    else:
        sentence = say(
            "{value}? Expected is {low} to {high}.",
            value=show(value),
            low=show(bands.expected.low),
            high=show(bands.expected.high),
        )
    return Question(sentence, offered)


def _bounds(value: int, plausible: Band, show: Callable[[int], str]) -> str:
    """Say what a field holds; a least of one base unit stands for more than nothing."""
    read, high = show(value), show(plausible.high)
    if plausible.low != 1:
        low = show(plausible.low)
        return say(
            "{value} can't be: this field holds {low} to {high}.", value=read, low=low, high=high
        )
    if value < 1:
        return say("{value} can't be: it must be more than nothing.", value=read)
    return say("{value} can't be: {high} is the most here.", value=read, high=high)


def offers(
    value: int,
    typed: str,
    bands: Bands,
    parse: Callable[[str], int],
    show: Callable[[int], str],
    most: int = 2,
    in_feet: bool = True,
) -> tuple[Offer, ...]:
    """Return the expected figures that one slip turns into ``value``, nearest first."""
    wanted = bands.expected or bands.plausible
    if wanted is None:
        return ()
    found: dict[int, str] = {}
    for meant, slip in (*_scaled(value, in_feet), *_retyped(typed, parse)):
        if meant != value and meant in wanted:
            found.setdefault(meant, slip)
    middle = bands.design if bands.design is not None else (wanted.low + wanted.high) // 2
    nearest = sorted(found, key=lambda meant: abs(meant - middle))[:most]
    return tuple(Offer(meant, show(meant), say(found[meant])) for meant in nearest)


def _scaled(value: int, in_feet: bool) -> Iterator[tuple[int, str]]:
    """Give the figures ten times, a tenth, and for lengths a foot for an inch away."""
    yield value * 10, translate_later("point moved")
    if value % 10 == 0:
        yield value // 10, translate_later("point moved")
    yield value * 100, translate_later("point left out")
    if value % 100 == 0:
        yield value // 100, translate_later("point left out")
    if not in_feet:
        return
    yield value * INCHES_IN_FOOT, translate_later("feet for inches")
    if value % INCHES_IN_FOOT == 0:
        yield value // INCHES_IN_FOOT, translate_later("inches for feet")


def _retyped(typed: str, parse: Callable[[str], int]) -> Iterator[tuple[int, str]]:
    """Give the figures of the same digits with two changed round, or one less."""
    for place in range(len(typed) - 1):
        here, there = typed[place], typed[place + 1]
        if not (here + there).isdigit():
            continue
        if here == there:
            text, slip = typed[:place] + typed[place + 1 :], translate_later("digit doubled")
        else:
            text, slip = (
                typed[:place] + there + here + typed[place + 2 :],
                translate_later("digits swapped"),
            )
        try:
            yield parse(text), slip
        except ValueError:
            continue  # a twin that can't be read was not meant
