"""Wheels of pure-Python projects for the browser, made from what is installed here.

Their sources are not kept in the repository: the requirements pin them, and runtime.toml pins the bytes of
the wheel that comes out, so another release than the pinned one stops the build.
"""

from __future__ import annotations

from importlib.metadata import PackageNotFoundError, distribution

from site_src.settings import SOURCE, BuildError


def wheel_of(project: str, release: str) -> tuple[str, dict[str, bytes]]:
    """Return a wheel's file name and its members.

    Parameters
    ----------
    project : str
        Name of an installed project that is Python only.
    release : str
        The release it must be.

    Raises
    ------
    BuildError
        If it is not installed, or another release is.
    """
    try:
        found = distribution(project)
    except PackageNotFoundError:
        raise BuildError(f"{project} {release} is not installed. Install the site's requirements.") from None
    if found.version != release:
        raise BuildError(f"{project} {found.version} is installed; runtime.toml names {release}.")
    members = {str(path): path.read_binary() for path in found.files or [] if path.suffix == ".py"}
    folder = f"{project}-{release}.dist-info"
    # Not the installed metadata, which differs with the tool that installed it.
    members[f"{folder}/METADATA"] = f"Metadata-Version: 2.1\nName: {project}\nVersion: {release}\n".encode()
    members[f"{folder}/WHEEL"] = b"Wheel-Version: 1.0\nRoot-Is-Purelib: true\nTag: py3-none-any\n"
    members[f"{folder}/licenses/LICENSE.txt"] = (SOURCE / "notices" / f"{project}.txt").read_bytes()
    return f"{project}-{release}-py3-none-any.whl", members


def lock_entry(project: str, release: str, file_name: str, digest: str) -> dict[str, object]:
    """Return what the runtime's lock file says of such a wheel."""
    return {
        "depends": [],
        "file_name": file_name,
        "imports": [project],
        "install_dir": "site",
        "name": project,
        "package_type": "package",
        "sha256": digest,
        "unvendored_tests": False,
        "version": release,
    }
