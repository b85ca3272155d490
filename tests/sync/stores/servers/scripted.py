"""A web server that answers as a test tells it to, for answers that no honest one gives."""

from __future__ import annotations

import contextlib
import threading
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer

Answer = Callable[[str, str], tuple[int, bytes]]


@dataclass
class Scripted:
    """The server; ``asked`` holds what came: method, path and headers."""

    port: int
    asked: list[tuple[str, str, dict[str, str]]] = field(default_factory=list)


@contextlib.contextmanager
def scripted(answer: Answer) -> Iterator[Scripted]:
    """Run a server that answers each method and path as ``answer`` says."""
    met = Scripted(0)

    class Handler(BaseHTTPRequestHandler):
        protocol_version = "HTTP/1.1"

        def handle_any(self) -> None:
            self.rfile.read(int(self.headers.get("Content-Length", 0)))
            met.asked.append((self.command, self.path, dict(self.headers)))
            status, body = answer(self.command, self.path)
            self.send_response(status)
            self.send_header("Content-Length", str(len(body)))
            self.end_headers()
            with contextlib.suppress(OSError):  # who asked may have heard enough
                self.wfile.write(b"" if self.command == "HEAD" else body)

        def log_message(self, format: str, *args: object) -> None:
            """Say nothing."""

    for method in ("GET", "HEAD", "PUT", "DELETE", "PROPFIND", "MKCOL", "MOVE", "OPTIONS"):
        setattr(Handler, f"do_{method}", Handler.handle_any)
    server = ThreadingHTTPServer(("127.0.0.1", 0), Handler)
    server.daemon_threads = True
    met.port = server.server_address[1]
    thread = threading.Thread(target=server.serve_forever, args=(0.02,))
    thread.start()
    try:
        yield met
    finally:
        server.shutdown()
        server.server_close()
        thread.join()
