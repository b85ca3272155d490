"""A watched program: what the tablet keeps beside its books, acknowledged each time it is kept."""

from __future__ import annotations

import sys
from pathlib import Path

from crewapp.tablet.atomic_files import write_atomically
from crewapp.tablet.drafts import Drafts
from crewapp.tablet.settings import Settings, Tablet
from tests.power.inside import Recorder
from tests.power.parcels import parcel
from tests.power.publishing_child import weaken

TIMES = 12


def main(folder: Path, mode: str) -> None:
    """Take an identity, then keep settings, drafts and photos, over and over."""
    if mode != "as it is":
        weaken(mode)
    recorder = Recorder()
    tablet = Tablet(folder / "tablet")
    recorder.tell(f"stream {tablet.stream()}")
    drafts = Drafts(tablet.drafts)
    for number in range(TIMES):
        tablet.keep_settings(Settings(author=f"Rhea {number}", tablet_name="x" * 900))
        recorder.tell(f"settings {number}")
        drafts.keep("pass", {"turn": number, "typed": "9 " * (400 + number)})
        recorder.tell(f"draft {number}")
        name, data = parcel(number)
        write_atomically(tablet.books / "green.book.photos" / Path(name).name, data)
        recorder.tell(f"photo {number}")


if __name__ == "__main__":
    main(Path(sys.argv[1]), sys.argv[2])
