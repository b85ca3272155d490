"""Every word shown has a translation, with the same facts in it."""

from __future__ import annotations

import ast
import json
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

from crewapp.kit.look.palette import STATUS
from crewapp.words import translate as wording
from models.entries.kinds import KINDS
from models.entries.shows import marked_fields

ROOT = Path(wording.__file__).parents[1]
SPEAKERS = {"say", "translate_later"}


@pytest.fixture(autouse=True)
def _english() -> Iterator[None]:
    """Leave the language as it was found."""
    yield
    wording.set_language("en")


def spoken() -> dict[str, str]:
    """Return every text that the app says, and where."""
    found = {look.word: "palette.py" for look in STATUS.values()}
    for kind, model in KINDS.items():
        for field in marked_fields(model):
            found |= dict.fromkeys(field.texts, f"the field {field.name} of {kind}")
    for path in sorted(ROOT.rglob("*.py")):
        if "gallery" in path.name:
            continue  # shown to those who build, not to a crew
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if not isinstance(node, ast.Call) or not node.args:
                continue
            name = getattr(node.func, "id", getattr(node.func, "attr", ""))
            first = node.args[0]
            if name in SPEAKERS and isinstance(first, ast.Constant):
                found[str(first.value)] = f"{path.relative_to(ROOT)}:{node.lineno}"
    return found


def places(text: str) -> set[str]:
    """Return the names of the facts in a text."""
    return set(re.findall(r"\{(\w+)", text))


@pytest.mark.parametrize("code", [code for code in wording.LANGUAGES if code != "en"])
def test_every_text_is_translated(code: str) -> None:
    """Missing texts are printed as lines ready for the language's file."""
    has = wording.table(code)
    lacking = {text: at for text, at in spoken().items() if not has.get(text)}
    lines = [f'  {json.dumps(text, ensure_ascii=False)}: "",' for text in lacking]
    where = sorted({at.split(":")[0] for at in lacking.values()})
    message = f"said in {where}; add to a crewapp/words/locale/{code}_*.json:\n" + "\n".join(lines)

    assert lines == [], message


@pytest.mark.parametrize("code", [code for code in wording.LANGUAGES if code != "en"])
def test_files_of_a_language_agree(code: str) -> None:
    """A text in two files is translated the same way in both."""
    seen: dict[str, str] = {}
    for path in wording.files(code):
        for text, meaning in json.loads(path.read_text(encoding="utf-8")).items():
            assert seen.setdefault(text, meaning) == meaning, f"{path.name}: {text}"


@pytest.mark.parametrize("code", [code for code in wording.LANGUAGES if code != "en"])
def test_translations_keep_their_facts(code: str) -> None:
    """A fact left out would not be told; a fact put in would stop the app."""
    wrong = [k for k, text in wording.table(code).items() if places(k) != places(text)]

    assert wrong == []


def test_text_is_said_in_the_language_set() -> None:
    """Facts are filled in; a text not known is said in English."""
    wording.set_language("es")

    assert wording.say("{first} to {last} of {count}", first=1, last=3, count=9) == "1 a 3 de 9"
    assert wording.say("not in any file") == "not in any file"


def test_unknown_language_speaks_english() -> None:
    """A setting from a newer version does no harm."""
    wording.set_language("xx")

    assert wording.language() == "en"
    assert wording.say("Undo") == "Undo"
