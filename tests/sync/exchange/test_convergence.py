"""Three tablets and an office, any order, any cut: in the end all hold the same, and all of it."""

from __future__ import annotations

import os
import shutil
from pathlib import Path
from tempfile import mkdtemp

from hypothesis import HealthCheck, Phase, settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, initialize, rule

from models.entries.envelope import read_entry
from models.state.job_state import JobState
from sync.exchange.entry_source import members_of
from sync.exchange.errors import StoreHoldsLessError
from sync.exchange.exchange_log import known_job
from sync.segments.errors import SegmentError
from sync.segments.file_name import SegmentName
from sync.segments.reader import open_segment
from sync.trust.keys import Signer
from tests.sync.exchange.bad_stores import FailingStore, Killed
from tests.sync.exchange.crew import Crew, MemoryStore, draft

NODES = ("founder", "second", "third", "office")
nodes = st.sampled_from(NODES)
RUNS = int(os.environ.get("CREWAPP_CONVERGENCE_RUNS", "12"))
STEPS = int(os.environ.get("CREWAPP_CONVERGENCE_STEPS", "24"))


class Site(RuleBasedStateMachine):
    """A site with a share and a stick; anything may happen to a tablet or a file."""

    def __init__(self) -> None:
        super().__init__()
        self.folder = Path(mkdtemp(prefix="site-"))
        self.stores = {"share": MemoryStore(), "stick": MemoryStore()}
        self.crew: dict[str, Crew] = {}
        self.told: set[str] = set()
        self.saved: dict[str, Path] = {}

    @initialize()
    def begin(self) -> None:
        """The founder starts the job and lets the others in; they fetch it."""
        for name in NODES:
            (self.folder / name).mkdir()
        founder = self._recruit("founder", Signer.new())
        founder.found()
        signers = {name: Signer.new() for name in NODES[1:]}
        founder.add(*signers.values())
        founder.sync(self.stores["share"])
        for name, signer in signers.items():
            path = self.folder / name / "green-7.book"
            founder.book.backup(path)  # the book by a stick; the rest by exchange
            self._recruit(name, signer)
        self._note("founder")

    @rule(name=nodes, count=st.integers(1, 3))
    def ink(self, name: str, count: int) -> None:
        """Somebody writes."""
        rows = self.crew[name].ink(*(draft() for _ in range(count)))
        self.told |= {row.id for row in rows}

    @rule(name=nodes, store=st.sampled_from(["share", "stick"]), verbs=st.integers(-1, 9))
    def exchange(self, name: str, store: str, verbs: int) -> None:
        """Somebody exchanges, perhaps until the signal goes."""
        self._sync(name, FailingStore(self.stores[store], verbs))

    @rule(name=nodes, store=st.sampled_from(["share", "stick"]), verbs=st.integers(0, 9))
    def killed(self, name: str, store: str, verbs: int) -> None:
        """Somebody's tablet dies in an exchange, and is started again."""
        try:
            self._sync(name, FailingStore(self.stores[store], verbs, Killed))
        except Killed:
            self._reopen(name)

    @rule(name=nodes)
    def save(self, name: str) -> None:
        """Somebody makes a backup of all of a tablet's files."""
        target = self.folder / f"{name}.saved"
        shutil.rmtree(target, ignore_errors=True)
        self.crew[name].close()
        shutil.copytree(self.folder / name, target)
        self._reopen(name)
        self.saved[name] = target

    @rule(name=nodes, same=st.booleans())
    def restore(self, name: str, same: bool) -> None:
        """A backup is put back: on the same tablet, or on another that notices at once."""
        if name not in self.saved:
            return
        self.crew[name].close()
        shutil.rmtree(self.folder / name)
        shutil.copytree(self.saved[name], self.folder / name)
        self._reopen(name)
        self.told &= self._known_somewhere()
        if not same:
            self.crew[name].renew()

    @rule(name=nodes, what=st.sampled_from(["seg", "ledger.json"]))
    def forget(self, name: str, what: str) -> None:
        """A tablet loses its folder of segments, or its notes."""
        path = self.crew[name].place.folder / what
        if path.is_dir():
            shutil.rmtree(path)
        else:
            path.unlink(missing_ok=True)

    @rule(name=nodes)
    def restore_book(self, name: str) -> None:
        """The book's file alone is put back from a backup."""
        if name not in self.saved:
            return
        book = self.crew[name].path
        self.crew[name].close()
        for end in ("", "-wal", "-shm"):
            book.with_name(book.name + end).unlink(missing_ok=True)
        shutil.copy(self.saved[name] / book.name, book)
        self._reopen(name)
        self.told &= self._known_somewhere()

    @rule(store=st.sampled_from(["share", "stick"]), which=st.integers(0, 99), bit=st.integers(0))
    def spoil(self, store: str, which: int, bit: int) -> None:
        """A file of a store is cut, flipped or emptied."""
        files = self.stores[store].files
        if files:
            name = sorted(files)[which % len(files)]
            data = bytearray(files[name])
            if bit % 3 and data:
                data[bit % len(data)] ^= 1 << (bit % 8)
            files[name] = bytes(data) if bit % 3 else bytes(data[: bit % (len(data) + 1)])

    @rule(store=st.sampled_from(["share", "stick"]), which=st.integers(0, 99))
    def lose(self, store: str, which: int) -> None:
        """A file of a store is gone."""
        files = self.stores[store].files
        if files:
            del files[sorted(files)[which % len(files)]]

    @rule(by=st.sampled_from(["founder", "office"]))
    def revoke(self, by: str) -> None:
        """The third tablet is taken off the list; it writes on, for nobody."""
        one = self.crew[by]
        members = members_of(one.book, known_job(one.book))
        for signer in self.crew["third"].held:
            if members.may_write(signer.stream):
                one.revoke(signer)
        self._note(by)

    def teardown(self) -> None:
        """All meet at a sound store until nothing more comes; then all hold the same."""
        try:
            if self.crew:
                self._meet()
                self._find_again()
                self._meet()
                self._compare()
        finally:
            for one in self.crew.values():
                one.close()
            shutil.rmtree(self.folder)

    def _meet(self) -> None:
        for store in (*self.stores.values(), MemoryStore()):
            for _ in range(3):
                for name in NODES:
                    self._sync(name, store)

    def _find_again(self) -> None:
        """The third tablet turns up, and is let in under every name that it had."""
        founder = self.crew["founder"]
        members = members_of(founder.book, known_job(founder.book))
        founder.add(*(one for one in self.crew["third"].held if not members.may_write(one.stream)))

    def _compare(self) -> None:
        books = {name: self.crew[name].raws() for name in NODES}
        states = {
            name: sorted(
                (kind, tuple(entry.id for entry in filed))
                for kind, filed in JobState(map(read_entry, raws)).indexes.items()
            )
            for name, raws in books.items()
        }
        for name in NODES[1:]:
            assert books[name] == books["founder"]
            assert states[name] == states["founder"]
        held = {row.id for row in self.crew["founder"].book.rows()}
        assert self.told <= held
        for name in NODES:
            assert self.crew[name].book.verify().is_sound

    def _recruit(self, name: str, signer: Signer) -> Crew:
        self.crew[name] = Crew(self.folder / name / "green-7.book", signer)
        return self.crew[name]

    def _reopen(self, name: str) -> None:
        old = self.crew[name]
        old.close()
        self.crew[name] = Crew(
            old.path, old.signer, [key for key in old.held if key is not old.signer]
        )

    def _sync(self, name: str, store: FailingStore | MemoryStore) -> None:
        one = self.crew[name]
        one.introduce()
        for allow_less in (False, True):
            try:
                report = one.sync(store, allow_less=allow_less)
            except StoreHoldsLessError:
                continue
            except OSError:
                return  # it could not even be listed
            if report.was_identity_used:
                one.introduce()
            one.uphold()
            return

    def _note(self, name: str) -> None:
        self.told |= {row.id for row in self.crew[name].book.rows()}

    def _known_somewhere(self) -> set[str]:
        found = {row.id for one in self.crew.values() for row in one.book.rows()}
        for store in self.stores.values():
            for path, data in store.files.items():
                name = SegmentName.find(path)
                try:
                    rows = open_segment(name, data).rows() if name else []
                except SegmentError:
                    continue
                found |= {row.id for row in rows}
        return found


TestConvergence = Site.TestCase
TestConvergence.settings = settings(
    max_examples=RUNS,
    stateful_step_count=STEPS,
    deadline=None,
    derandomize=RUNS <= 12,
    phases=list(Phase) if RUNS <= 12 else [Phase.reuse, Phase.generate],
    suppress_health_check=list(HealthCheck),
)
