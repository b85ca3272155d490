"""Each recipe of DEVELOPERS.md is followed in a copy of the program, and leads where it says."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.house.recipes import (
    RECIPES,
    Recipe,
    follow,
    left_out_of,
    linked,
    recipes,
    try_out,
)
from tests.house.test_map import paths_in
from tests.house.tree import ROOT, walk
from tests.in_full import IN_FULL

EACH = pytest.mark.parametrize("recipe", recipes(), ids=lambda recipe: recipe.name)
MISSED = [
    pytest.param(recipe, name, id=f"{recipe.name}-{Path(name).name}")
    for recipe in recipes()
    for name in left_out_of(recipe, IN_FULL)
]


def paragraph_of(recipe: Recipe) -> str:
    """Return the paragraph of DEVELOPERS.md that tells a recipe."""
    text = (ROOT / "DEVELOPERS.md").read_text("utf-8")
    start = f"**{recipe.heading}.**"
    return next((one for one in text.split("\n\n") if one.startswith(start)), "")


def unnamed(recipe: Recipe, paragraph: str) -> list[str]:
    """Return the files of a recipe that lie in nothing its paragraph names.

    A folder stands for what is written in it; and for what is changed in it, unless one file of
    it is named, since the others are then looked for by name as well.
    """
    named = [Path(path) for path in paths_in(paragraph) if not path.startswith("fixtures/recipes")]
    by_name = {path.parent for path in named if path.suffix}
    edited = {name for name in recipe.edited_files() if Path(name).parent in by_name}
    return [
        name
        for name in recipe.files()
        if Path(name) not in named
        and (name in edited or not any(path in Path(name).parents for path in named))
    ]


@EACH
def test_a_paragraph_names_all_that_it_takes(recipe: Recipe) -> None:
    """Each file that is written or changed is named there, or its folder; and the example."""
    paragraph = paragraph_of(recipe)

    assert f"fixtures/recipes/{recipe.name}" in paragraph
    assert unnamed(recipe, paragraph) == []


def test_a_file_that_is_not_named_is_seen() -> None:
    """Planted: a paragraph that names one folder of the two that a check takes."""
    recipe = next(one for one in recipes() if one.name == "check")

    assert unnamed(recipe, "Write it in `models/checks` and say it in `crewapp/words/locale`.") == [
        "fixtures/checks/delay_long.json"
    ]


@pytest.mark.parametrize("name", ["sync/stores/errors.py", "sync/THREATS.md", "README.md"])
def test_an_edit_beside_files_that_are_named_is_seen(name: str) -> None:
    """Planted: the paragraph on stores without one of the files that it changes."""
    recipe = next(one for one in recipes() if one.name == "store")

    assert unnamed(recipe, paragraph_of(recipe).replace(name, "")) == [name]


@EACH
def test_a_recipe_works(recipe: Recipe, tmp_path: Path) -> None:
    """Its files, its changes and its commands are all it takes; the program here stays as it is."""
    before = {path: path.stat().st_mtime_ns for path in walk(ROOT)}
    program = linked(tmp_path)
    follow(recipe, program)

    assert try_out(recipe, program) == ""
    assert {path: path.stat().st_mtime_ns for path in walk(ROOT)} == before


@pytest.mark.parametrize(("recipe", "name"), MISSED)
def test_a_file_left_out_is_missed(recipe: Recipe, name: str, tmp_path: Path) -> None:
    """Without one of its files a recipe fails: it names no file that nothing needs."""
    program = linked(tmp_path)
    follow(recipe, program, left_out=name)

    assert try_out(recipe, program) != ""


def test_every_folder_is_a_recipe() -> None:
    """No folder of fixtures/recipes is without its recipe.json."""
    folders = {path.name for path in RECIPES.iterdir() if path.is_dir()}

    assert folders == {recipe.name for recipe in recipes()}
