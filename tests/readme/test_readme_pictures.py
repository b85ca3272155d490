"""README's pictures show what the program draws today: compared as lists, never by pixels."""

from __future__ import annotations

import contextlib
import copy
import io
import json
import re
from collections import Counter
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from PIL import Image

from crewapp.cli.main import main
from crewapp.screenshots.drawn_facts import Facts, write_facts

ROOT = Path(__file__).parents[2]
PICTURES = ROOT / "fixtures" / "pictures"
RENEW = "crewapp pictures --readme --out fixtures/pictures"
SHOWN = re.findall(r"\(fixtures/pictures/([\w-]+)\.png\)", (ROOT / "README.md").read_text("utf-8"))
MOST_TOLD = 3


def read_facts(path: Path) -> Facts:
    """Facts as they lie in a file."""
    told: Facts = json.loads(path.read_text("utf-8"))
    return told


def differences(kept: Facts, drawn: Facts) -> list[str]:
    """What is drawn otherwise than a picture's facts say, in order."""
    found = []
    for name in dict.fromkeys([*kept, *drawn]):
        old, new = (
            [json.dumps(one, ensure_ascii=False) for one in facts.get(name, [])]
            for facts in (kept, drawn)
        )
        here = [f"{name}: no longer there: {one}" for one in _less(old, new)]
        here += [f"{name}: new: {one}" for one in _less(new, old)]
        if not here and old != new:
            here.append(f"{name}: the same things in another order")
        found += here
    return found


def _less(these: list[str], those: list[str]) -> list[str]:
    """What is in one list and not in the other, as often as it is."""
    left = Counter(those)
    found = []
    for one in these:
        if left[one]:
            left[one] -= 1
        else:
            found.append(one)
    return found


def sentence(name: str, found: list[str]) -> str:
    """The first three differences, and what renews the picture."""
    told = "\n  ".join([*found[:MOST_TOLD], f"({len(found)} in all)"])
    return f"{name}.png shows what the program no longer draws:\n  {told}\nRenew it: {RENEW}"


@pytest.fixture(scope="module")
def drawn(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """README's pictures, drawn anew by the command that renews them."""
    out = tmp_path_factory.mktemp("drawn")
    with contextlib.redirect_stdout(io.StringIO()) as printed:
        assert main(["pictures", "--readme", "--out", str(out), "--json"]) == 0
    told = json.loads(printed.getvalue())["pictures"]
    assert sorted(told) == sorted(str(path) for path in out.glob("*.png"))
    return out


def test_every_picture_of_the_readme_has_its_facts() -> None:
    """A picture, its list, and nothing else lies there."""
    assert len(SHOWN) >= 5
    expected = {f"{name}{end}" for name in SHOWN for end in (".png", ".facts.json")}
    assert {path.name for path in PICTURES.iterdir()} == expected


def test_the_command_draws_every_picture_and_nothing_else(drawn: Path) -> None:
    """One command renews them all, each in the size of the one that is kept."""
    assert {path.name for path in drawn.iterdir()} == {path.name for path in PICTURES.iterdir()}
    for name in SHOWN:
        with Image.open(drawn / f"{name}.png") as new, Image.open(PICTURES / f"{name}.png") as old:
            assert new.size == old.size, name
            darkest, lightest = new.convert("L").getextrema()
            assert darkest != lightest, name


@pytest.mark.parametrize("name", SHOWN)
def test_the_picture_shows_what_the_program_draws(name: str, drawn: Path) -> None:
    """Words with their places, keys with their states, drawings line by line."""
    kept, new = (read_facts(folder / f"{name}.facts.json") for folder in (PICTURES, drawn))
    found = differences(kept, new)

    assert kept["texts"], name
    assert not found, sentence(name, found)


def word(facts: Facts) -> None:
    """Another word."""
    facts["texts"][0]["text"] += "!"


def place(facts: Facts) -> None:
    """Half a millimetre to the right."""
    facts["texts"][1]["box"][0] += 0.5


def gone(facts: Facts) -> None:
    """One line of a drawing less."""
    facts["drawn"].pop()


def order(facts: Facts) -> None:
    """What was drawn first is drawn last, over all else."""
    facts["drawn"].append(facts["drawn"].pop(0))


@pytest.mark.parametrize("change", [word, place, gone, order])
def test_any_change_is_told(change: Callable[[Facts], None]) -> None:
    """A planted change of each kind is found, with what was there, and how to renew."""
    kept = read_facts(PICTURES / "grade.facts.json")
    changed: Any = copy.deepcopy(kept)
    change(changed)

    found = differences(kept, changed)

    assert 1 <= len(found) <= 2
    told = sentence("grade", found)
    assert "grade.png" in told
    assert told.endswith(RENEW)


def test_a_dead_key_is_a_change() -> None:
    """A key that can't be pressed any more looks other than in the picture."""
    kept = read_facts(PICTURES / "grade.facts.json")
    changed = copy.deepcopy(kept)
    changed["keys"][0]["disabled"] = True

    assert len(differences(kept, changed)) == 2
    assert differences(kept, kept) == []


def test_only_three_differences_are_told() -> None:
    """A page made anew names the first three and their number."""
    found = [f"texts: new: {number}" for number in range(9)]

    assert sentence("plan", found).count("texts: new") == MOST_TOLD
    assert "(9 in all)" in sentence("plan", found)


def test_facts_are_written_a_thing_a_line(tmp_path: Path) -> None:
    """So that a reader of a change sees what changed; they are read back as they were."""
    facts = {"size_mm": [1.5, 2.0], "texts": [{"text": "a\n\u00e9", "box": [0.0]}, {"text": "b"}]}
    write_facts(tmp_path / "a.facts.json", facts)

    assert read_facts(tmp_path / "a.facts.json") == facts
    assert len((tmp_path / "a.facts.json").read_text("utf-8").splitlines()) == 7
