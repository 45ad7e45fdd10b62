"""One line of the day-book: plain data as the page wrote it, read when it is wanted.

An entry is never changed and never deleted. A correction is an entry of its own that names the one it replaces; the
replaced one stays in the book and no longer counts.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from datetime import datetime, timedelta
from typing import Any, NamedTuple

from ...asking.clocks import MOST_ZONE
from ...asking.declare import Values
from ...asking.reading import FIRST_YEAR, LAST_YEAR, Problem, Raw, is_blank, read, what_to_type
from .kinds import KIND, KINDS, WITHDRAWN, EntryKind

SCHEMA = 1
"""Version of an entry and of the export; a file of a newer one is refused whole."""

_NEVER = datetime(FIRST_YEAR, 1, 1)


class Entry(NamedTuple):
    """One line of the book.

    Attributes
    ----------
    id : str
        Made by the page; entries are merged by it.
    batch : str
        Number of the batch.
    kind : str
        Id of one of ``kinds.KINDS``.
    at : str
        Clock time that the work was done, local, ``2026-11-25T14:10``.
    written : str
        When the line was written, by the device, UTC, ISO 8601.
    zone : int
        Minutes east of UTC that ``at`` is written in.
    seq : int
        Order of writing on this device.
    values : mapping of str to str or rows of str
        As typed, by question.
    who, remark : str
        As typed.
    replaces : str or None
        Id of the entry that this one corrects.
    """

    id: str
    batch: str
    kind: str
    at: str
    written: str
    zone: int
    seq: int
    values: Mapping[str, Raw]
    who: str
    remark: str
    replaces: str | None

    @property
    def local(self) -> datetime:
        """The clock time as it stood on the wall; where it cannot be read, that of the writing."""
        return moment_of(self.at) or self._written + timedelta(minutes=self.zone)

    @property
    def utc(self) -> datetime:
        """The moment of the work, UTC, so that a change of the clocks loses no hour."""
        local = moment_of(self.at)
        return local - timedelta(minutes=self.zone) if local else self._written

    @property
    def _written(self) -> datetime:
        return moment_of(self.written) or _NEVER + timedelta(days=1)

    @property
    def written_utc(self) -> datetime | None:
        """When the line was written, by the device's clock, UTC."""
        return moment_of(self.written)


def moment_of(text: str) -> datetime | None:
    """An ISO 8601 time without its zone, or None when it cannot be read or lies in no sensible year."""
    try:
        moment = datetime.fromisoformat(text).replace(tzinfo=None)
    except ValueError:
        return None
    return moment if FIRST_YEAR <= moment.year <= LAST_YEAR else None


_HALF = re.compile("[\ud800-\udfff]")


def whole_signs(text: str) -> str:
    """The text with a � for each half sign, which no file and no address can hold.

    A script cuts a sign in two when it cuts a text at a fixed length; the browser’s store and JSON keep the half.
    """
    return _HALF.sub("\ufffd", text)


def _text(value: object) -> str:
    return whole_signs(value) if isinstance(value, str) else "" if value is None else str(value)


def _whole(value: object) -> int:
    return int(value) if isinstance(value, (int, float)) and abs(value) < 2**53 else 0


def _zone(value: object) -> int:
    minutes = _whole(value)
    return minutes if -MOST_ZONE <= minutes <= MOST_ZONE else 0


def _values(given: object) -> dict[str, Raw]:
    if not isinstance(given, Mapping):
        return {}
    return {
        _text(str(name)): [[_text(cell) for cell in row] if isinstance(row, list) else [_text(row)] for row in value]
        if isinstance(value, list)
        else _text(value)
        for name, value in given.items()
    }


def entry_of(raw: Mapping[str, Any], seq: int = 0) -> Entry:
    """An entry from the page's plain data; what is missing or odd becomes blank, nothing is refused.

    Parameters
    ----------
    raw : mapping
        As stored by the page.
    seq : int, optional
        Its place, for data without one.
    """
    replaces = raw.get("replaces")
    return Entry(
        _text(raw.get("id")),
        _text(raw.get("batch")),
        _text(raw.get("kind")),
        _text(raw.get("at")),
        _text(raw.get("written")),
        _zone(raw.get("zone")),
        _whole(raw.get("seq", seq)),
        _values(raw.get("values")),
        _text(raw.get("who")),
        _text(raw.get("remark")),
        replaces if isinstance(replaces, str) and replaces else None,
    )


def plain(entry: Entry) -> dict[str, Any]:
    """The entry as plain data for an export: everything but the order on this device."""
    data: dict[str, Any] = {"schema": SCHEMA, **entry._asdict()}
    del data["seq"]
    data["values"] = dict(entry.values)
    return data


def in_order(raws: Iterable[Mapping[str, Any]]) -> list[Entry]:
    """The entries in the order of writing; the first of two with one id counts."""
    entries = sorted((entry_of(raw, n) for n, raw in enumerate(raws, 1)), key=lambda one: one.seq)
    seen: set[str] = set()
    return [one for one in entries if not (one.id in seen or seen.add(one.id))]  # type: ignore[func-returns-value]


def replaced(entries: Sequence[Entry]) -> dict[str, Entry]:
    """For each entry that no longer counts, by its id, the correction that took its place.

    Of two corrections of one entry the later one counts, and the earlier one is replaced by it too. A correction that
    would end in a circle replaces nothing.
    """
    known = {entry.id: entry for entry in entries}
    by: dict[str, Entry] = {}
    for entry in entries:
        target = entry.replaces
        if target is None or target not in known or known[target].batch != entry.batch:
            continue
        last, end = _last(by, target), _last(by, entry.id)
        if end not in (last, target):
            by[last] = entry
    return by


def _last(by: Mapping[str, Entry], entry_id: str) -> str:
    """The id of the correction that counts in the end; ``by`` has no circles."""
    while entry_id in by:
        entry_id = by[entry_id].id
    return entry_id


def standing(entries: Sequence[Entry]) -> list[Entry]:
    """The entries that count, in the order of the work; those of one minute in the order of writing."""
    gone = replaced(entries)
    counted = [entry for entry in entries if entry.id not in gone and entry.kind != WITHDRAWN]
    return sorted(counted, key=lambda entry: (entry.utc, entry.seq))


def read_values(entry: Entry) -> tuple[Values, list[Problem]]:
    """The values of an entry by question, and what is to be put right, as the sheets say it.

    A value that cannot be read, and one left blank, is None. Defaults stand in for blanks.
    """
    kind = KIND.get(entry.kind)
    if kind is None:
        names = ", ".join(one.id for one in KINDS)
        return {}, [Problem("kind", f"There is no kind of entry “{entry.kind}”. There are: {names}.")]
    problems = [
        Problem(name, f"{kind.label} asks no question “{name}”.")
        for name, typed in entry.values.items()
        if kind.question(name) is None and not is_blank(typed)
    ]
    return _read(kind, entry, problems)


def _read(kind: EntryKind, entry: Entry, problems: list[Problem]) -> tuple[Values, list[Problem]]:
    values: Values = {}
    for question in kind.questions:
        typed = entry.values.get(question.id)
        if is_blank(typed) and question.default:
            typed = question.default
        if is_blank(typed):
            values[question.id] = None
            if not question.optional:
                problems.append(Problem(question.id, f"{question.label}: {what_to_type(question)}", missing=True))
            continue
        value, found = read(question, typed)
        values[question.id] = None if found else value
        problems += found
    return values, problems


def faults_of(entry: Entry) -> list[Problem]:
    """All that is to be put right in one entry, its clock time and its batch number with it."""
    problems = []
    if not entry.batch.strip():
        problems.append(Problem("batch", "Batch number: type the number of the batch."))
    if moment_of(entry.at) is None:
        problems.append(Problem("at", "Time: type a date and a time such as 2026-01-12 06:00."))
    if entry.kind == WITHDRAWN and not entry.replaces:
        problems.append(Problem("replaces", "It strikes nothing out: no line is named."))
    if entry.kind == "remark" and not entry.remark.strip():
        problems.append(Problem("remark", "Remark: type what there is to say."))
    return problems + read_values(entry)[1]
