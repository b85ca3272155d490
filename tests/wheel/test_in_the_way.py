"""Other people's packages named models or sync stop the installed program before it writes."""

from __future__ import annotations

import base64
import hashlib
from pathlib import Path
from zipfile import ZipFile

import pytest

from tests.wheel.installation import Installation, install

pytestmark = pytest.mark.wheel
ALONE = "Install the wheel file you were given into an environment of its own"


@pytest.fixture(scope="module")
def spoilt(wheel: Path, tmp_path_factory: pytest.TempPathFactory) -> Installation:
    """An environment of ours into which a wheel of somebody else was put afterwards."""
    folder = tmp_path_factory.mktemp("spoilt")
    made = install(wheel, folder, fresh=False)
    made.install(foreign_wheel(folder), "--no-deps", "--no-index")
    return made


def foreign_wheel(folder: Path) -> Path:
    """Make the smallest wheel that brings a package named models."""
    info = "fieldmodels-1.0.dist-info"
    files = {
        "models/__init__.py": "raise SystemExit('the foreign package was imported')\n",
        f"{info}/METADATA": "Metadata-Version: 2.1\nName: fieldmodels\nVersion: 1.0\n",
        f"{info}/WHEEL": "Wheel-Version: 1.0\nRoot-Is-Purelib: true\nTag: py3-none-any\n",
    }
    record = "".join(f"{name},sha256={digest(text)},{len(text)}\n" for name, text in files.items())
    path = folder / "fieldmodels-1.0-py3-none-any.whl"
    with ZipFile(path, "w") as packed:
        for name, text in {**files, f"{info}/RECORD": f"{record}{info}/RECORD,,\n"}.items():
            packed.writestr(name, text)
    return path


def digest(text: str) -> str:
    """Return a file's digest as the RECORD of a wheel gives it."""
    return base64.urlsafe_b64encode(hashlib.sha256(text.encode()).digest()).decode().rstrip("=")


def test_wheel_that_wrote_over_ours_is_told(spoilt: Installation) -> None:
    """Pip let it and said nothing; the program says where, and makes nothing."""
    done = spoilt.run(spoilt.command, "demo")
    (models,) = spoilt.environment.glob("lib/python*/site-packages/models")

    assert done.returncode == 2
    assert done.stderr.startswith(
        f"crewapp can't start: Python finds another package named models, at {models}. {ALONE}"
    )
    assert done.stderr.count("\n") == 1
    assert [path.name for path in spoilt.here.rglob("*")] == ["home"]


@pytest.mark.parametrize("name", ["models", "sync"])
def test_package_on_the_python_path_is_told(
    installed: Installation, tmp_path: Path, name: str
) -> None:
    """Before it is imported, by the command and by the module alike."""
    (tmp_path / name).mkdir()
    (tmp_path / name / "__init__.py").write_text("raise SystemExit('imported')", encoding="utf-8")

    for words in ([installed.command], [installed.python, "-m", "crewapp"]):
        done = installed.run(*words, "demo", "--out", "none", PYTHONPATH=str(tmp_path))
        assert done.returncode == 2
        assert f"another package named {name}, at {tmp_path / name}. {ALONE}" in done.stderr
        assert not (installed.here / "none").exists()


def test_module_where_it_is_started_is_told(installed: Installation) -> None:
    """A models.py beside one's notes is what ``python -m crewapp`` would import."""
    (installed.here / "models.py").write_text("raise SystemExit('imported')", encoding="utf-8")
    done = installed.run(installed.python, "-m", "crewapp", "demo", "--out", "none")
    (installed.here / "models.py").unlink()

    assert done.returncode == 2
    assert "models.py, in the folder it was started from. Start it from another" in done.stderr
    assert not (installed.here / "none").exists()
