"""Builds the site, serves it on this machine, and builds it again when something changes."""

from __future__ import annotations

import os
import subprocess
import sys
import threading
import time
from collections.abc import Iterator
from pathlib import Path
from urllib.parse import urlsplit

from site_src.server import Server
from site_src.settings import ROOT, SITE, BuildError

_WATCHED = ("docs", "calculators", "site_src", "mkdocs.yml")
_PAUSE = 0.5  # seconds between looks; a few hundred files cost some milliseconds


def serve(host: str, port: int, site_url: str | None) -> None:
    """Build and serve until interrupted.

    Parameters
    ----------
    host, port
        Where to listen.
    site_url : str, optional
        Where readers will find the site; its path is the path served. This machine's address if not given.
    """
    base = urlsplit(site_url).path if site_url else "/"
    try:
        server = Server(SITE, host, port, base, print)
    except OSError as fault:
        raise BuildError(f"Port {port} cannot be used ({fault.strerror}). Try another: --port {port + 1}") from fault
    url = site_url or server.address
    if not _build(url) and not SITE.exists():
        raise BuildError("There is nothing to serve yet.")
    threading.Thread(target=server.serve_forever, daemon=True).start()
    print(f"The site is at {server.address}  (Ctrl+C ends)", flush=True)
    seen = dict(_state())
    try:
        while True:
            time.sleep(_PAUSE)
            now = dict(_state())
            if now != seen:
                seen = now
                changed = "Built again" if _build(url) else "The last good site is still served"
                print(f"{changed}. Reload the page.", flush=True)
    except KeyboardInterrupt:
        print()
    finally:
        server.shutdown()
        server.server_close()


def _build(url: str) -> bool:
    """Build in a process of its own, so that changed Python counts; return whether it went well."""
    command = [sys.executable, "-m", "site_src", "build", "--quick"]
    return subprocess.run(command, cwd=ROOT, env={**os.environ, "SITE_URL": url}, check=False).returncode == 0


def _state() -> Iterator[tuple[Path, int]]:
    for name in _WATCHED:
        top = ROOT / name
        for path in [top] if top.is_file() else top.rglob("*"):
            if path.suffix != ".pyc" and path.is_file():
                try:
                    yield path, path.stat().st_mtime_ns
                except FileNotFoundError:
                    continue
