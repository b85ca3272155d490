"""The record against Apache PDFBox Preflight, which checks files for keeping (ISO 19005-1).

Debian: libpdfbox2-java, libactivation-java, libjaxb-api-java. Without them the metadata and the
colour profile are still held by test_pdf_record.py.
"""

from __future__ import annotations

import io
import shutil
import subprocess
from pathlib import Path

import pytest

from sync.papers.asbuilt.pdf_file import build_as_built_pdf
from tests.sync.papers.asbuilt.conftest import facts_of_book
from tests.sync.papers.asbuilt.small_green import written_green
from tests.sync.papers.asbuilt.test_photos import picture

JAVA = Path("/usr/share/java")
JARS = [
    JAVA / f"{name}.jar"
    for name in (
        *("preflight", "pdfbox2", "fontbox2", "xmpbox", "commons-logging", "commons-io"),
        *("javax.activation", "jaxb-api"),
    )
]
CHECKER = "org.apache.pdfbox.preflight.Validator_A1b"
pytestmark = pytest.mark.skipif(
    shutil.which("java") is None or not all(jar.is_file() for jar in JARS),
    reason="the checker is not installed (Debian: libpdfbox2-java)",
)


def checked(path: Path) -> str:
    """What the checker says of a file."""
    paths = ":".join(map(str, JARS))
    done = subprocess.run(
        ["java", "-cp", paths, CHECKER, str(path)],
        capture_output=True,
        check=False,
        text=True,
        timeout=120,
    )
    return done.stdout


def test_record_is_valid_for_keeping(tmp_path: Path) -> None:
    """With photos, names in several scripts, plans and profiles, the checker finds no fault."""
    path = tmp_path / "record.pdf"
    facts = facts_of_book(written_green("Green 1 <&> Дмитро 張偉"))
    png = io.BytesIO(picture(40, 30, "PNG", "RGBA")).getvalue()
    path.write_bytes(build_as_built_pdf(facts, file_of=lambda name: png))

    assert "is a valid PDF/A-1b file" in checked(path)


def test_checker_refuses_a_spoilt_record(tmp_path: Path) -> None:
    """The same file with another conformance written over is refused: the checker does look."""
    path = tmp_path / "record.pdf"
    data = build_as_built_pdf(facts_of_book(written_green()))
    path.write_bytes(data.replace(b"<pdfaid:part>1<", b"<pdfaid:part>7<"))

    assert "is a valid" not in checked(path)
