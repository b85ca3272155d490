"""Power cuts in full: 600 images for each promise, and for each control.

Run: python -m pytest tests/benchmarks/bench_power.py --benchmark-only -s
"""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path

import pytest
from pytest_benchmark.fixture import BenchmarkFixture

from tests.power.faults import choose_faults
from tests.power.judging import Judge, Verdict, judge_all, judge_book, judge_file, narrow
from tests.power.judging_exchange import judge_exchange
from tests.power.judging_files import judge_bytes, judge_shelf, judge_tablet
from tests.power.recording import Recording, build, quick_folder, record
from tests.power.replay import Image, cut

IMAGES = 600
FAULTS = json.dumps(choose_faults(288, 18, seed=1))
SHELF_FAULTS = json.dumps(choose_faults(64, 4, seed=2))

PROMISES: dict[str, tuple[tuple[str, ...], Judge]] = {
    "inking": (("inking_child", "as it is", "400"), judge_book),
    "inking through 288 faults": (("failing_child", FAULTS), judge_book),
    "publishing": (("publishing_child", "as it is", "60"), judge_shelf),
    "publishing through 64 faults": (("publishing_child", "faults", SHELF_FAULTS), judge_bytes),
    "exchanging": (("exchanging_child", "as it is", "8"), judge_exchange),
    "keeping": (("keeping_child", "as it is"), judge_tablet),
}
CONTROLS: dict[str, tuple[tuple[str, ...], Judge]] = {
    "synchronous NORMAL": (("inking_child", "normal", "400"), judge_book),
    "journal DELETE": (("inking_child", "delete", "400"), judge_file),
    "no sync of the file": (("publishing_child", "file", "60"), judge_bytes),
    "no sync of the folder": (("publishing_child", "folder", "60"), judge_bytes),
}


@pytest.fixture(scope="module")
def recorder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Compile the recorder."""
    return build(tmp_path_factory.mktemp("recorder"))


@pytest.fixture
def place() -> Iterator[Path]:
    """Give a folder where a sync costs nothing."""
    with quick_folder() as folder:
        yield folder


def images_of(recording: Recording, words: tuple[str, ...]) -> Iterator[Image]:
    """Cut a recording in so many places; of a run through faults, look at one case each."""
    found = cut(recording.deeds, IMAGES, seed=20_260_601)
    return narrow(found) if words[0] == "failing_child" else found


def judged(
    benchmark: BenchmarkFixture, recorder: Path, place: Path, words: tuple[str, ...], judge: Judge
) -> Verdict:
    """Record once, look at every image, and say what was found."""
    module, *rest = words
    recording = record(recorder, place, f"tests.power.{module}", *rest)
    verdict: Verdict = benchmark.pedantic(
        lambda: judge_all(images_of(recording, words), judge), rounds=1
    )
    benchmark.extra_info |= {"images": verdict.images, "lost": verdict.lost}
    print(f" {verdict.images} images, {verdict.lost} lost something, {verdict.worst} at most")
    return verdict


@pytest.mark.parametrize("name", PROMISES)
def test_promise(benchmark: BenchmarkFixture, recorder: Path, place: Path, name: str) -> None:
    """Nothing acknowledged is lost, nothing is damaged."""
    verdict = judged(benchmark, recorder, place, *PROMISES[name])

    assert verdict.damaged == []
    assert verdict.lost == 0


@pytest.mark.parametrize("name", CONTROLS)
def test_control(benchmark: BenchmarkFixture, recorder: Path, place: Path, name: str) -> None:
    """A program that takes less care loses things in the same cuts."""
    verdict = judged(benchmark, recorder, place, *CONTROLS[name])

    assert verdict.lost > 0
