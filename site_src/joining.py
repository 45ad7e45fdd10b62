"""Few files for a page to ask for: what its script imports joined into one, and its style sheets into one.

Each request costs a few milliseconds of processor on a small tablet, however short the file.

The modules are written plainly: an import is one line, ``import * as x`` or ``import { a, b }`` from "./name.mjs"; what
a module gives is declared with ``export`` in front and never assigned anew. Whatever else is found stops the build.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from pathlib import Path

from site_src.settings import BuildError

PARTS = "parts.mjs"
STYLES = "styles.css"
EXPORT = re.compile(r"^export (?=(?:async function|function|class|const) (\w+))", re.MULTILINE)
_IMPORT = re.compile(
    r'^import (?:(?:\* as (?P<all>\w+)|(?P<some>\{ ?\w+(?:, \w+)* ?\})) from )?"\./(?P<file>[\w.-]+)";$', re.MULTILINE
)
_LEFT = re.compile(r"^(?:import|export)\b.*|.*\bimport\(.*", re.MULTILINE)
_LINKS = re.compile(r'<link rel="stylesheet" href="(?P<place>[^"]*assets/browser/)(?P<file>[\w-]+\.css)">\s*')


def join_modules(folder: Path, entry: str) -> None:
    """Join all that a module imports, and that those import, into ``parts.mjs``; point every other module to it.

    Parameters
    ----------
    folder : Path
        The modules, which refer to each other as ``"./name.mjs"``.
    entry : str
        The module that a page starts with; it stays a file of its own.

    Raises
    ------
    BuildError
        If one of them is not written plainly.
    """
    texts = {path.name: path.read_text("utf-8") for path in sorted(folder.glob("*.mjs"))}
    order: dict[str, None] = {}
    _visit(entry, texts, order, ())
    del order[entry]
    (folder / PARTS).write_text("".join(_part(name, texts[name]) for name in order), "utf-8")
    for name in order:
        (folder / name).unlink()
    for name in texts.keys() - order.keys():
        (folder / name).write_text(_IMPORT.sub(lambda found: _from_parts(found, order), texts[name]), "utf-8")


def join_styles(folder: Path, pages: Mapping[str, str]) -> dict[str, str]:
    """Join the style sheets that every page asks for into ``styles.css``; return the pages, each with one link to it.

    Raises
    ------
    BuildError
        If some pages ask for others than the rest.
    """
    found = {page: list(_LINKS.finditer(html)) for page, html in pages.items()}
    sheets = {tuple(link["file"] for link in links) for links in found.values() if links}
    if len(sheets) > 1:
        raise BuildError(f"pages ask for different style sheets: {sorted(sheets)}")
    for names in sheets:
        (folder / STYLES).write_text("".join((folder / name).read_text("utf-8") for name in names), "utf-8")
        for name in names:
            (folder / name).unlink()
    return {page: _with_one_link(html, found[page]) for page, html in pages.items()}


def _with_one_link(html: str, links: Sequence[re.Match[str]]) -> str:
    if not links:
        return html
    one = f'<link rel="stylesheet" href="{links[0]["place"]}{STYLES}">\n'
    return html[: links[0].start()] + one + _LINKS.sub("", html[links[0].end() :])


def _visit(name: str, texts: Mapping[str, str], order: dict[str, None], above: Sequence[str]) -> None:
    """Add a module after those that it imports, as a browser would run them."""
    if name not in texts:
        raise BuildError(f"a module imports ./{name}, which is not there")
    if name in above:
        raise BuildError(f"these modules import each other in a ring: {[*above, name]}")
    for found in _IMPORT.finditer(texts[name]):
        if found["file"] not in order:
            _visit(found["file"], texts, order, (*above, name))
    order[name] = None


def _constant(name: str) -> str:
    return "$" + name.removesuffix(".mjs").replace("-", "_")


def _part(name: str, text: str) -> str:
    """Return a module as one constant: an object of what it exports."""

    def inside(found: re.Match[str]) -> str:
        taken = found["all"] or found["some"]
        return f"const {taken} = {_constant(found['file'])};" if taken else ""

    gives = ", ".join(found[1] for found in EXPORT.finditer(text))
    body = EXPORT.sub("", _IMPORT.sub(inside, text))
    if left := _LEFT.search(body):
        raise BuildError(f"{name} can't be joined with others because of this line: {left[0]}")
    return f"export const {_constant(name)} = (() => {{\n{body}return {{ {gives} }};\n}})();\n"


def _from_parts(found: re.Match[str], joined: Mapping[str, None]) -> str:
    """Return an import of a joined module as one of its constant."""
    if found["file"] not in joined:
        return found[0]
    constant = _constant(found["file"])
    if found["all"]:
        return f'import {{ {constant} as {found["all"]} }} from "./{PARTS}";'
    if found["some"]:
        return f'import {{ {constant} }} from "./{PARTS}"; const {found["some"]} = {constant};'
    return f'import "./{PARTS}";'
