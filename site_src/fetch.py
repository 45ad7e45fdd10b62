"""Fetches single members of a wheel from the package index that pip is set up to use."""

from __future__ import annotations

import json
import subprocess
import sys
import tempfile
import zipfile
from collections.abc import Callable, Sequence
from pathlib import Path

from remotezip import RemoteZip

from site_src.settings import BuildError

# A wheel that asks for an older Python than ours still has the files: they are not run here.
_PIP = [sys.executable, "-m", "pip", "--disable-pip-version-check", "--quiet"]
_CHOICE = ["--no-deps", "--ignore-requires-python", "--only-binary", ":all:"]


def wheel_members(project: str, release: str, names: Sequence[str], say: Callable[[str], None]) -> dict[str, bytes]:
    """Return members of a project's wheel.

    Only the members asked for are fetched where the index allows it. Where it does not, for whatever reason,
    pip fetches the whole wheel, since pip knows the settings, certificates and passwords of this machine.

    Parameters
    ----------
    project, release : str
        Name and version on the package index.
    names : Sequence[str]
        Paths inside the wheel.
    say : Callable[[str], None]
        Called with a line to show.

    Raises
    ------
    BuildError
        If neither way works.
    """
    requirement = f"{project}=={release}"
    try:
        with RemoteZip(_address(requirement)) as archive:
            return {name: archive.read(name) for name in names}
    except Exception as error:
        say(f"Could not read single files of {requirement} ({type(error).__name__}); fetching all of it.")
        return _fetch_whole(requirement, names)


def _fetch_whole(requirement: str, names: Sequence[str]) -> dict[str, bytes]:
    with tempfile.TemporaryDirectory() as folder:
        _pip("download", *_CHOICE, "--dest", folder, requirement)
        wheels = list(Path(folder).glob("*.whl"))
        if len(wheels) != 1:
            raise BuildError(f"pip fetched {len(wheels)} wheels of {requirement}, one was expected")
        with zipfile.ZipFile(wheels[0]) as archive:
            return {name: archive.read(name) for name in names}


def _address(requirement: str) -> str:
    """Return where pip would fetch the wheel from, by its own settings."""
    with tempfile.TemporaryDirectory() as folder:
        report = Path(folder) / "report.json"
        _pip("install", "--dry-run", "--ignore-installed", *_CHOICE, "--report", str(report), requirement)
        found = json.loads(report.read_text("utf-8"))
    return str(found["install"][0]["download_info"]["url"])


def _pip(*words: str) -> None:
    ran = subprocess.run([*_PIP, *words], capture_output=True, text=True, check=False)
    if ran.returncode:
        raise BuildError(f"pip could not find or fetch the browser runtime:\n{ran.stderr.strip()[-2000:]}")
