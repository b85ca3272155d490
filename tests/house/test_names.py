"""What things may be called, and words that have no place in the project."""

from __future__ import annotations

import re

from tests.house.tree import ROOT, ignored_names, python_files, walk

VAGUE = {"utils", "util", "helpers", "helper", "common", "base", "manager", "core", "misc"}
TOP_LEVEL = {"README.md", "DEVELOPERS.md", "pyproject.toml", "crewapp", "models", "sync", "tests"}
TOP_LEVEL |= {"fixtures"}

# Paths of one machine, hosts of package mirrors, and talk about work rather than about the
# program. One letter of each stands in brackets so that this file does not match itself.
UNWANTED = [
    r"(?<![\w.])/wor[k]/",
    r"(?<![\w.])/far[m]/",
    r"(?<![\w.])/roo[t]/",
    r"\bCE[O]\b",
    r"this sessio[n]",
    r"sub-?agen[t]",
    r"helper agen[t]",
    r"seed documen[t]",
    r"files\.pythonhoste[d]",
    r"\bpypi\.or[g]",
    r"deb\.debian\.or[g]",
    r"registry\.npmj[s]",
    r"artifactregistr[y]",
]


def texts() -> dict[str, str]:
    """Return every text file of the project by its path; pictures and databases are left out."""
    found = {}
    for path in walk(ROOT):
        data = path.read_bytes()
        if b"\0" not in data:
            found[str(path.relative_to(ROOT))] = data.decode("utf-8", "replace")
    return found


def test_no_module_has_a_vague_name() -> None:
    """A module is named for its subject, in packages and in tests."""
    vague = [
        str(path.relative_to(ROOT))
        for path in python_files("models", "sync", "crewapp", "tests")
        if VAGUE & set("_".join(path.relative_to(ROOT).with_suffix("").parts).split("_"))
    ]

    assert vague == []


def test_text_speaks_of_the_program_alone() -> None:
    """No file names a machine's own paths, a mirror, or how the work is done."""
    pattern = re.compile("|".join(UNWANTED), re.I)
    found = [
        f"{path}: {match.group()}"
        for path, text in texts().items()
        for match in pattern.finditer(text)
    ]

    assert found == []


def test_top_level_holds_only_what_the_map_shows() -> None:
    """The first listing a stranger sees stays short; anything else goes into a package."""
    met = {path.name for path in ROOT.iterdir() if not path.name.startswith(".")}
    extra = {name for name in met - TOP_LEVEL if not is_ignored(name)}

    assert extra == set()


def is_ignored(name: str) -> bool:
    """Tell whether git is told to leave a name of the top level out."""
    return any(re.fullmatch(pattern.replace("*", ".*"), name) for pattern in ignored_names())
