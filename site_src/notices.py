"""The licences of others whose work the site carries, served with it."""

from __future__ import annotations

import re
from functools import cache
from importlib.metadata import distribution
from pathlib import Path

from site_src.runtime import Pins
from site_src.settings import SOURCE
from site_src.small.engine import read_engine_pins
from site_src.zips import read_zip

_FOLDER = "notices"
_ENTRY = re.compile(r"^\S.* (\S+\.txt)\n(?: +.*\n)+", re.MULTILINE)  # of the list: a work, its licence, where it is


def write_notices(site: Path, pins: Pins) -> None:
    """Write the folder ``notices`` of the site: one text for each work, and a list of them."""
    target = site / _FOLDER
    target.mkdir()
    texts = {path.name: path.read_text("utf-8") for path in sorted((SOURCE / "notices").glob("*.txt"))}
    for wheel in sorted((site / "runtime" / pins.key).glob("*.whl")):
        texts[f"{wheel.name.split('-')[0]}.txt"] = _joined(read_zip(wheel.read_bytes()))
    texts["mkdocs-material.txt"] = _joined(_installed("mkdocs-material"))
    listed = texts.pop("README.txt").format(version=pins.version, small=read_engine_pins().version)
    texts["README.txt"] = _ENTRY.sub(lambda found: found[0] if found[1] in texts else "", listed)
    for name, text in texts.items():
        (target / name).write_text(text, "utf-8")


@cache
def _installed(project: str) -> dict[str, bytes]:
    return {str(path): path.read_binary() for path in distribution(project).files or [] if "licenses" in path.parts}


def _joined(members: dict[str, bytes]) -> str:
    """Return the licences among the members one under the other, each text once."""
    texts: dict[str, str] = {}
    for name in sorted(members):
        if "/licenses/" in name:
            texts.setdefault(members[name].decode("utf-8"), name.split("/licenses/")[1])
    rule = "-" * 79
    return "\n\n".join(f"{rule}\n{name}\n{rule}\n\n{text.strip()}" for text, name in texts.items()) + "\n"
