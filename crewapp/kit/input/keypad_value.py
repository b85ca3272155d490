"""The keypad as a value: each press gives a new one, and nothing changes unseen.

A key that would spoil the text is refused with a reason. The same key twice
within a quarter of a second is a bounce. A figure out of its band raises a
question with the likely intent as an answer; the figure typed stays as typed.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field, replace

from crewapp.kit.input.key_grammar import BACK, CLEAR, Grammar, refusal_reason
from crewapp.kit.input.plausible import Bands, Offer, Question, verdict
from crewapp.kit.look.palette import BOUNCE_MS
from crewapp.words.translate import say

_FEET_OR_INCHES = frozenset({"ft", "in"})
FINGERTIP_MM = 22.0  # a wider contact is a palm, a sleeve or a pool of water


@dataclass(frozen=True, slots=True)
class FieldSpec:
    """Field of the pad: its name and unit, how it is typed, read and written, and its bands.

    ``parse`` reads the field's own text to whole base units and raises
    ``ValueError`` (``CrewError`` is one where it means text) for what it can't
    read; ``show`` writes a figure with its unit; ``echo`` writes it in the other
    system, or is None where there is none.
    """

    name: str
    unit: str
    grammar: Grammar
    parse: Callable[[str], int]
    show: Callable[[int], str]
    echo: Callable[[int], str] | None = None
    bands: Bands = field(default_factory=Bands)


@dataclass(frozen=True, slots=True)
class AcceptedFigure:
    """A figure that was entered: the base units, and the text it was typed as."""

    value: int
    text: str


@dataclass(frozen=True, slots=True)
class KeypadState:
    """A field and what has been typed into it so far."""

    spec: FieldSpec
    typed: str = ""
    refused: str = ""  # why the last key was refused; empty when it was taken
    is_bounced: bool = False  # the last press was a bounce: show the tick
    refusals: int = 0  # counts up, so that a second refusal buzzes again
    question: Question | None = None
    accepted: AcceptedFigure | None = None
    last_key: str = ""
    last_at_ms: int = -1_000_000

    @classmethod
    def resume(cls, spec: FieldSpec, typed: str) -> KeypadState:
        """Return a keypad with half-typed text put back, if it is one for this field."""
        return cls(spec, typed if spec.grammar.is_beginning(typed) else "")

    @property
    def text(self) -> str:
        """The text as it will be read, without its unit."""
        return self.spec.grammar.display_text(self.typed)

    @property
    def value(self) -> int | None:
        """The figure in base units, or None while it is not complete."""
        if not self.spec.grammar.is_complete(self.typed):
            return None
        try:
            return self.spec.parse(self.text)
        except ValueError:
            return None

    @property
    def unit(self) -> str:
        """The unit of what is typed; a ratio has none."""
        return "" if ":" in self.typed else self.spec.unit

    @property
    def stored_text(self) -> str:
        """The figure as it will be stored, with its unit; what is typed until then."""
        value = self.value
        return self.text if value is None else self.spec.show(value)

    @property
    def echo(self) -> str:
        """The figure in the other system, or nothing."""
        value = self.value
        return "" if value is None or self.spec.echo is None else self.spec.echo(value)

    def press(self, key: str, at_ms: int, touches: int = 1, contact_mm: float = 0.0) -> KeypadState:
        """Return the keypad after one key, which is taken, refused or a bounce."""
        if touches > 1 or contact_mm > FINGERTIP_MM:
            return self._refuse(say("More than a fingertip: nothing was written."), key, at_ms)
        if key == self.last_key and 0 <= at_ms - self.last_at_ms < BOUNCE_MS:
            return replace(self, is_bounced=True, refused="")
        after = self._after(key)
        if after is None:
            return self._refuse(refusal_reason(self.spec.grammar, self.typed, key), key, at_ms)
        return replace(self._calm(key, at_ms), typed=after)

    def enter(self, at_ms: int) -> KeypadState:
        """Return the keypad with the figure accepted, questioned, or refused."""
        if not self.typed:
            return self._refuse(say("Nothing is typed yet."), "enter", at_ms)
        value = self.value
        if value is None:
            return self._refuse(self._why_unread(), "enter", at_ms)
        spec = self.spec
        in_feet = spec.unit in _FEET_OR_INCHES
        question = verdict(value, self.text, spec.bands, spec.parse, spec.show, in_feet)
        if question is None:
            return replace(self._calm("enter", at_ms), accepted=AcceptedFigure(value, self.text))
        return replace(self._calm("enter", at_ms), question=question, refusals=self.refusals + 1)

    def keep(self, at_ms: int) -> KeypadState:
        """Return the keypad with the odd figure accepted as typed."""
        value = self.value
        if self.question is None or not self.question.can_keep or value is None:
            return self._refuse(say("There is nothing to keep."), "keep", at_ms)
        return replace(self._calm("keep", at_ms), accepted=AcceptedFigure(value, self.text))

    def use(self, offer: Offer, at_ms: int) -> KeypadState:
        """Return the keypad with one of the offered figures accepted."""
        if self.question is None or offer not in self.question.offers:
            return self._refuse(say("There is nothing to keep."), "use", at_ms)
        return replace(self._calm("use", at_ms), accepted=AcceptedFigure(offer.value, offer.text))

    def _why_unread(self) -> str:
        """Return why the text is no figure: what its reader says, or that it is not finished."""
        try:
            self.spec.parse(self.text)
        except ValueError as fault:
            if self.spec.grammar.is_complete(self.typed) and str(fault):
                return str(fault)
        return say("{typed} is not finished.", typed=self.text)

    def _after(self, key: str) -> str | None:
        """Return the text after a key, or None if the key can't be taken."""
        if key == CLEAR:
            return ""
        if key == BACK:
            return _less_one(self.typed)
        grammar = self.spec.grammar
        after = grammar.after(self.typed, key)
        is_fit = key in grammar.writing_keys() and grammar.is_beginning(after)
        return after if is_fit else None

    def _calm(self, key: str, at_ms: int) -> KeypadState:
        """Return the keypad without a reason, a question or a bounce showing."""
        return replace(
            self,
            refused="",
            is_bounced=False,
            question=None,
            accepted=None,
            last_key=key,
            last_at_ms=at_ms,
        )

    def _refuse(self, reason: str, key: str, at_ms: int) -> KeypadState:
        """Return the keypad with a reason showing and its text as it was."""
        calm = self._calm(key, at_ms)
        return replace(calm, refused=reason, refusals=self.refusals + 1)


def _less_one(typed: str) -> str:
    """Return the text without what the last key put there: a fraction goes whole."""
    if "/" in typed:
        head, _, fraction = typed.rpartition("-")
        return "-" if head == "" and "-" in typed else head if "-" in typed else ""
    return typed[:-1]
