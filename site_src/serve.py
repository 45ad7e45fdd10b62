"""Builds the site, serves it on this machine, and builds it again when something changes."""

from __future__ import annotations

import os
import subprocess
import sys
import threading
from collections.abc import Iterator
from pathlib import Path
from typing import Any
from urllib.parse import urlsplit

from watchfiles import Change, DefaultFilter, watch

from site_src.house.stands import NAME as NOTED
from site_src.house.where import OWN, home
from site_src.server import Server
from site_src.settings import ROOT, SITE, BuildError

_FOLDERS = ("docs", "calculators", "site_src")
_FILES = ("mkdocs.yml", "house.toml")
_SETTLED_MS = 300  # an editor writes a file in several steps
_TURN_MS = 200


def serve(host: str, port: int, site_url: str | None, shared: Path | None = None) -> None:
    """Build and serve until interrupted.

    Parameters
    ----------
    host, port
        Where to listen.
    site_url : str, optional
        Where readers will find the site; its path is the path served. This machine's address if not given.
    shared : Path, optional
        The folder through which devices share one day-book; made where it is not there.
    """
    if shared:
        shared.mkdir(parents=True, exist_ok=True)
    base = urlsplit(site_url).path if site_url else "/"
    try:
        server = Server(SITE, host, port, base, print, shared)
    except OSError as fault:
        raise BuildError(f"Port {port} cannot be used ({fault.strerror}). Try another: --port {port + 1}") from fault
    url = site_url or server.address
    if not _build(url) and not SITE.exists():
        raise BuildError("There is nothing to serve yet.")
    threading.Thread(target=server.serve_forever, daemon=True).start()
    print(f"The site is at {server.address}  (Ctrl+C ends)", flush=True)
    try:
        for _ in changes():
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


def changes(top: Path = ROOT, stop: threading.Event | None = None) -> Iterator[set[str]]:
    """Yield what has changed of all that a site is built from, once it rests; what changes meanwhile comes next.

    Parameters
    ----------
    top : Path
        The repository.
    stop : threading.Event, optional
        Ends it.
    """
    # A file watched by itself is lost when an editor puts another in its place: so its folder is.
    files = {str(top / name) for name in _FILES}
    own = [folder for folder in (*([] if home() == ROOT else [home()]), top / OWN) if folder.is_dir()]
    in_turn: dict[str, Any] = {"rust_timeout": _TURN_MS, "yield_on_timeout": True, "stop_event": stop}
    in_turn["step"] = _SETTLED_MS
    watchers = [
        watch(*(top / name for name in _FOLDERS), *own, watch_filter=_NotNoted(), **in_turn),
        watch(top, recursive=False, watch_filter=lambda _, path: path in files, **in_turn),
    ]
    while not (stop and stop.is_set()):
        for watcher in watchers:
            if found := next(watcher, None):
                yield {_below(Path(path), top) for _, path in found}


class _NotNoted(DefaultFilter):
    """What the usual filter lets through, but for what the build itself notes beside a house’s pages."""

    def __call__(self, change: Change, path: str) -> bool:
        return not path.endswith(NOTED) and super().__call__(change, path)


def _below(path: Path, top: Path) -> str:
    return path.relative_to(top).as_posix() if path.is_relative_to(top) else path.as_posix()
