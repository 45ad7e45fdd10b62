"""Cells of the CSV file that no spreadsheet takes for a formula, and the texts that they stand for.

A formula begins with one of ``= + - @``, also in its wide or raised form, and also behind blanks, line feeds, quotes
and signs without a width. A spreadsheet of another language parts a row at other separators than ours, so what stands
behind one of these within a field can become a cell of its own, and is guarded too.
"""

from __future__ import annotations

import re
from collections.abc import Callable

_SIGNS = r"=+\-@＝＋－＠﹦﹢﹣﹫⁼⁺⁻₌₊₋"
_UNSEEN = r"[\s\"“”„\x00-\x1f\x7f\xad\u061c\u180e\u200b-\u200f\u202a-\u202e\u2060-\u206f\ufe00-\ufe0f\ufeff]*"
_FORMULA = re.compile(rf"'*{_UNSEEN}[{_SIGNS}]")
_ODD_START = ("'", "\t", "\r", "\n")
_NUMBER = re.compile(r"[-+]?\d[\d .,]*(?:\s?[%°A-Za-z]{1,8})?")
_SEPARATORS = re.compile(r"([,;|\t\r\n])")


def _is_formula(text: str) -> bool:
    return bool(_FORMULA.match(text)) and not _NUMBER.fullmatch(text.strip())


def _needs_guard(text: str) -> bool:
    return text.startswith(_ODD_START) or _is_formula(text)


def _behind(text: str, guard: Callable[[str, bool], str]) -> str:
    """The text with each part behind a separator given to ``guard``, the last one first.

    ``guard`` is also told whether nothing but numbers stands behind the part: a row of numbers stays as it is.
    """
    first, *rest = _SEPARATORS.split(text)
    numbers, done = True, []
    for part in reversed(rest):
        made = guard(part, numbers)
        done.append(made)
        plain = min(part, made, key=len)
        said = plain.strip(" ,;|\t\r\n")
        numbers = numbers and (not said or bool(_NUMBER.fullmatch(said)))
    return first + "".join(reversed(done))


def _inner(part: str, numbers: bool) -> bool:
    return bool(_FORMULA.match(part)) and not (numbers and _NUMBER.fullmatch(part.strip()))


def defused(text: str) -> str:
    """The text as a spreadsheet takes it for text: an apostrophe in front of what would be a formula."""
    body = _behind(text, lambda part, numbers: f"'{part}" if _inner(part, numbers) else part)
    return f"'{body}" if _needs_guard(body) else body


def undone(cell: str) -> str:
    """The cell as it was before ``defused``."""
    body = cell[1:] if cell.startswith("'") and _needs_guard(cell[1:]) else cell
    return _behind(body, lambda part, numbers: part[1:] if part.startswith("'") and _inner(part[1:], numbers) else part)
