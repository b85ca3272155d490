"""What things may be called, and words that have no place in the project."""

from __future__ import annotations

import ast
import re
import textwrap
from collections.abc import Iterator

from tests.house.tree import ROOT, ignored_names, modules, python_files, syntax, walk

VAGUE = {"utils", "util", "helpers", "helper", "common", "base", "manager", "core", "misc"}
TOP_LEVEL = {"README.md", "DEVELOPERS.md", "pyproject.toml", "crewapp", "models", "sync", "tests"}
TOP_LEVEL |= {"fixtures"}

RIDDLES = {
    *("told", "said", "asked", "shown", "found", "kept", "waiting", "standing", "worse", "touched"),
    *("garbage", "remains", "lasting", "errand", "aside", "hand", "desk", "trip", "trips", "shelf"),
}
"""Words of a name that only those who wrote the program read at once."""
PRONOUNS = {
    *("it", "its", "one", "all", "both", "they", "this", "that", "these", "those", "what"),
    *("which", "who", "whom", "whose", "where", "here", "how", "why", "nothing", "everything"),
    *("something", "anything", "somebody", "anybody"),
}
"""Words that stand for a subject; a short name that begins with one names nothing."""
PARTICIPLE = re.compile(
    r"[a-z]{2,}(?<!e)ed|made|written|drawn|laid|taken|seen|sent|held|given|built|begun|gone|done"
)
"""A name of this one word leaves open what was done to what."""
TRADE = {"on_hand", "counted", "what_if", "affected"}
"""Standard words that the rule would bar: stock on hand, a what-if, what is affected."""

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


def public_names(tree: ast.Module) -> Iterator[str]:
    """Yield the names of public classes, functions and methods, a method behind its class."""

    def inside(node: ast.Module | ast.ClassDef, place: str) -> Iterator[str]:
        for part in node.body:
            if isinstance(part, ast.ClassDef | ast.FunctionDef | ast.AsyncFunctionDef):
                if part.name[0] == "_":
                    continue
                yield f"{place}{part.name}"
                if isinstance(part, ast.ClassDef):
                    yield from inside(part, f"{place}{part.name}.")

    yield from inside(tree, "")


def is_riddle(name: str) -> bool:
    """Tell whether a name is a participle or a pronoun that stands alone, or a private word."""
    if name.removesuffix("_pl") in TRADE:
        return False
    words = [word.lower() for word in re.findall(r"[A-Z]?[a-z0-9]+|[A-Z]+(?![a-z])", name)]
    is_alone = len(words) == 1 and bool(PARTICIPLE.fullmatch(words[0]))
    return is_alone or bool(RIDDLES & set(words)) or (len(words) < 3 and words[0] in PRONOUNS)


def test_names_are_words_that_a_stranger_would_search_for() -> None:
    """No public name is a bare participle, begins with a pronoun or has a private word."""
    riddles = [
        f"{module}: {name}"
        for module, path in modules().items()
        for name in (module.split(".")[-1], *public_names(syntax(path)))
        if is_riddle(name.split(".")[-1])
    ]

    assert riddles == []


def test_a_name_that_is_a_riddle_is_found_out() -> None:
    """Participles, pronouns and private words are each named; plain names pass."""
    planted = """
        class Made:
            def told_rows(self): ...
            def is_made(self): ...

        class Handover:
            def _kept(self): ...

        def its_pass(): ...
        def need(): ...
        def where_of(): ...
        def place_of_kept_file(): ...
        def all_lines_of_a_pass(): ...
    """
    tree = ast.parse(textwrap.dedent(planted))
    assert [name for name in public_names(tree) if is_riddle(name.split(".")[-1])] == [
        "Made",
        "Made.told_rows",
        "its_pass",
        "where_of",
        "place_of_kept_file",
    ]


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
