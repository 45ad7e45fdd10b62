"""What a person typed, turned into a value in our unit, or a message that says what to do."""

import math
import re
import unicodedata
from collections.abc import Sequence
from datetime import datetime
from typing import NamedTuple

from .declare import Cell, Choice, Clock, Number, Question, Table, Text, Value
from .figures import plain_number
from .units import UNITS, convert, shown

Raw = str | int | float | Sequence[Sequence[str | int | float]] | None
"""What may be handed in: text as typed, a number, or rows of cells."""

LONGEST = 4000
"""Characters of one typed question that are read; more is a slip of the clipboard."""

_NUMBER = re.compile(
    r"(?P<number>[+-]?(?:\d{1,3}(?: \d{3})+(?:[.,]\d+)?|\d+(?:[.,]\d*)?|[.,]\d+)(?:[eE][+-]?\d{1,3})?)"
    r"\s*(?P<unit>.*)",
    re.DOTALL,
)
_GROUPED = re.compile(r"[+-]?\d{1,3}(?:,\d{3})+(?:\.\d*)?|[+-]?\d{1,3}(?:\.\d{3})+,\d*")
_POINTED = re.compile(r"[+-]?[1-9]\d{0,2}\.\d\d0")
"""A point and three digits that end in 0, as a scale shows 6.000 and half the world writes six thousand."""
_CLOCK = re.compile(
    r"(?:(?P<date>\d{4}-\d{2}-\d{2})[ tT]+)?(?P<hour>\d{1,2})(?:[:.h](?P<minute>\d{2}))?"
    r"(?::\d{2}(?:\.\d+)?)?\s*(?P<half>am|pm)?",
    re.IGNORECASE,
)
_UNDATED = datetime(1, 1, 1)
FIRST_YEAR, LAST_YEAR = 1900, 2999  # sums on the clock may run weeks before and after what is typed


class Problem(NamedTuple):
    """One thing to put right: which question (row and column of a table) and what to do."""

    question: str
    text: str
    row: int | None = None
    column: str | None = None
    missing: bool = False


class _Slip(Exception):
    """A cell could not be read; carries the sentence without the label in front."""


def tidy(text: str) -> str:
    """Text with look-alike characters made plain: full-width digits, odd minus signs and spaces."""
    plain = unicodedata.normalize("NFKC", text)
    for odd, usual in (("−", "-"), ("–", "-"), ("\u00a0", " "), ("\u202f", " "), ("\u2009", " ")):
        plain = plain.replace(odd, usual)
    return plain.strip()


def span(question: Number) -> str:
    """What may be typed, with both limits and an example: ``a number from 5 to 25 %, such as 12.5``."""
    unit = shown(question.unit)
    behind = f" {unit}" if unit else ""
    kind = "a whole number" if question.whole else "a number"
    low, high = plain_number(question.low), plain_number(question.high)
    return f"{kind} from {low} to {high}{behind}, such as {like(question)}"


def like(question: Number) -> str:
    """A number that would be understood and lies within the limits."""
    for text in (question.example, question.default):
        if text:
            return text
    middle = (question.low + question.high) / 2
    return plain_number(round(middle) if question.whole else float(f"{middle:.2g}"))


def _shorten(text: str, longest: int = 30) -> str:
    return text if len(text) <= longest else text[: longest - 1] + "…"


def _grouped_twice(text: str) -> str:
    as_thousands = text.replace(",", "").replace(".", "")
    as_decimal = plain_number(float(text.replace(",", ".")))
    return (
        f"“{text}” can be read in two ways. "
        f"Type {as_thousands} or {as_decimal}, whichever you mean, with a point for the decimals."
    )


def _either_fits(question: Number, digits: str, unit: str) -> bool:
    """Whether a number with a point before three digits would do with the point for thousands, and for decimals."""
    meant = [convert(float(text), unit, question.unit) for text in (digits, digits.replace(".", ""))]
    return all(
        one is not None and question.low <= one <= question.high and not (question.whole and one % 1) for one in meant
    )


def read_number(question: Number, text: str) -> float:
    """The number typed, in the unit of the question.

    Raises
    ------
    _Slip
        With the sentence that says what was wrong, the limits and what to type.
    """
    typed = tidy(text)
    match = _NUMBER.fullmatch(typed)
    if match is None:
        raise _Slip(f"“{_shorten(typed)}” is not a number. Type {span(question)}.")
    digits, unit = match["number"], match["unit"].strip()
    if _GROUPED.fullmatch(digits) or (unit[:1] in (",", ".") and _GROUPED.match(typed)):
        if digits.count(",") == 1 and "." not in digits and not unit.startswith((",", ".")):
            raise _Slip(_grouped_twice(digits))
        raise _Slip(f"“{_shorten(typed)}” can be read in two ways. Type {span(question)}.")
    if _POINTED.fullmatch(digits) and _either_fits(question, digits, unit):
        raise _Slip(_grouped_twice(digits))
    value = float(digits.replace(" ", "").replace(",", "."))
    converted = convert(value, unit, question.unit)
    if converted is None:
        known = shown(question.unit)
        wanted = f"in {known}" if known else "without a unit"
        raise _Slip(f"“{_shorten(unit)}” does not fit here. Type {span(question)}, {wanted}.")
    return within(question, converted, typed)


_OVER = {"ol", "over", "over range", "overrange", "overload", "hi", "high", "max", "maximum", "full scale", "+++"}
"""What meters show, and people write, for more than the meter can tell."""


def at_most(question: Cell, text: str) -> Value | None:
    """The most that a number may mean which cannot be read, or lies over its limits; infinite when there is no saying.

    >>> ppm = Number("ppm", "Gas", "ppm", 0, 1e6)
    >>> at_most(ppm, "15,000"), at_most(ppm, "> 5 %"), at_most(ppm, "OL"), at_most(ppm, "2000000"), at_most(ppm, "x")
    (15000.0, 50000.0, inf, inf, None)
    """
    if not isinstance(question, Number):
        return None
    typed = tidy(text[:LONGEST]).lstrip("<>≥≤~+ ")
    if tidy(text[:LONGEST]).lower().rstrip("!. ") in _OVER:
        return math.inf
    match = _NUMBER.match(typed)
    if match is None:
        return None
    digits = match["number"].replace(" ", "")
    grouped = _GROUPED.fullmatch(digits) or _POINTED.fullmatch(digits)
    value = float(re.sub(r"[.,](?=\d{3}(?!\d))", "", digits).replace(",", ".") if grouped else digits.replace(",", "."))
    converted = convert(value, match["unit"].strip(), question.unit)
    most = value if converted is None else converted
    return most if question.low <= most <= question.high else math.inf if most > question.high else None


def within(question: Number, value: float, typed: str = "") -> float:
    """The value, when it lies within the limits of the question (the limits are allowed).

    Raises
    ------
    _Slip
        When it does not, or is not whole where it must be.
    """
    said = _shorten(typed) or plain_number(value)
    if not math.isfinite(value):
        raise _Slip(f"“{said}” is not a number that can be used. Type {span(question)}.")
    because = f" {question.reason}" if question.reason else ""
    if value < question.low:
        raise _Slip(f"{said} is too low. Type {span(question)}.{because}")
    if value > question.high:
        raise _Slip(f"{said} is too high. Type {span(question)}.{because}")
    if question.whole:
        if value != int(value):
            raise _Slip(f"{said} is not whole. Type {span(question)}.")
        return float(int(value))
    return value


def read_choice(question: Choice, text: str) -> str:
    """The word of the list that was meant, by word or by label, in any case."""
    typed = " ".join(tidy(text).lower().replace("_", "-").split())
    for option in question.options:
        if typed in (option.word.lower(), option.label.lower(), option.word.replace("-", " ")):
            return option.word
    words = ", ".join(option.word for option in question.options)
    raise _Slip(f"“{_shorten(tidy(text))}” is not one of the choices. Choose one of: {words}.")


def read_clock(question: Clock, text: str) -> datetime:
    """The time typed; without a date it is kept on day 1 (0001-01-01)."""
    typed = tidy(text)
    help_text = "Type a time such as 06:00, or a date and a time such as 2026-01-12 06:00"
    match = _CLOCK.fullmatch(typed)
    if match is None and re.fullmatch(r"\d{4}", typed):
        match = _CLOCK.fullmatch(f"{typed[:2]}:{typed[2:]}")
    if match is None or (match["minute"] is None and match["half"] is None):
        raise _Slip(f"“{_shorten(typed)}” is not a clock time. {help_text}.")
    hour, minute = int(match["hour"]), int(match["minute"] or 0)
    half = (match["half"] or "").lower()
    if half:
        if not 1 <= hour <= 12:
            raise _Slip(f"“{_shorten(typed)}” is not a clock time. {help_text}.")
        hour = hour % 12 + (12 if half == "pm" else 0)
    try:
        day = datetime.fromisoformat(match["date"]) if match["date"] and not question.daily else _UNDATED
        moment = day.replace(hour=hour, minute=minute)
    except ValueError:
        raise _Slip(f"There is no such time as “{_shorten(typed)}”. {help_text}.") from None
    if day.year != _UNDATED.year and not FIRST_YEAR <= day.year <= LAST_YEAR:
        raise _Slip(f"The year is {day.year}. Type a year from {FIRST_YEAR} to {LAST_YEAR}.")
    return moment


def read_text(question: Text, text: str) -> str:
    """The line typed, on one line and without control characters."""
    line = " ".join("".join(c if c.isprintable() else " " for c in tidy(text)).split())
    if len(line) > question.longest:
        raise _Slip(f"That is {len(line)} characters. Type {question.longest} characters at most.")
    return line


def read_cell(question: Cell, text: str) -> Value:
    """One value that is not a table.

    Raises
    ------
    _Slip
        With the sentence that says what to do.
    """
    if len(text) > LONGEST:
        raise _Slip(f"That is {len(text)} characters. Type {LONGEST} characters at most.")
    if isinstance(question, Number):
        return read_number(question, text)
    if isinstance(question, Choice):
        return read_choice(question, text)
    if isinstance(question, Clock):
        return read_clock(question, text)
    return read_text(question, text)


def what_to_type(question: Question) -> str:
    """One sentence that says what a blank question wants."""
    if isinstance(question, Number):
        return f"Type {span(question)}."
    if isinstance(question, Choice):
        return "Choose one of: " + ", ".join(option.word for option in question.options) + "."
    if isinstance(question, Clock):
        return "Type a time such as 06:00, or a date and a time such as 2026-01-12 06:00."
    if isinstance(question, Text):
        return f"Type up to {question.longest} characters."
    columns = ", ".join(column.label.lower() for column in question.columns)
    return (
        f"Fill in from {question.min_rows} to {question.max_rows} rows of {columns}"
        + (f", such as {question.example}" if question.example else "")
        + "."
    )


def _as_text(raw: str | int | float | None) -> str:
    if raw is None:
        return ""
    if isinstance(raw, bool):
        return "yes" if raw else "no"
    if isinstance(raw, float):
        return plain_number(raw) if abs(raw) < 1e10 else repr(raw)
    return str(raw)


def _units_behind(question: Table, words: list[str]) -> list[str]:
    """Join a unit standing alone to the number before it: ``8 h 14 C`` is two cells."""
    names: set[str] = set()
    for column in question.columns:
        if isinstance(column, Number):
            names.update(UNITS[column.unit].accepts)
    cells: list[str] = []
    for word in words:
        if cells and word.lower() in names and cells[-1][-1:].isdigit():
            cells[-1] += f" {word}"
        else:
            cells.append(word)
    return cells


def _cells(question: Table, row: str) -> list[str]:
    return [cell.strip() for cell in row.split("\t")] if "\t" in row else _units_behind(question, tidy(row).split())


def split_rows(question: Table, text: str) -> list[list[str]]:
    """The cells of a table written on one line or several.

    Columns stand apart by spaces or tabs, rows by ``;`` or a new line. Where every column
    but the first may be blank and no row is parted, spaces part the rows. Rows with nothing in
    them are left out, but where rows go by turns one between two ``;`` is kept.
    """
    plain = text.replace("\r\n", "\n").replace("\r", "\n")
    parted = ";" in plain or "\n" in plain.strip("\n") or "\t" in plain
    rows: list[list[str]] = []
    for line in plain.split("\n"):
        parts = line.rstrip(" ;").split(";")
        kept = question.by_turns and len(parts) > 1
        rows += [_cells(question, part) for part in parts if kept or part.strip()]
    only_first = all(column.optional for column in question.columns[1:])
    if not parted and only_first and len(rows) == 1:
        return [[cell] for cell in rows[0]]
    return rows


def read_table(
    question: Table, raw: Raw, worst: Sequence[str] = ()
) -> tuple[tuple[tuple[Value | None, ...], ...], list[Problem]]:
    """The rows of a table, blank rows left out, and everything that has to be put right.

    Where rows go by turns a blank one above a filled one is to be put right: without it an immersion would be read as
    a rest. A cell that is wrong is None; in the columns of ``worst`` it is the most that it may mean.
    """
    problems: list[Problem] = []

    def report(text: str, row: int | None = None, column: Cell | None = None, missing: bool = False) -> None:
        where = question.label + (f", row {row}" if row else "")
        where += f", {column.label.lower()}" if column else ""
        problems.append(Problem(question.id, f"{where}: {text}", row, column.id if column else None, missing))

    typed: list[list[str]]
    if isinstance(raw, str):
        if len(raw) > LONGEST:
            report(f"That is {len(raw)} characters. Type {LONGEST} characters at most.")
            return (), problems
        typed = split_rows(question, raw)
    elif isinstance(raw, Sequence):
        typed = [
            [_as_text(cell) for cell in row] if isinstance(row, (list, tuple)) else [_as_text(row)]  # type: ignore[arg-type]
            for row in raw
        ]
    else:
        typed = [[_as_text(raw)]]
    if len(typed) > 10 * question.max_rows:
        report(f"there are {len(typed)} rows. Type {question.max_rows} rows at most.")
        return (), problems

    filled = [any(cell.strip() for cell in cells) for cells in typed]
    rows: list[tuple[Value | None, ...]] = []
    for number, cells in enumerate(typed, start=1):
        if not filled[number - 1] and not question.fixed:
            if question.by_turns and any(filled[number:]):
                first = question.columns[0]
                wanted = f"{what_to_type(first)} Or remove the row."
                report(f"it is blank, and rows below it are not. {wanted}", number, first)
            continue
        if len(cells) > len(question.columns):
            report(
                f"it has {len(cells)} values. Type at most {len(question.columns)}: "
                + ", ".join(column.label.lower() for column in question.columns)
                + ".",
                number,
            )
        values: list[Value | None] = []
        for place, column in enumerate(question.columns):
            cell = cells[place].strip() if place < len(cells) else ""
            if not cell and column.default:
                cell = column.default
            if not cell:
                if not column.optional:
                    report(what_to_type(column), number, column, missing=question.fixed)
                values.append(None)
                continue
            try:
                values.append(read_cell(column, cell))
            except _Slip as slip:
                report(str(slip), number, column)
                values.append(at_most(column, cell) if column.id in worst else None)
        rows.append(tuple(values))
    if not problems and not question.min_rows <= len(rows) <= question.max_rows:
        report(f"{len(rows)} rows are given. {what_to_type(question)}")
    return tuple(rows), problems


def is_blank(raw: Raw) -> bool:
    """Whether nothing was typed."""
    if raw is None:
        return True
    if isinstance(raw, str):
        return not raw.strip()
    if isinstance(raw, (list, tuple)):
        return all(is_blank(row) if isinstance(row, (str, list, tuple)) or row is None else False for row in raw)
    return False


def read(
    question: Question, raw: Raw, worst: Sequence[str] = ()
) -> tuple[Value | tuple[object, ...] | None, list[Problem]]:
    """The value of one question that is not blank, and what has to be put right.

    What is wrong is None; where ``worst`` names it, a number is the most that it may mean.
    """
    if isinstance(question, Table):
        return read_table(question, raw, worst)
    if isinstance(raw, (list, tuple)):
        return None, [Problem(question.id, f"{question.label}: one value is wanted. {what_to_type(question)}")]
    try:
        return read_cell(question, _as_text(raw)), []  # type: ignore[arg-type]
    except _Slip as slip:
        most = at_most(question, _as_text(raw)) if question.id in worst else None  # type: ignore[arg-type]
        return most, [Problem(question.id, f"{question.label}: {slip}")]
