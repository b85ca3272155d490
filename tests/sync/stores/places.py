"""Stores under test, each with a hand in it that goes past the store."""

from __future__ import annotations

import functools
import itertools
from contextlib import AbstractContextManager
from dataclasses import dataclass
from pathlib import Path

from s3fs import S3FileSystem

from sync.stores.address import parse_store_address
from sync.stores.contract import Store
from sync.stores.opening import open_store
from sync.stores.secrets import Secret, keep_secret
from tests.sync.stores.servers.dav import PASSWORD, USER, DavServer
from tests.sync.stores.servers.ssh import SshServer
from tests.sync.stores.servers.swift import BUCKET, SwiftServer
from tests.sync.stores.servers.swift import PASSWORD as SWIFT_PASSWORD
from tests.sync.stores.servers.swift import USER as SWIFT_USER

PATIENCE_S = 20.0
fresh = map("turf{}".format, itertools.count())


@dataclass(frozen=True)
class FilesPlace:
    """A store whose files lie in a folder of this machine."""

    where: str
    home: Path
    root: Path

    def opened(self) -> AbstractContextManager[Store]:
        """Open the store once more."""
        return open_store(self.where, self.home, PATIENCE_S)

    def plant(self, name: str, data: bytes) -> None:
        """Put a file there as anybody could."""
        path = self.root / name
        for folder in reversed(path.parents):
            if not folder.exists():
                folder.mkdir()
                folder.chmod(0o777)  # the server may be another user
        path.write_bytes(data)
        path.chmod(0o666)

    def names(self) -> set[str]:
        """Return the names of all files that are there."""
        found = [path for path in self.root.rglob("*") if path.is_file()]
        return {path.relative_to(self.root).as_posix() for path in found}


@dataclass(frozen=True)
class ObjectsPlace:
    """A store in a bucket, which is looked into through a client of its own."""

    where: str
    home: Path
    client: S3FileSystem
    lead: str

    def opened(self) -> AbstractContextManager[Store]:
        """Open the store once more."""
        return open_store(self.where, self.home, PATIENCE_S)

    def plant(self, name: str, data: bytes) -> None:
        """Put an object there as anybody could."""
        self.client.pipe_file(f"{self.lead}/{name}", data)

    def names(self) -> set[str]:
        """Return the names of all objects that are there."""
        return {str(key)[len(self.lead) + 1 :] for key in self.client.find(self.lead)}


def folder_place(tmp_path: Path) -> FilesPlace:
    """A fresh store in a folder."""
    root = tmp_path / next(fresh)
    root.mkdir()
    return FilesPlace(str(root), tmp_path, root)


def ssh_place(ssh: SshServer) -> FilesPlace:
    """A fresh store over SFTP."""
    path = next(fresh)
    return FilesPlace(ssh.where(path), ssh.home, ssh.root / path)


def dav_place(dav: DavServer, home: Path) -> FilesPlace:
    """A fresh store over WebDAV; the tablet keeps its password."""
    path = next(fresh)
    keep_secret(parse_store_address(dav.where(path)), home, Secret(USER, PASSWORD))
    return FilesPlace(dav.where(path), home, dav.root / path)


def objects_place(swift: SwiftServer, home: Path) -> ObjectsPlace:
    """A fresh store in the bucket, under a prefix of its own."""
    path = next(fresh)
    keep_secret(parse_store_address(swift.where(path)), home, Secret(SWIFT_USER, SWIFT_PASSWORD))
    return ObjectsPlace(swift.where(path), home, client_of(swift), f"{BUCKET}/{path}")


@functools.cache
def client_of(swift: SwiftServer) -> S3FileSystem:
    """Return a client of the object store that is not ours."""
    return S3FileSystem(
        key=SWIFT_USER,
        secret=SWIFT_PASSWORD,
        endpoint_url=f"http://127.0.0.1:{swift.port}",
        client_kwargs={"region_name": "us-east-1"},
        config_kwargs={
            "s3": {"addressing_style": "path"},
            "request_checksum_calculation": "when_required",
        },
        use_listings_cache=False,
    )
