"""Our own small server: the right types, compressed siblings, the policy as a header. For a classroom, not the world.

It answers from the file, a piece at a time, and waits for nobody for ever: a request has to come within seconds, and
an answer has to be taken at a certain rate.
"""

from __future__ import annotations

import os
import socket
import struct
import sys
import time
from collections.abc import Callable, Mapping
from contextlib import suppress
from http import HTTPStatus
from http.client import LineTooLong
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from threading import BoundedSemaphore
from typing import Any, BinaryIO

from site_src.asked import Head, Malformed, Unsatisfiable, accepted, has_already, range_of, target_of
from site_src.file_types import FOR_GOOD, TYPES
from site_src.policy import HEADERS_FILE, STRICTEST, headers_of, read_headers
from site_src.shared_folder import BELOW, length_of, receive, text_of

_ENCODINGS = (("br", ".br"), ("gzip", ".gz"))
REQUEST_S = 20  # from the last answer, or the first contact, to a whole request
STALL_S = 20  # without a byte going out
ANSWER_S = 30  # for an answer, and more for a long one:
LEAST_BYTES_S = 4096  # what the slowest line has to take of it each second
MOST_CONNECTIONS = 256
MOST_HEAD_BYTES = 32_768
_SPOKEN = ("HTTP/1.0", "HTTP/1.1")
_PIECE = 262_144
_MOMENT_S = 0.05
_TOGETHER = 65_536  # up to here headers and body leave in one piece
_DRAINED = 65_536


class Handler(BaseHTTPRequestHandler):
    """Serves one folder below one path; GET and HEAD only, and PUT where a book is shared."""

    protocol_version = "HTTP/1.1"
    server_version = "SteepToKiln"
    sys_version = ""
    # Headers and a short body leave together and at once: apart, the body waits 40 ms for the first to be acknowledged.
    wbufsize = -1
    disable_nagle_algorithm = True
    timeout = STALL_S
    server: Server

    def setup(self) -> None:
        """Read no more of a request than a browser would send."""
        super().setup()
        self.rfile = Head(self.rfile)  # type: ignore[assignment, arg-type]

    def handle_one_request(self) -> None:
        """Answer one request, or end the connection of one that does not come."""
        self.rfile.left = MOST_HEAD_BYTES  # type: ignore[attr-defined]
        self.looks_left = 5
        self.server.allow(self.connection, REQUEST_S)
        try:
            super().handle_one_request()
        except LineTooLong:
            self.requestline, self.command, self.request_version = "", "", "HTTP/1.1"
            self.send_error(HTTPStatus.REQUEST_URI_TOO_LONG)

    def do_GET(self) -> None:
        """Send a file."""
        self._answer(body=True)

    def do_HEAD(self) -> None:
        """Send what a file's headers would be."""
        self._answer(body=False)

    def do_PUT(self) -> None:
        """Take a new file into the shared folder, where there is one."""
        folder, length = self.server.shared, length_of(self.headers)
        if folder is None or self._fault(body=True):
            return self.send_error(HTTPStatus.METHOD_NOT_ALLOWED if folder is None else HTTPStatus.BAD_REQUEST)
        self.server.allow(self.connection, ANSWER_S + length / LEAST_BYTES_S)
        status = receive(self.rfile, length, folder, self.path.removeprefix(self.server.base + BELOW))  # type: ignore[arg-type]
        return self._text(status, b"") if status == HTTPStatus.CREATED else self.send_error(status)

    def _text(self, status: HTTPStatus, text: bytes) -> None:
        self._head(status)
        self.send_header("Content-Type", "application/json")
        self.send_header("Cache-Control", "no-store")
        self.send_header("Content-Length", str(len(text)))
        self.end_headers()
        if self.command != "HEAD":
            self.wfile.write(text)

    def _answer(self, *, body: bool) -> None:
        if fault := self._fault():
            return self.send_error(HTTPStatus.BAD_REQUEST, explain=fault)
        try:
            path, asked = target_of(self.path)
        except Malformed as malformed:
            return self.send_error(HTTPStatus.BAD_REQUEST, explain=str(malformed))
        self.began_with = self.server.site_now()
        base = self.server.base
        query = f"?{asked}" if asked else ""
        if path == base.rstrip("/") and base != "/":
            return self._redirect(base + query)
        if not path.startswith(base):
            return self._missing(body)
        if self.server.shared is not None and path.startswith(base + BELOW):
            text = text_of(self.server.shared, path[len(base + BELOW) :])
            return self.send_error(HTTPStatus.NOT_FOUND) if text is None else self._text(HTTPStatus.OK, text)
        place = self._place(path[len(base) :])
        if place is None:
            return self._missing(body)
        if place.is_dir():
            if not path.endswith("/"):
                return self._redirect(f"/{self.path.partition('?')[0].strip('/')}/{query}")
            place = place / "index.html"
        elif path.endswith("/"):
            return self._missing(body)
        if not place.is_file():
            return self._missing(body)
        return self._file(place, HTTPStatus.OK, body)

    def _fault(self, *, body: bool = False) -> str:
        """Return what is wrong with a request that the standard would have refused, or nothing."""
        if self.request_version not in _SPOKEN:
            return "this version of HTTP is not spoken here"
        if len(self.headers.get_all("Host") or []) != 1 and self.request_version == "HTTP/1.1":
            return "one host has to be named"
        lengths = self.headers.get_all("Content-Length") or []
        if self.headers.get("Transfer-Encoding") is not None or (
            not body and any(length.strip() != "0" for length in lengths)
        ):
            return "a request for a file has no body"
        return ""

    def _place(self, relative: str) -> Path | None:
        """Return the file meant, or nothing where the path leads out of the site."""
        if "\0" in relative or "\\" in relative or relative.startswith("/"):
            return None
        site = self.server.site.resolve()
        try:
            place = (site / relative).resolve()
            place.stat()
        except (OSError, ValueError):  # not there, or no name that a file can have
            return None
        return place if place.is_relative_to(site) else None

    def _file(self, place: Path, code: HTTPStatus, body: bool) -> None:
        accepts = accepted(self.headers.get("Accept-Encoding", ""))
        siblings = [(place.with_name(place.name + suffix), name) for name, suffix in _ENCODINGS if name in accepts]
        for source, encoding in [*siblings, (place, "")]:
            try:
                with source.open("rb") as file:
                    return self._send(file, place, encoding, code, body)
            except (FileNotFoundError, IsADirectoryError):
                continue  # no such sibling, or the site was replaced a moment ago
        return self.send_error(HTTPStatus.NOT_FOUND) if code == HTTPStatus.NOT_FOUND else self._missing(body)

    def _send(self, file: BinaryIO, place: Path, encoding: str, code: HTTPStatus, body: bool) -> None:
        about = os.fstat(file.fileno())
        tag = f'"{about.st_mtime_ns:x}-{about.st_size:x}{encoding}"'
        start, stop = 0, about.st_size
        if code == HTTPStatus.OK and has_already(self.headers.get("If-None-Match", ""), tag):
            code, body = HTTPStatus.NOT_MODIFIED, False
        elif code == HTTPStatus.OK and body and self.headers.get("If-Range", tag) == tag:
            try:
                part = range_of(self.headers.get("Range", ""), about.st_size)
            except Unsatisfiable:
                self.send_error(HTTPStatus.REQUESTED_RANGE_NOT_SATISFIABLE, explain=f"*/{about.st_size}")
                return
            if part:
                (start, stop), code = part, HTTPStatus.PARTIAL_CONTENT
        self._head(code, name=place.relative_to(self.server.site.resolve()).as_posix())
        self.send_header("ETag", tag)
        self.send_header("Vary", "Accept-Encoding")
        relative = place.relative_to(self.server.site.resolve()).as_posix()
        for_good = code != HTTPStatus.NOT_FOUND and FOR_GOOD.search(relative)
        self.send_header("Cache-Control", "public, max-age=31536000, immutable" if for_good else "no-cache")
        if code != HTTPStatus.NOT_MODIFIED:
            self.send_header("Accept-Ranges", "bytes")
            self.send_header("Content-Type", TYPES.get(place.suffix, "application/octet-stream"))
            self.send_header("Content-Length", str(stop - start))
            if encoding:
                self.send_header("Content-Encoding", encoding)
        if code == HTTPStatus.PARTIAL_CONTENT:
            self.send_header("Content-Range", f"bytes {start}-{stop - 1}/{about.st_size}")
        self.end_headers()
        if body:
            self._pour(file, start, stop)

    def _pour(self, file: BinaryIO, start: int, stop: int) -> None:
        """Send a part of a file without holding it."""
        self.server.allow(self.connection, ANSWER_S + (stop - start) / LEAST_BYTES_S)
        file.seek(start)
        if stop - start <= _TOGETHER:
            self.wfile.write(file.read(stop - start))
            return
        self.wfile.flush()
        while start < stop:
            try:
                sent = self.connection.sendfile(file, start, min(_PIECE, stop - start))
            except TimeoutError:
                break_off(self.connection)
                raise
            if not sent:  # the file has become shorter: what was promised cannot be kept
                self.close_connection = True
                return
            start += sent

    def _head(self, code: HTTPStatus, *, name: str = "", last: bool = False) -> None:
        self.send_response(code)
        for header, value in headers_of(self.server.headers(), name).items():
            self.send_header(header, value)
        if last or self.server.is_crowded():  # somebody else waits for a place
            self.send_header("Connection", "close")

    def _redirect(self, address: str) -> None:
        self._head(HTTPStatus.MOVED_PERMANENTLY)
        self.send_header("Location", address)
        self.send_header("Cache-Control", "no-cache")
        self.send_header("Content-Length", "0")
        self.end_headers()

    def _missing(self, body: bool) -> None:
        if self.looks_left and not self.server.is_still(self.began_with):
            self.looks_left -= 1
            time.sleep(_MOMENT_S)  # between two editions there is no site for a moment
            return self._answer(body=body)
        page = self.server.site / "404.html"
        if page.is_file():
            return self._file(page.resolve(), HTTPStatus.NOT_FOUND, body)
        return self.send_error(HTTPStatus.NOT_FOUND)

    def send_error(self, code: int, message: str | None = None, explain: str | None = None) -> None:  # noqa: ARG002 as the library calls it
        """Answer with a fault in one line of text, under the policy, and end the connection."""
        if code == HTTPStatus.NOT_IMPLEMENTED:  # the library's word for a method that is not ours
            code = HTTPStatus.METHOD_NOT_ALLOWED
        status = HTTPStatus(code)
        if self.request_version not in _SPOKEN:
            self.request_version = "HTTP/1.0"  # so that the answer has headers
        text = f"{status.value} {status.phrase}{f': {explain}' if explain else ''}\n".encode()
        self._head(status, last=True)
        self.send_header("Content-Type", "text/plain; charset=utf-8")
        self.send_header("Cache-Control", "no-store")
        self.send_header("Content-Length", str(len(text)))
        if status == HTTPStatus.METHOD_NOT_ALLOWED:
            self.send_header("Allow", "GET, HEAD, PUT" if self.server.shared else "GET, HEAD")
        if status == HTTPStatus.REQUESTED_RANGE_NOT_SATISFIABLE:
            self.send_header("Content-Range", f"bytes {explain}")
        self.end_headers()
        if self.command != "HEAD":
            self.wfile.write(text)
        self._hang_up()

    def _hang_up(self) -> None:
        """Let the other side read the answer before what it still sends breaks the line."""
        with suppress(OSError):
            self.wfile.flush()
            self.connection.shutdown(socket.SHUT_WR)
            self.connection.settimeout(1)
            left = _DRAINED
            while left > 0 and (data := self.connection.recv(left)):
                left -= len(data)

    def log_message(self, format: str, *args: object) -> None:
        """Say nothing of a request that went well."""
        if self.server.say and len(args) > 1 and str(args[1])[:1] in "45":
            line = format % args
            self.server.say("".join(sign if sign.isprintable() else "?" for sign in line))


def break_off(connection: socket.socket) -> None:
    """End a connection, and throw away what the other side has not taken so far."""
    with suppress(OSError):
        connection.setsockopt(socket.SOL_SOCKET, socket.SO_LINGER, struct.pack("ii", 1, 0))
        connection.shutdown(socket.SHUT_RDWR)


class Server(ThreadingHTTPServer):
    """The server of one built site.

    Parameters
    ----------
    site : Path
        The built site. It may be replaced while the server runs.
    host, port
        Where to listen; port 0 takes a free one.
    base : str
        The path below which the site lies, such as ``/handbook/``.
    say : Callable[[str], None], optional
        Called with a line for each request that failed.
    shared : Path, optional
        The folder through which devices share one day-book; not offered if not given.
    """

    daemon_threads = True
    request_queue_size = MOST_CONNECTIONS

    def __init__(
        self,
        site: Path,
        host: str = "127.0.0.1",
        port: int = 0,
        base: str = "/",
        say: Callable[[str], None] | None = None,
        shared: Path | None = None,
    ) -> None:
        self.shared = shared
        self.site = site
        self.base = f"/{base.strip('/')}/".replace("//", "/")
        self.say = say
        self._headers: Mapping[str, str] = STRICTEST
        self._headers_of: tuple[int, int] | None = None
        self._free = BoundedSemaphore(MOST_CONNECTIONS)
        self._until: dict[socket.socket, float] = {}
        self._ends = False
        super().__init__((host, port), Handler)

    @property
    def address(self) -> str:
        """Where the site is, as one would type it; ends in a slash."""
        host = str(self.server_address[0])
        shown = "127.0.0.1" if host == "0.0.0.0" else host
        return f"http://{shown}:{self.server_address[1]}{self.base}"

    def headers(self) -> Mapping[str, str]:
        """Return what every answer carries: of the site that is there, or that was there a moment ago."""
        with suppress(OSError, ValueError):
            about = (self.site / HEADERS_FILE).stat()
            if self._headers_of != (of := (about.st_mtime_ns, about.st_ino)):
                self._headers, self._headers_of = read_headers(self.site), of
        return self._headers

    def site_now(self) -> int | None:
        """Return what tells this folder from the one that takes its place; nothing while there is none."""
        try:
            return self.site.stat().st_ino
        except OSError:
            return None

    def is_still(self, folder: int | None) -> bool:
        """Tell whether the site is the folder that it was."""
        return folder is not None and folder == self.site_now()

    def allow(self, connection: socket.socket, seconds: float) -> None:
        """Give a connection so long for what comes next."""
        self._until[connection] = time.monotonic() + seconds

    def is_crowded(self) -> bool:
        """Tell whether most places are taken."""
        return len(self._until) > MOST_CONNECTIONS // 2

    def service_actions(self) -> None:
        """End the connections whose time is over; called some times a second."""
        now = time.monotonic()
        for connection, until in list(self._until.items()):
            if until < now:
                break_off(connection)
                self._until.pop(connection, None)

    def process_request(self, request: Any, client_address: Any) -> None:
        """Answer in a thread of its own, as soon as there is a place."""
        while not self._free.acquire(timeout=0.1):
            if self._ends:
                self.shutdown_request(request)
                return
            self.service_actions()
        self.allow(request, REQUEST_S)
        super().process_request(request, client_address)

    def shutdown(self) -> None:
        """Take no more connections."""
        self._ends = True
        super().shutdown()

    def server_close(self) -> None:
        """Listen no more, and end the connections that are still open."""
        super().server_close()
        for connection in list(self._until):
            break_off(connection)

    def process_request_thread(self, request: Any, client_address: Any) -> None:
        """Answer, and give the place back."""
        try:
            super().process_request_thread(request, client_address)
        finally:
            self._until.pop(request, None)
            self._free.release()

    def handle_error(self, request: Any, client_address: Any) -> None:
        """Keep quiet about a browser that hangs up or is hung up on; show any other fault."""
        if not isinstance(sys.exception(), ConnectionError | TimeoutError):
            super().handle_error(request, client_address)
