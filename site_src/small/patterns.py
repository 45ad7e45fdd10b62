"""A regular expression of Python, written as the browser reads it, with the same meaning for every text."""

from __future__ import annotations

import re
from collections.abc import Iterable
from re import _constants as sre  # type: ignore[attr-defined]
from re import _parser as parser  # type: ignore[attr-defined]
from typing import Any

_SPACE = r"\t-\r\x1c-\x20\x85\xa0\u1680\u2000-\u200a\u2028\u2029\u202f\u205f\u3000"
_KINDS = {"CATEGORY_DIGIT": r"\p{Nd}", "CATEGORY_SPACE": _SPACE, "CATEGORY_WORD": r"\p{L}\p{N}_"}
_FLAGS = {"re.DOTALL": re.DOTALL, "re.IGNORECASE": re.IGNORECASE}



class Unknown(Exception):
    """What a pattern holds that is not known."""


def compiled(text: str, flags: Iterable[str] = ()) -> tuple[str, list[str]]:
    """Return ``/pattern/flags`` and the names of its groups in order, empty for one without a name.

    Raises
    ------
    Unknown
        With what the pattern holds that may mean something else in the browser.
    """
    wanted = 0
    for flag in flags:
        if flag not in _FLAGS:
            raise Unknown(f"the flag {flag}")
        wanted |= _FLAGS[flag]
    tree = parser.parse(text, wanted)
    count = tree.state.groups - 1
    names = [""] * count
    for name, number in tree.state.groupdict.items():
        names[number - 1] = name
    return f"/{_all(tree, wanted)}/u{'i' if wanted & re.IGNORECASE else ''}", names


def _all(items: Iterable[tuple[Any, Any]], flags: int) -> str:
    return "".join(_one(str(kind), worth, flags) for kind, worth in items)


def _one(kind: str, worth: Any, flags: int) -> str:
    if kind == "LITERAL":
        return _letter(worth)
    if kind == "NOT_LITERAL":
        return f"[^{_letter(worth)}]"
    if kind == "ANY":
        return r"[\s\S]" if flags & re.DOTALL else r"[^\n]"
    if kind == "IN":
        return _any_of(worth)
    if kind == "BRANCH":
        return f"(?:{'|'.join(_all(one, flags) for one in worth[1])})"
    if kind == "SUBPATTERN":
        group, more, less, inner = worth
        if more or less:
            raise Unknown("flags of a group")
        return f"({'?:' if group is None else ''}{_all(inner, flags)})"
    if kind in ("MAX_REPEAT", "MIN_REPEAT"):
        low, high, inner = worth
        count = f"{{{low},{'' if high == sre.MAXREPEAT else high}}}"
        return f"(?:{_all(inner, flags)}){count}{'?' if kind == 'MIN_REPEAT' else ''}"
    if kind in ("ASSERT", "ASSERT_NOT"):
        way, inner = worth
        return f"(?{'<' if way < 0 else ''}{'=' if kind == 'ASSERT' else '!'}{_all(inner, flags)})"
    if kind == "AT" and str(worth) == "AT_BEGINNING":
        return "^"
    raise Unknown(f"{kind} {worth}")


def _any_of(items: Iterable[tuple[Any, Any]]) -> str:
    found = ""
    for kind, worth in items:
        if str(kind) == "NEGATE":
            found += "^"
        elif str(kind) == "LITERAL":
            found += _letter(worth)
        elif str(kind) == "RANGE":
            found += f"{_letter(worth[0])}-{_letter(worth[1])}"
        elif str(kind) == "CATEGORY" and str(worth) in _KINDS:
            found += _KINDS[str(worth)]
        else:
            raise Unknown(f"{kind} {worth}")
    return f"[{found}]"


def _letter(code: int) -> str:
    return chr(code) if chr(code).isalnum() and code < 128 else f"\\u{{{code:x}}}"
