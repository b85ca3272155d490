"""OpenStack Swift on one node, as an object store that speaks as S3 does."""

from __future__ import annotations

import contextlib
import getpass
import subprocess
from collections.abc import Iterator
from pathlib import Path

from tests.sync.stores.servers.process import Server, free_port, running, server_folder

USER, PASSWORD, BUCKET = "turf:crew", "sharp-shovel-7", "turf-bucket"
PAGE = 7  # names in one page of a list: few, so that tests turn pages
KINDS = ("account", "container", "object")

# Debian's Python has Swift; ours has not.
_RINGS = """
import sys
from swift.common.ring import RingBuilder

folder, *pairs = sys.argv[1:]
for kind, port in (pair.split("=") for pair in pairs):
    ring = RingBuilder(2, 1, 0)
    at = {"ip": "127.0.0.1", "port": int(port)}
    back = {"replication_ip": "127.0.0.1", "replication_port": int(port), "meta": ""}
    ring.add_dev({"id": 0, "region": 1, "zone": 1, "device": "drive", "weight": 1.0} | at | back)
    ring.rebalance()
    ring.get_ring().save(f"{folder}/{kind}.ring.gz")
"""


class SwiftServer:
    """Four running servers of Swift, of which ``proxy`` is spoken to."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        ports = {kind: free_port() for kind in KINDS}
        self.port = free_port()
        (folder / "drives" / "drive").mkdir(parents=True)
        (folder / "swift.conf").write_text(_COMMON, encoding="ascii")
        for kind, port in ports.items():
            text = _head(folder, port) + _STORAGE.format(kind=kind)
            (folder / f"{kind}.conf").write_text(text, encoding="ascii")
        text = _head(folder, self.port) + _PROXY
        (folder / "proxy.conf").write_text(text, encoding="ascii")
        pairs = [f"{kind}={port}" for kind, port in ports.items()]
        subprocess.run(["/usr/bin/python3", "-c", _RINGS, str(folder), *pairs], check=True)
        self.proxy = self._server("proxy", self.port)
        self.servers = [*(self._server(kind, ports[kind]) for kind in KINDS), self.proxy]

    def where(self, path: str, bucket: str = BUCKET) -> str:
        """Return the text that names a part of a bucket."""
        return f"s3://{bucket}/{path}?endpoint=http://127.0.0.1:{self.port}"

    def _server(self, kind: str, port: int) -> Server:
        """Return one of the four, not yet running."""
        command = [f"/usr/bin/swift-{kind}-server", str(self.folder / f"{kind}.conf")]
        return Server(command, port, self.folder / f"{kind}.log")


@contextlib.contextmanager
def swift() -> Iterator[SwiftServer]:
    """Swift on one node."""
    with server_folder() as folder:
        found = SwiftServer(folder)
        with running(*found.servers):
            yield found


_COMMON = """
[swift-hash]
swift_hash_path_prefix = turf
swift_hash_path_suffix = sand
[storage-policy:0]
name = one
default = yes
"""

_STORAGE = """
[pipeline:main]
pipeline = {kind}-server
[app:{kind}-server]
use = egg:swift#{kind}
"""

_PROXY = f"""
[pipeline:main]
pipeline = catch_errors cache listing_formats s3api tempauth proxy-server
[filter:catch_errors]
use = egg:swift#catch_errors
[filter:cache]
use = egg:swift#memcache
memcache_servers = 127.0.0.1:1
[filter:listing_formats]
use = egg:swift#listing_formats
[filter:s3api]
use = egg:swift#s3api
location = us-east-1
max_bucket_listing = {PAGE}
[filter:tempauth]
use = egg:swift#tempauth
user_turf_crew = {PASSWORD} .admin
[app:proxy-server]
use = egg:swift#proxy
account_autocreate = true
"""


def _head(folder: Path, port: int) -> str:
    """Return the settings that all four have, each in one process of its own."""
    return f"""
[DEFAULT]
bind_ip = 127.0.0.1
bind_port = {port}
user = {getpass.getuser()}
swift_dir = {folder}
devices = {folder}/drives
mount_check = false
recon_cache_path = {folder}
disable_fallocate = true
workers = 0
log_level = ERROR
"""
