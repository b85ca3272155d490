"""OpenSSH's own server, with its own keys, letting in whoever runs the tests."""

from __future__ import annotations

import contextlib
import getpass
import os
import subprocess
from collections.abc import Iterator
from pathlib import Path

from tests.sync.stores.servers.process import Server, free_port, running, server_folder


class SshServer:
    """A running sshd; ``home`` is a tablet's folder that knows it and has a key for it."""

    def __init__(self, folder: Path) -> None:
        self.root = folder / "files"
        self.home = folder / "home"
        self.host_key = folder / "host_key"
        for made in (self.root, self.home):
            made.mkdir()
        make_key(self.host_key)
        make_key(self.home / "store-key")
        port = free_port()
        self.config = folder / "sshd_config"
        self.config.write_text(_config(folder, port), encoding="ascii")
        if os.getuid() == 0:
            Path("/run/sshd").mkdir(exist_ok=True)  # sshd as root starts only with it
        command = ["/usr/sbin/sshd", "-D", "-e", "-f", str(self.config)]
        self.server = Server(command, port, folder / "log")
        kind, key = self.host_key.with_suffix(".pub").read_text("ascii").split()[:2]
        self.known = f"[127.0.0.1]:{port} {kind} {key}\n"
        (self.home / "known_hosts").write_text(self.known, encoding="ascii")

    def where(self, path: str) -> str:
        """Return the text that names a folder of the server."""
        return f"sftp://{getpass.getuser()}@127.0.0.1:{self.server.port}{self.root}/{path}"


@contextlib.contextmanager
def ssh_server() -> Iterator[SshServer]:
    """A running sshd."""
    with server_folder() as folder:
        ssh = SshServer(folder)
        with running(ssh.server):
            yield ssh


def make_key(path: Path) -> None:
    """Make a key pair without a passphrase."""
    command = ["ssh-keygen", "-q", "-t", "ed25519", "-N", "", "-C", "test", "-f", str(path)]
    subprocess.run(command, check=True)


def _config(folder: Path, port: int) -> str:
    """Return the settings of a server that knows one key and gives out files alone."""
    return f"""
ListenAddress 127.0.0.1:{port}
HostKey {folder}/host_key
PidFile none
AuthorizedKeysFile {folder}/home/store-key.pub
PermitRootLogin yes
PasswordAuthentication no
KbdInteractiveAuthentication no
StrictModes no
UsePAM no
Subsystem sftp internal-sftp -d {folder}/files
MaxStartups 100
"""
