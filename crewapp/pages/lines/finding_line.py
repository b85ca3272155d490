"""A finding as a sentence in the language set, the words among its facts too."""

from __future__ import annotations

from dataclasses import replace

from crewapp.words.dates import full_day
from crewapp.words.translate import say, translate_later
from models.checks.finding import Finding
from models.checks.finding_text import NOBODY, sentence
from models.checks.registry import BY_ID
from models.units.job_units import Figures

WORDS = {
    "do": (translate_later("Raise"), translate_later("Lower")),
    "side": (
        translate_later("above"),
        translate_later("below"),
        translate_later("shallower"),
        translate_later("deeper"),
    ),
    "end": (translate_later("start"), translate_later("end")),
    "layer": (),
    "beneath": (),
    "moisture": (),
    "kind": (),
    "what": (),
    "instrument": (translate_later("the laser"),),
    "doubt": (
        translate_later("which laser it was is not written down"),
        translate_later("no peg test of it is written down"),
        translate_later("its last peg test is too long ago"),
        translate_later("it was dropped and not peg-tested since"),
        translate_later("its peg test failed"),
    ),
}
"""Facts that a check fills with words of its own, with those that no field of an entry has."""
_FREE_TEXT = frozenset({("utility_hit", "what")})


def finding_line(finding: Finding, figures: Figures) -> str:
    """Say a finding in the language set, its figures in the job's units."""
    facts = {
        name: say(value) if isinstance(value, str) and _is_word(finding, name) else value
        for name, value in finding.facts.items()
    }
    return sentence(
        replace(finding, facts=facts),
        figures,
        say(BY_ID[finding.check].text_of(finding)),
        shown_day=lambda iso: full_day(iso, figures.is_us),
        nobody=say(NOBODY),
    )


def _is_word(finding: Finding, name: str) -> bool:
    if finding.check.startswith("plan/"):
        return name == "lines"
    return name in WORDS and (finding.check, name) not in _FREE_TEXT
