"""Out and in: the day-book as JSON and as CSV, and a file of either read row by row.

Nothing is doubled: entries are told apart by their ids. Of two entries with one id and different words the one in the
book stays, and the report says so. A file of a newer version is refused whole.
"""

from __future__ import annotations

import csv
import io
import json
import re
from collections.abc import Iterable, Mapping, Sequence
from typing import Any, NamedTuple

from ... import __version__
from ...asking.clocks import MOST_ZONE
from ...asking.declare import Table
from ...asking.reading import Raw, is_blank, split_rows
from .cells import defused, undone
from .entry import SCHEMA, Entry, entry_of, faults_of, moment_of, plain
from .kinds import KIND, LONGEST_BATCH, LONGEST_REMARK, LONGEST_WHO, WITHDRAWN, question_ids, question_of

FILE_KIND = "steep-to-kiln day-book"
FIXED = ("schema", "id", "batch", "kind", "at", "written", "zone", "who", "remark", "replaces")
"""The leading columns of the CSV file; behind them stands one for each question of all kinds."""

MOST_CHARACTERS = 30_000_000
MOST_IN_REPORT = 200
MOST_NESTED = 20
"""So deep lists and objects may stand in one another; ours stand six deep. A browser's Python dies of many more."""
_LONGEST_VALUE = 4000
_NEEDED = ("batch", "kind", "at")
_CHOOSE = "Choose a file that was saved from a day-book."
_ID = re.compile(r"[A-Za-z0-9][A-Za-z0-9._-]{0,79}")
_FIXED_ROWS = {
    question.id
    for kind in KIND.values()
    for question in kind.questions
    if isinstance(question, Table) and question.fixed
}
_VERSION = re.compile(r"[0-9]{1,9}")
_STRING = re.compile(r'"[^"\\]*(?:\\.[^"\\]*)*"?', re.DOTALL)
_BRACKET = re.compile(r"[\[\]{}]")


class Unreadable(ValueError):
    """The whole file is refused, with the sentence that says why."""


class Refused(NamedTuple):
    """One row that was not taken: where it stood, what it was, why, and the row itself as text."""

    row: int
    what: str
    why: str
    text: str = ""


class Import(NamedTuple):
    """What a file brought.

    Attributes
    ----------
    new : list of Entry
        To be appended to the book, in the order of the file.
    refused : list of Refused
        Rows that were not taken.
    same : int
        Entries that the book has already, word for word.
    differing : list of Refused
        Entries whose id the book has with other words; the book's own stays.
    doubtful : int
        Entries taken as they are that hold something to be put right.
    """

    new: list[Entry]
    refused: list[Refused]
    same: int
    differing: list[Refused]
    doubtful: int


def table_text(rows: Sequence[Sequence[object]], fixed: bool = False) -> str:
    """Rows as the command line writes them: cells apart by spaces, or by tabs where one is blank; rows by ``;``.

    Blank rows are left out, but where rows are ``fixed`` by their names a blank one is written ``?``.
    """
    lines = []
    for row in rows:
        cells = [str(cell).strip().replace(";", ",").replace("\t", " ") for cell in row]
        while cells and not cells[-1]:
            cells.pop()
        plain_row = all(cell and " " not in cell for cell in cells)
        if cells or fixed:
            lines.append((" " if plain_row else "\t").join(cells) or "?")
    while lines and lines[-1] == "?":
        lines.pop()
    return "; ".join(lines)


def value_text(raw: Raw, question: str = "") -> str:
    """A value as one text; ``question`` is the id of what it answers."""
    if raw is None:
        return ""
    if isinstance(raw, (list, tuple)):
        rows = [row if isinstance(row, (list, tuple)) else [row] for row in raw]
        return table_text(rows, fixed=question in _FIXED_ROWS)
    return str(raw).strip()


def _same_content(one: Entry, other: Entry) -> bool:
    """Whether two entries say the same, whichever file they came by."""
    first, second = one._replace(seq=0, values={}), other._replace(seq=0, values={})
    if first != second:
        return False
    names = {*one.values, *other.values}
    return all(value_text(one.values.get(name), name) == value_text(other.values.get(name), name) for name in names)


def as_json(entries: Iterable[Entry], saved: str) -> str:
    """The book as JSON text.

    Parameters
    ----------
    entries : iterable of Entry
        In the order of writing.
    saved : str
        When, ISO 8601.
    """
    book = {
        "schema": SCHEMA,
        "kind": FILE_KIND,
        "version": __version__,
        "saved": saved,
        "entries": [plain(entry) for entry in entries],
    }
    return json.dumps(book, ensure_ascii=False, indent=1) + "\n"


def columns() -> tuple[str, ...]:
    """The columns of the CSV file, in their order."""
    return FIXED + question_ids()


def as_csv(entries: Iterable[Entry], *, head: bool = True) -> str:
    """The book as CSV text (RFC 4180), one row an entry.

    With the ``head`` come the names of the columns, and a byte order mark in front of them for spreadsheets.
    """
    out = io.StringIO()
    writer = csv.writer(out)
    names = question_ids()
    if head:
        writer.writerow(columns())
    for entry in entries:
        fixed: list[str] = [str(SCHEMA), entry.id, entry.batch, entry.kind, entry.at, entry.written, str(entry.zone)]
        fixed += [entry.who, entry.remark, entry.replaces or ""]
        cells = fixed + [value_text(entry.values.get(name), name) for name in names]
        writer.writerow([defused(cell) for cell in cells])
    return ("\ufeff" if head else "") + out.getvalue()


def export(entries: Iterable[Entry], form: str, saved: str) -> tuple[str, str]:
    """Text and name of a file; ``form`` is ``json`` or ``csv``."""
    name = f"day-book-{saved[:10]}" if saved else "day-book"
    if form == "csv":
        return as_csv(entries), f"{name}.csv"
    return as_json(entries, saved), f"{name}.json"


def nested(text: str) -> int:
    """How deep lists and objects stand in one another in a JSON text, whether or not it can be read."""
    depth = deepest = 0
    for mark in _BRACKET.findall(_STRING.sub("", text)):
        depth += 1 if mark in "[{" else -1
        deepest = max(deepest, depth)
    return deepest


def decoded(data: bytes) -> str:
    """The text of a file that nobody can be asked about.

    Raises
    ------
    Unreadable
        When it is no UTF-8: in which other way its letters are written would be a guess.
    """
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError:
        raise Unreadable(
            "The letters of the file are not written in UTF-8. Save it again as “CSV UTF-8”, or read it in on the "
            "day-book’s page, which shows its first lines and asks. Nothing was taken."
        ) from None


def take(text: str, book: Iterable[Entry], first: int = 0) -> Import:
    """Read a file against a book.

    Parameters
    ----------
    text : str
        The file: JSON or CSV, told apart by how it begins.
    book : iterable of Entry
        What the book holds already.
    first : int, optional
        So many rows of the file stand before those of ``text``, which is then a part of it.

    Raises
    ------
    Unreadable
        When the file is none of ours, is of a newer version, or is too long.
    """
    if len(text) > MOST_CHARACTERS:
        raise Unreadable(f"The file has {len(text)} characters; {MOST_CHARACTERS} at most are read. Nothing was taken.")
    body = text.lstrip("\ufeff \t\r\n")
    if not body:
        raise Unreadable("The file is empty. Nothing was taken.")
    checked = body[0] not in "{["
    rows = _csv_rows(text.lstrip("\ufeff")) if checked else _json_rows(body)
    known = {entry.id: entry for entry in book}
    result = Import([], [], 0, [], 0)
    same = doubtful = 0
    for place, row in rows:
        number = first + place
        if isinstance(row, str):
            result.refused.append(Refused(number, "", row))
            continue
        entry = entry_of(row)
        entry = entry._replace(seq=0, batch=" ".join(entry.batch.split()))
        what = f"{entry.kind}, batch {entry.batch}, {entry.at}"
        why = _structure(entry, row) or (_wrong(entry) if checked else "")
        if why:
            result.refused.append(Refused(number, what, why, _row_text(row)))
        elif entry.id not in known:
            known[entry.id] = entry
            result.new.append(entry)
            doubtful += bool(not checked and _wrong(entry))
        elif _same_content(entry, known[entry.id]):
            same += 1
        else:
            mine = known[entry.id]
            why = f"The book has this line with other words ({mine.kind}, {mine.at}). The book’s own stays."
            result.differing.append(Refused(number, what, why, _row_text(row)))
    return result._replace(same=same, doubtful=doubtful)


def _row_text(row: Mapping[str, Any]) -> str:
    """A row as it came, to be looked at."""
    return json.dumps(row, ensure_ascii=False)


_Rows = Iterable[tuple[int, Mapping[str, Any] | str]]


def _newer(schema: object) -> str:
    return (
        f"The file is of version {schema} of the day-book; this one reads version {SCHEMA}. Get the newer handbook "
        "first: reload this site with a network. Nothing was taken."
    )


def _whole(digits: str) -> int | str:
    """A whole number of JSON; of more digits than any of ours has, the text."""
    return int(digits) if len(digits) < 20 else digits


def _json_rows(text: str) -> _Rows:
    deep = nested(text)
    if deep > MOST_NESTED:
        raise Unreadable(
            f"The file is no day-book: its lists stand {deep} deep in one another, and {MOST_NESTED} at most are read. "
            "Nothing was taken."
        )
    try:
        book = json.loads(text, parse_int=_whole)
    except (ValueError, RecursionError):
        raise Unreadable(
            "The file begins like JSON but cannot be read to its end. It may have been cut off. Nothing was taken."
        ) from None
    if not isinstance(book, dict) or book.get("kind") != FILE_KIND or not isinstance(book.get("entries"), list):
        raise Unreadable(f"The file is no day-book: it does not say “{FILE_KIND}”. {_CHOOSE} Nothing was taken.")
    schema = book.get("schema")
    if isinstance(schema, bool) or not isinstance(schema, int) or schema < 1:
        raise Unreadable("The file does not say which version of the day-book it is. Nothing was taken.")
    if schema > SCHEMA:
        raise Unreadable(_newer(schema))
    rows: list[tuple[int, Mapping[str, Any] | str]] = []
    for number, entry in enumerate(book["entries"], 1):
        rows.append((number, entry if isinstance(entry, dict) else "It is no entry."))
    return rows


def _csv_rows(text: str) -> _Rows:
    head = text.split("\n", 1)[0]
    mark = max(",;\t", key=head.count)
    csv.field_size_limit(1_000_000)
    try:
        lines = list(csv.reader(io.StringIO(text, newline=""), delimiter=mark))
    except csv.Error as fault:
        raise Unreadable(
            f"The file cannot be read as a table of rows and columns ({fault}). Nothing was taken."
        ) from None
    names = [name.strip().lower() for name in lines[0]]
    missing = [name for name in _NEEDED if name not in names]
    if len(missing) == len(_NEEDED):
        raise Unreadable(
            f"The file is no day-book: its first row names none of the columns {', '.join(missing)}. {_CHOOSE} "
            "Nothing was taken."
        )
    if missing:
        raise Unreadable(f"The first row must name the columns. Missing: {', '.join(missing)}. Nothing was taken.")
    twice = sorted({name for name in names if name and names.count(name) > 1})
    if twice:
        raise Unreadable(f"The column {twice[0]} stands twice. Take one out. Nothing was taken.")
    place = names.index("schema") if "schema" in names else None
    schemas = {line[place].strip() for line in lines[1:] if place is not None and len(line) == len(names)}
    for schema in schemas:
        if schema and not (_VERSION.fullmatch(schema) and int(schema) >= 1):
            said = schema if len(schema) <= 12 else f"{schema[:12]}…"
            raise Unreadable(
                f"schema: “{said}” is no version of the day-book; write {SCHEMA} in each row, or leave the column out. "
                "Nothing was taken."
            )
        if schema and int(schema) > SCHEMA:
            raise Unreadable(_newer(schema))
    unknown = [name for name in names if name and name not in columns()]
    if unknown:
        raise Unreadable(
            f"The column {unknown[0]} is not one of ours. Rename it or take it out; the page on columns lists them. "
            "Nothing was taken."
        )
    return [
        (number, _csv_entry(names, line)) for number, line in enumerate(lines[1:], 2) if any(c.strip() for c in line)
    ]


def _csv_entry(names: list[str], line: list[str]) -> Mapping[str, Any] | str:
    if len(line) != len(names):
        return f"It has {len(line)} cells and the first row has {len(names)}. A comma may stand unquoted in a text."
    cells = {name: undone(cell.strip()) for name, cell in zip(names, line, strict=True) if name}
    entry: dict[str, Any] = {name: cells.get(name, "") for name in FIXED}
    zone = entry["zone"]
    if zone and not re.fullmatch(r"-?\d{1,4}", zone):
        return f"zone: “{zone[:20]}” is no number of minutes east of UTC."
    entry["zone"] = int(zone or 0)
    entry["schema"] = SCHEMA
    at = entry["at"].replace(" ", "T", 1)
    entry["at"] = at[:16] if moment_of(at) else entry["at"]
    values: dict[str, Any] = {}
    for name in question_ids():
        text = cells.get(name, "")
        if text:
            question = question_of(name)
            values[name] = split_rows(question, text) if isinstance(question, Table) else text
    entry["values"] = values
    if not entry["id"]:
        entry["id"] = _id_of(entry)
    return entry


def _id_of(entry: Mapping[str, Any]) -> str:
    """An id for a row that has none, the same whenever the same row is read."""
    from hashlib import sha256

    text = json.dumps([entry[name] for name in FIXED] + [entry["values"]], sort_keys=True)
    return f"row-{sha256(text.encode()).hexdigest()[:20]}"


def _structure(entry: Entry, row: Mapping[str, Any]) -> str:
    """Why a row cannot be an entry at all, or nothing."""
    schema = row.get("schema")
    if schema not in (None, "", SCHEMA):
        return f"It is of version {str(schema)[:12]}; this one reads version {SCHEMA}."
    if not _ID.fullmatch(entry.id):
        return "Its id is missing, too long or has odd characters."
    if not 1 <= len(entry.batch) <= LONGEST_BATCH:
        return f"batch: type from 1 to {LONGEST_BATCH} characters."
    if entry.kind not in KIND:
        return f"kind: there is no “{entry.kind[:30]}”. There are: {', '.join(KIND)}."
    if moment_of(entry.at) is None and moment_of(entry.written) is None:
        return "at: type a date and a time such as 2026-01-12 06:00."
    if row.get("zone") not in (None, "", entry.zone):
        return f"zone: minutes east of UTC lie between -{MOST_ZONE} and {MOST_ZONE}."
    if len(entry.who) > LONGEST_WHO or len(entry.remark) > LONGEST_REMARK:
        return f"who has up to {LONGEST_WHO} characters, remark up to {LONGEST_REMARK}."
    if entry.kind == WITHDRAWN and not entry.replaces:
        return "replaces: it strikes nothing out."
    if any(len(value_text(value)) > _LONGEST_VALUE for value in entry.values.values()) or len(entry.values) > 100:
        return f"A value has more than {_LONGEST_VALUE} characters, or there are too many."
    return ""


def _wrong(entry: Entry) -> str:
    """What stands in a row that cannot be read; what is left blank is not wrong."""
    typed = {name: raw for name, raw in entry.values.items() if not is_blank(raw)}
    faults = [one for one in faults_of(entry._replace(values=typed)) if not one.missing]
    return " ".join(one.text for one in faults if one.question != "remark")  # one that says nothing harms nothing
