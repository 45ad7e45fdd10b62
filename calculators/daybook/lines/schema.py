"""The JSON schema of the exported day-book, and the page of its columns, made from the kinds."""

from __future__ import annotations

import json
from typing import Any

from ...asking.declare import Choice, Number, Question, Table, Text
from ...asking.figures import plain_number
from ...asking.units import shown
from .entry import SCHEMA
from .exchange import FILE_KIND, FIXED
from .kinds import KINDS, LONGEST_BATCH, LONGEST_REMARK, LONGEST_WHO, WITHDRAWN, question_ids, question_of

FILE_NAME = "day-book.schema.json"

_FIXED_WORDS = {
    "schema": ("version of the entry", "always 1"),
    "id": ("made by the page", "letters and figures; rows are told apart by it. A row without one gets one when read"),
    "batch": ("number of the batch", f"1 to {LONGEST_BATCH} characters"),
    "kind": ("kind of entry", ", ".join(kind.id for kind in KINDS)),
    "at": ("when the work was done", "local date and time, 2026-11-25T14:10"),
    "written": ("when the line was written", "by the device’s clock, UTC, ISO 8601"),
    "zone": ("minutes east of UTC of the first time", "-1440 to 1440; 0 when blank"),
    "who": ("who wrote it", f"up to {LONGEST_WHO} characters"),
    "remark": ("remark", f"up to {LONGEST_REMARK} characters"),
    "replaces": ("id of the entry that it corrects or strikes out", "blank for most"),
}


def limits_words(question: Question) -> str:
    """What may stand in a column: unit and limits, the words of a choice, or the columns of a table."""
    if isinstance(question, Number):
        unit = shown(question.unit)
        limits = f"{plain_number(question.low)} to {plain_number(question.high)}"
        return f"{limits} {unit}".rstrip()
    if isinstance(question, Choice):
        return " or ".join(option.word for option in question.options)
    if isinstance(question, Text):
        return f"text, up to {question.longest} characters"
    if isinstance(question, Table):
        cells = ", ".join(f"{column.label.lower()} ({limits_words(column)})" for column in question.columns)
        rows = (
            f"one for each of: {' / '.join(question.row_names)}"
            if question.fixed
            else f"up to {question.max_rows}, apart by ;"
        )
        return f"rows of {cells}; {rows}"
    return "a clock time"


def column_rows() -> list[tuple[str, str, str, str]]:
    """Every column of the CSV file: its name, what it is, what may stand in it, and in which kinds it is used."""
    rows = [(name, *_FIXED_WORDS[name], "all") for name in FIXED]
    for name in question_ids():
        question = question_of(name)
        kinds = ", ".join(kind.id for kind in KINDS if kind.question(name))
        rows.append((name, question.label.lower(), limits_words(question), kinds))
    return rows


def column_lines() -> list[str]:
    """The columns as a table in Markdown."""
    lines = ["| Column | What it is | What may stand in it | Used by |", "|---|---|---|---|"]
    for name, label, limits, kinds in column_rows():
        lines.append(f"| `{name}` | {label} | {limits} | {kinds} |".replace("\u202f", " "))
    return [*lines, ""]


def kind_lines() -> list[str]:
    """The kinds of entry as a table in Markdown."""
    lines = ["| Kind | In the book | What it is for | Columns |", "|---|---|---|---|"]
    for kind in KINDS:
        names = ", ".join(f"`{question.id}`" for question in kind.questions) or "none of its own"
        lines.append(f"| `{kind.id}` | {kind.label} | {kind.hint} | {names} |")
    return [*lines, ""]


def _value(question: Question) -> dict[str, Any]:
    about = f"{question.label}. {limits_words(question)}. As typed."
    if isinstance(question, Table):
        cells = {"type": "array", "items": {"type": "string"}, "maxItems": len(question.columns)}
        return {"description": about, "type": "array", "items": cells}
    return {"description": about, "type": "string", "maxLength": 4000}


def json_schema() -> dict[str, Any]:
    """The schema of the export, JSON Schema 2020-12."""
    kinds = []
    for kind in KINDS:
        said: dict[str, Any] = {"values": {"properties": {q.id: _value(q) for q in kind.questions}}}
        if kind.id == WITHDRAWN:
            said["replaces"] = {"type": "string"}
        kinds.append({"if": {"properties": {"kind": {"const": kind.id}}}, "then": {"properties": said}})
    texts = {name: {"type": "string", "description": ": ".join(_FIXED_WORDS[name])} for name in FIXED}
    entry = {
        "type": "object",
        "required": [name for name in FIXED if name != "replaces"] + ["values"],
        "properties": {
            **texts,
            "schema": {"const": SCHEMA},
            "batch": {**texts["batch"], "minLength": 1, "maxLength": LONGEST_BATCH},
            "kind": {"enum": [kind.id for kind in KINDS], "description": "What kind of entry it is."},
            "zone": {"type": "integer", "description": ": ".join(_FIXED_WORDS["zone"])},
            "who": {**texts["who"], "maxLength": LONGEST_WHO},
            "remark": {**texts["remark"], "maxLength": LONGEST_REMARK},
            "replaces": {"type": ["string", "null"], "description": ": ".join(_FIXED_WORDS["replaces"])},
            "values": {"type": "object", "description": "What was typed, as it was typed, by question."},
        },
        "allOf": kinds,
    }
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "Day-book of Steep to Kiln",
        "description": "What the day-book writes and reads. Values are raw text, in the units of the columns.",
        "type": "object",
        "required": ["schema", "kind", "version", "saved", "entries"],
        "properties": {
            "schema": {"const": SCHEMA},
            "kind": {"const": FILE_KIND},
            "version": {"type": "string", "description": "Version of the handbook that wrote it."},
            "saved": {"type": "string", "description": "When it was written, ISO 8601."},
            "entries": {"type": "array", "items": entry},
        },
    }


def schema_text() -> str:
    """The schema as it lies beside the site."""
    return json.dumps(json_schema(), ensure_ascii=False, indent=1) + "\n"
