"""Few files for a page to ask for: what its script imports joined into one, and its style sheets into one.

Each request costs a few milliseconds of processor on a small tablet, however short the file.

What every page needs is one file. What only the day-book's pages need on top of it is another.

The modules lie in folders of any depth; what is built stands in one folder, so their names differ. They are written
plainly: an import is one line, ``import * as x`` or ``import { a, b }`` from a relative address; what a module gives is
declared with ``export`` in front and never assigned anew; another file is named by ``import("…")`` or by
``new URL("…", import.meta.url)``. Whatever else is found stops the build. A module that is started as a worker is
joined with all that it imports into one file of its own. Comments speak to those who change scripts and style sheets,
and stay at home, as does the space that rules of style begin with.
"""

from __future__ import annotations

import os.path
import re
from collections.abc import Callable, Iterator, Mapping, Sequence
from pathlib import Path
from types import MappingProxyType

from site_src.settings import BuildError

PARTS = "parts.mjs"
STYLES = "styles.css"
_EXPORT = re.compile(r"^export (?=(?:async function\*?|function\*?|class|const) (\w+))", re.MULTILINE)
_IMPORT = re.compile(
    r"^import (?:(?:\* as (?P<all>\w+)|(?P<some>\{ ?\w+(?:, \w+)* ?\})) from )?"
    r'"(?P<file>\.{1,2}/[\w./-]+\.mjs)";$',
    re.MULTILINE,
)
_NAMED = re.compile(
    r'(?P<before>\bimport\(|\bnew URL\()"(?P<file>\.{1,2}/[\w./-]*)"(?P<after>\)|, import\.meta\.url\))'
)
_WORKER = re.compile(r'\bnew Worker\(\s*new URL\("(?P<file>\.{1,2}/[\w./-]+)", import\.meta\.url\)')
_TYPES = re.compile(r"^[ \t]*/\*\*(?:(?!\*/).)*\*/[ \t]*\n|/\*\*(?:(?!\*/).)*\*/ ?", re.MULTILINE | re.DOTALL)
# Code up to a comment behind it; a text on the way is passed over whole.
_BEHIND = re.compile(r"""((?:[^"`]|"(?:\\.|[^"\\])*"|`[^`]*`)*?)[ \t]+// .*\n?""")
_STYLE_COMMENTS = re.compile(r"""(?P<text>"[^"\n]*"|'[^'\n]*')|/\*.*?\*/""", re.DOTALL)
_STYLE_SPACE = re.compile(r"\s*\n\s*")
# An import of a script names its file, or begins a list; a line of Python in a text does neither.
_LEFT = re.compile(r"^(?:import\b.*[\"'{*]|export\b).*|^.*\bimport\([\"'].*", re.MULTILINE)
_ANY_IMPORT = re.compile(r"^import\b.*", re.MULTILINE)
_BARE_META = re.compile(r".*\bimport\.meta\b.*")
_LINKS = re.compile(r'<link rel="stylesheet" href="(?P<place>[^"]*assets/browser/)(?P<file>[\w/-]+\.css)">\s*')


def join_modules(folder: Path, entry: str, lots: Mapping[str, str] = MappingProxyType({})) -> None:
    """Join all that a module imports, and that those import, into ``parts.mjs``; point every other module to it.

    Parameters
    ----------
    folder : Path
        The modules, in folders of it; afterwards they stand in this folder itself.
    entry : str
        The module that a page starts with; it stays a file of its own.
    lots : Mapping[str, str], optional
        By a module that a page imports later, the file for all that it needs beyond those.

    Raises
    ------
    BuildError
        If one of them is not written plainly, or two have one name.
    """
    texts = {path.relative_to(folder).as_posix(): _read(path) for path in sorted(folder.rglob("*.mjs"))}
    if len({_flat(name) for name in texts}) < len(texts):
        raise BuildError(f"two modules of {folder.name} have one name: {sorted(texts, key=_flat)}")

    def read(name: str) -> str:
        if name not in texts:
            raise BuildError(f"a module imports ./{name}, which is not there")
        return texts[name]

    joined: dict[str, str] = {}
    for first, file in {entry: PARTS, **lots}.items():
        joined |= {name: file for name in _in_order(first, read) if name != first and name not in joined}
    if begun := sorted(lots.keys() & joined.keys()):
        raise BuildError(f"{begun[0]} is imported before it is wanted")
    workers = {_beside(name, found["file"]) for name, text in texts.items() for found in _WORKER.finditer(text)}
    made = {file: _lot(file, texts, joined) for file in (PARTS, *lots.values())}
    for name in workers:
        made[_flat(name)] = _alone(name, read)
    for name in _apart(texts, workers, read) - joined.keys():
        if left := _ANY_IMPORT.search(_IMPORT.sub("", texts[name])):
            raise BuildError(f"{name} is not written plainly: {left[0]}")
        made[_flat(name)] = _pointed(name, texts[name], joined)
    for name in texts:
        (folder / name).unlink()
    _tidy(folder)
    for name, text in made.items():
        (folder / name).write_text(text, "utf-8")


def script_of(folder: Path, entry: str) -> str:
    """Return a module joined with all that it imports as a plain script, for browsers that let it import nothing.

    Raises
    ------
    BuildError
        If something would be left that only a module may have.
    """

    def read(name: str) -> str:
        if not (folder / name).is_file():
            raise BuildError(f"a module imports ./{name}, which is not there")
        return _read(folder / name)

    text = _alone(entry, read)
    if left := _BARE_META.search(text):
        raise BuildError(f"{entry} can't be a plain script because of this line: {left[0]}")
    return text


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
        text = "".join(_bare((folder / name).read_text("utf-8")) for name in names)
        for name in names:
            (folder / name).unlink()
        _tidy(folder)
        (folder / STYLES).write_text(text, "utf-8")
    return {page: _with_one_link(html, found[page]) for page, html in pages.items()}


def _with_one_link(html: str, links: Sequence[re.Match[str]]) -> str:
    if not links:
        return html
    one = f'<link rel="stylesheet" href="{links[0]["place"]}{STYLES}">\n'
    return html[: links[0].start()] + one + _LINKS.sub("", html[links[0].end() :])


def _tidy(folder: Path) -> None:
    """Take away the folders that nothing is left in."""
    for path in sorted(folder.rglob("*"), reverse=True):
        if path.is_dir() and not any(path.iterdir()):
            path.rmdir()


def _read(path: Path) -> str:
    return _uncommented(_TYPES.sub("", path.read_text("utf-8")))


def _uncommented(script: str) -> str:
    kept: list[str] = []
    in_text = False  # one between backquotes may hold several lines
    for line in script.splitlines(keepends=True):
        if not in_text and line.lstrip().startswith("//"):
            continue
        found = None if in_text else _BEHIND.fullmatch(line)
        kept.append(f"{found[1]}\n" if found else line)
        in_text ^= kept[-1].count("`") % 2 == 1
    return "".join(kept)


def _bare(style: str) -> str:
    return _STYLE_SPACE.sub("\n", _STYLE_COMMENTS.sub(lambda found: found["text"] or "", style)).lstrip()


def _flat(name: str) -> str:
    return name.rsplit("/", 1)[-1]


def _beside(name: str, address: str) -> str:
    """Return what an address names, seen from the module ``name``: a path from the folder of them all."""
    path = os.path.normpath(f"{Path(name).parent.as_posix()}/{address}").replace(os.sep, "/")
    return f"{path}/" if address.endswith("/") and path != "." else path


def _imported(name: str, text: str) -> Iterator[str]:
    for found in _IMPORT.finditer(text):
        yield _beside(name, found["file"])


def _in_order(entry: str, read: Callable[[str], str]) -> list[str]:
    """Return a module after all those that it imports, as a browser would run them."""
    order: dict[str, None] = {}

    def visit(name: str, above: Sequence[str]) -> None:
        if name in above:
            raise BuildError(f"these modules import each other in a ring: {[*above, name]}")
        for other in _imported(name, read(name)):
            if other not in order:
                visit(other, (*above, name))
        order[name] = None

    visit(entry, ())
    return list(order)


def _apart(texts: Mapping[str, str], workers: set[str], read: Callable[[str], str]) -> set[str]:
    """Return the modules that some page may come to ask for; the rest is in the files of workers alone."""
    imported = {other for name, text in texts.items() for other in _imported(name, text)}
    begun = texts.keys() - imported - workers
    return {name for entry in begun for name in _in_order(entry, read)}


def _constant(name: str) -> str:
    return "$" + _flat(name).removesuffix(".mjs").replace("-", "_")


def _moved(name: str, text: str) -> str:
    """Return a module's text with what it names as seen from the folder of them all, where it will stand."""

    def moved(found: re.Match[str]) -> str:
        path = _beside(name, found["file"])
        outside = path.startswith("../")
        return f'{found["before"]}"{path if outside else f"./{_flat(path)}"}"{found["after"]}'

    return _NAMED.sub(moved, text)


def _without_imports(name: str, text: str) -> str:
    def inside(found: re.Match[str]) -> str:
        taken = found["all"] or found["some"]
        return f"const {taken} = {_constant(found['file'])};" if taken else ""

    return _IMPORT.sub(inside, _moved(name, text))


def _part(name: str, text: str) -> str:
    """Return a module as one constant: an object of what it exports."""
    gives = ", ".join(found[1] for found in _EXPORT.finditer(text))
    body = _EXPORT.sub("", _without_imports(name, text))
    if left := _LEFT.search(body):
        raise BuildError(f"{name} can't be joined with others because of this line: {left[0]}")
    return f"export const {_constant(name)} = (() => {{\n{body}return {{ {gives} }};\n}})();\n"


def _lot(file: str, texts: Mapping[str, str], joined: Mapping[str, str]) -> str:
    """Return the modules of one file, each a constant, below what they take from the others."""
    own = [name for name in joined if joined[name] == file]
    taken: dict[str, dict[str, None]] = {}
    for name in own:
        for other in _imported(name, texts[name]):
            if joined[other] != file:
                taken.setdefault(joined[other], {})[_constant(other)] = None
    heads = [f'import {{ {", ".join(names)} }} from "./{other}";\n' for other, names in taken.items()]
    return "".join([*heads, *(_part(name, texts[name]) for name in own)])


def _alone(entry: str, read: Callable[[str], str]) -> str:
    """Return a module joined with all that it imports."""
    parts = "".join(_part(name, read(name)) for name in _in_order(entry, read)[:-1])
    body = _without_imports(entry, read(entry))
    if left := re.search(r"^(?:import|export)\b.*", body, re.MULTILINE):
        raise BuildError(f"{entry} can't be joined with what it imports because of this line: {left[0]}")
    return parts.replace("export const $", "const $") + body


def _pointed(name: str, text: str, joined: Mapping[str, str]) -> str:
    """Return a module with each import of a joined one as one of its constant, and of others as they stand beside."""

    def pointed(found: re.Match[str]) -> str:
        path = _beside(name, found["file"])
        if path not in joined:
            return found[0].replace(f'"{found["file"]}"', f'"./{_flat(path)}"')
        constant, file = _constant(path), joined[path]
        if found["all"]:
            return f'import {{ {constant} as {found["all"]} }} from "./{file}";'
        if found["some"]:
            return f'import {{ {constant} }} from "./{file}"; const {found["some"]} = {constant};'
        return f'import "./{file}";'

    return _IMPORT.sub(pointed, _moved(name, text))
