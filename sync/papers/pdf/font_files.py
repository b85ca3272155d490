"""Font files: those that come with the app, then what the system has for a script."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterator
from functools import cache
from importlib.util import find_spec
from pathlib import Path

from models.errors import CrewError

SYSTEM_FOLDERS = ("/usr/share/fonts", "/system/fonts", "/Library/Fonts", "C:/Windows/Fonts")
_CJK = ("DroidSansFallback", "NotoSansCJK", "msgothic", "msyh", "malgun")
_WORDS_OF_CJK = frozenset({"CJK", "HIRAGANA", "KATAKANA", "HANGUL", "BOPOMOFO", "IDEOGRAPHIC"})


class FontMissingError(CrewError, LookupError):
    """The fonts that every sheet is set in are not there."""

    code = "sheets.font_missing"
    sentence = (
        "Cannot print: no font was found in {place}. "
        "Kivy brings Roboto and DejaVu Sans along; install it again."
    )


@cache
def own_fonts() -> tuple[Path, Path, Path]:
    """Regular, bold and wide-ranging font that come with Kivy, located without loading it.

    Raises
    ------
    FontMissingError
        If they are not there.
    """
    spec = find_spec("kivy")
    places = spec.submodule_search_locations if spec else None
    folder = Path(next(iter(places or ["."]))) / "data" / "fonts"
    found = tuple(
        folder / name for name in ("Roboto-Regular.ttf", "Roboto-Bold.ttf", "DejaVuSans.ttf")
    )
    if not all(path.is_file() for path in found):
        raise FontMissingError(place=folder)
    return found[0], found[1], found[2]


@cache
def font_for(letter: str) -> tuple[Path, int] | None:
    """System font file that has a letter, and the index of its font; None when there is none."""
    for path in _candidates(letter):
        for face in range(_faces(path)):
            if ord(letter) in _coverage(path, face):
                return path, face
    return None


def _candidates(letter: str) -> Iterator[Path]:
    """Fonts named for the letter's script first, then every other plain one."""
    files = system_fonts()
    script = unicodedata.name(letter, "").split(" ")[0].split("-")[0]
    wanted = _CJK if script in _WORDS_OF_CJK else (f"NotoSans{script.title()}-Regular",)
    for name in wanted:
        yield from (path for path in files if path.name.startswith(name))
    yield from (path for path in files if _is_plain(path))


def _is_plain(path: Path) -> bool:
    return not any(word in path.stem for word in ("Bold", "Italic", "Light", "Thin", "Oblique"))


@cache
def system_fonts() -> tuple[Path, ...]:
    """Every font file of the system, in one order on every run."""
    found: list[Path] = []
    for folder in map(Path, SYSTEM_FOLDERS):
        if folder.is_dir():
            found += (p for p in folder.rglob("*") if p.suffix in {".ttf", ".otf", ".ttc"})
    return tuple(sorted(found, key=lambda path: (path.name, str(path))))


@cache
def _faces(path: Path) -> int:
    with path.open("rb") as file:
        head = file.read(12)
    return int.from_bytes(head[8:12], "big") if head[:4] == b"ttcf" else 1


@cache
def _coverage(path: Path, face: int) -> frozenset[int]:
    """Code points of one face; a broken font has none."""
    import uharfbuzz  # heavy: only when a letter is looked for

    blob = uharfbuzz.Blob.from_file_path(str(path))
    return frozenset(uharfbuzz.Face(blob, face).unicodes)
