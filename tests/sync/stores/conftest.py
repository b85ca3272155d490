"""The servers of these tests: started when first wanted, once for all, and ended at the end."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.sync.stores.places import client_of
from tests.sync.stores.servers import dav, ssh, stick, swift


@pytest.fixture(scope="session")
def exfat_stick() -> Iterator[Path]:
    """A real exFAT file system."""
    with stick.exfat_stick() as place:
        yield place


@pytest.fixture(scope="session")
def ssh_server() -> Iterator[ssh.SshServer]:
    """OpenSSH's server."""
    with ssh.ssh_server() as server:
        yield server


@pytest.fixture(scope="session")
def apache() -> Iterator[dav.DavServer]:
    """Apache's WebDAV server, over TLS."""
    with dav.apache() as server:
        yield server


@pytest.fixture(scope="session")
def nginx() -> Iterator[dav.DavServer]:
    """The WebDAV server of nginx."""
    with dav.nginx() as server:
        yield server


@pytest.fixture(scope="session")
def wsgidav() -> Iterator[dav.DavServer]:
    """WsgiDAV."""
    with dav.wsgidav() as server:
        yield server


@pytest.fixture(scope="session")
def swift_server() -> Iterator[swift.SwiftServer]:
    """OpenStack Swift on one node, with the bucket made."""
    with swift.swift() as server:
        client_of(server).mkdir(swift.BUCKET)
        yield server
