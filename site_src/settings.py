"""Folders of the repository, and the one error that stops a build."""

from __future__ import annotations

from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
SOURCE = ROOT / "site_src"
CACHE = ROOT / ".cache"
SITE = ROOT / "site"
DEFAULT_PORT = 8000


class BuildError(Exception):
    """A fault that stops the build. Its text says what is wrong and where."""
