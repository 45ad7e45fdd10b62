"""Our own small server: the right types, compressed siblings, the policy as a header."""

from __future__ import annotations

import re
import sys
from collections.abc import Callable
from http import HTTPStatus
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from urllib.parse import unquote, urlsplit

from site_src.policy import read_headers

TYPES = {
    ".css": "text/css; charset=utf-8",
    ".html": "text/html; charset=utf-8",
    ".ico": "image/x-icon",
    ".jpg": "image/jpeg",
    ".js": "text/javascript; charset=utf-8",
    ".json": "application/json",
    ".map": "application/json",
    ".mjs": "text/javascript; charset=utf-8",
    ".png": "image/png",
    ".svg": "image/svg+xml",
    ".txt": "text/plain; charset=utf-8",
    ".wasm": "application/wasm",
    ".webmanifest": "application/manifest+json",
    ".webp": "image/webp",
    ".whl": "application/zip",
    ".xml": "application/xml",
    ".zip": "application/zip",
}
_ENCODINGS = (("br", ".br"), ("gzip", ".gz"))
# A name with a hash in it, of the file or of its folder, stands for one content for good.
FOR_GOOD = re.compile(r"(^|/)runtime/[0-9a-f]{12}/|\.[0-9a-f]{8,12}(\.min)?\.\w+$")


class Handler(BaseHTTPRequestHandler):
    """Serves one folder below one path; GET and HEAD only."""

    protocol_version = "HTTP/1.1"
    server_version = "SteepToKiln"
    sys_version = ""
    # Headers and body leave together and at once: apart, the body waits 40 ms for the first part to be acknowledged.
    wbufsize = -1
    disable_nagle_algorithm = True
    server: Server

    def do_GET(self) -> None:
        """Send a file."""
        self._answer(body=True)

    def do_HEAD(self) -> None:
        """Send what a file's headers would be."""
        self._answer(body=False)

    def _answer(self, *, body: bool) -> None:
        address = urlsplit(self.path)
        path = unquote(address.path, errors="replace")
        base = self.server.base
        query = f"?{address.query}" if address.query else ""
        if path == base.rstrip("/") and base != "/":
            return self._redirect(base + query)
        if not path.startswith(base):
            return self._missing(body)
        place = self._place(path[len(base) :])
        if place is None:
            return self._missing(body)
        if place.is_dir():
            if not path.endswith("/"):
                return self._redirect(f"/{address.path.strip('/')}/{query}")
            place = place / "index.html"
        elif path.endswith("/"):
            return self._missing(body)
        if not place.is_file():
            return self._missing(body)
        return self._file(place, HTTPStatus.OK, body)

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
        accepted = _accepted(self.headers.get("Accept-Encoding", ""))
        source, encoding = place, ""
        for name, suffix in _ENCODINGS:
            sibling = place.with_name(place.name + suffix)
            if name in accepted and sibling.is_file():
                source, encoding = sibling, name
                break
        data = source.read_bytes()
        tag = f'"{int(source.stat().st_mtime_ns):x}-{len(data):x}{encoding}"'
        unchanged = code == HTTPStatus.OK and self.headers.get("If-None-Match") == tag
        self.send_response(HTTPStatus.NOT_MODIFIED if unchanged else code)
        relative = place.relative_to(self.server.site.resolve()).as_posix()
        for name, value in read_headers(self.server.site).items():
            self.send_header(name, value)
        self.send_header("ETag", tag)
        self.send_header("Vary", "Accept-Encoding")
        for_good = code == HTTPStatus.OK and FOR_GOOD.search(relative)
        self.send_header("Cache-Control", "public, max-age=31536000, immutable" if for_good else "no-cache")
        if not unchanged:
            self.send_header("Content-Type", TYPES.get(place.suffix, "application/octet-stream"))
            self.send_header("Content-Length", str(len(data)))
            if encoding:
                self.send_header("Content-Encoding", encoding)
        self.end_headers()
        if body and not unchanged:
            self.wfile.write(data)

    def _redirect(self, address: str) -> None:
        self.send_response(HTTPStatus.MOVED_PERMANENTLY)
        self.send_header("Location", address)
        self.send_header("Cache-Control", "no-cache")
        self.send_header("Content-Length", "0")
        self.end_headers()

    def _missing(self, body: bool) -> None:
        page = self.server.site / "404.html"
        if page.is_file():
            return self._file(page.resolve(), HTTPStatus.NOT_FOUND, body)
        return self.send_error(HTTPStatus.NOT_FOUND)

    def log_message(self, format: str, *args: object) -> None:
        """Say nothing of a request that went well."""
        if self.server.say and len(args) > 1 and str(args[1])[:1] in "45":
            self.server.say(format % args)


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
    """

    daemon_threads = True

    def __init__(
        self,
        site: Path,
        host: str = "127.0.0.1",
        port: int = 0,
        base: str = "/",
        say: Callable[[str], None] | None = None,
    ) -> None:
        self.site = site
        self.base = f"/{base.strip('/')}/".replace("//", "/")
        self.say = say
        super().__init__((host, port), Handler)

    @property
    def address(self) -> str:
        """Where the site is, as one would type it; ends in a slash."""
        host = str(self.server_address[0])
        shown = "127.0.0.1" if host == "0.0.0.0" else host
        return f"http://{shown}:{self.server_address[1]}{self.base}"

    def handle_error(self, request: object, client_address: object) -> None:
        """Keep quiet about a browser that hangs up; show any other fault."""
        if not isinstance(sys.exception(), ConnectionError):
            super().handle_error(request, client_address)  # type: ignore[arg-type]


def _accepted(header: str) -> set[str]:
    """Return the encodings that a browser accepts."""
    names = set()
    for part in header.split(","):
        name, _, weight = part.partition(";")
        if not re.fullmatch(r"\s*q\s*=\s*0(\.0*)?\s*", weight):
            names.add(name.strip().lower())
    return names
