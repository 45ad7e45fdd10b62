"""The command line: ``list``, ``run``, ``exercise``, ``fit``."""

from __future__ import annotations

import json
import sys
from collections.abc import Sequence

from . import __version__
from .answer import Answered, NotAnswered, answer, as_json, declared, find_sheet, sheet_ids
from .declare import Choice, Number, Outcome, Question, Refusal, Sheet, Table
from .exercise import answer_words, paper
from .exercises import CHAPTERS
from .form import accepted_units
from .links import plain
from .reading import Problem, what_to_type
from .results import figure, row_words, typed_words

ANSWERED, WRONG, REFUSED = 0, 2, 3

USAGE = """\
python -m calculators list
python -m calculators run SHEET --help
python -m calculators run SHEET question=value ... [--json]
python -m calculators exercise CHAPTER [--seed 7] [--count 10]
python -m calculators fit DAY-BOOK.json ... [--json]
python -m calculators --version
A table is written with columns apart by spaces and rows by ';', as in stages="8 14; 16 13; 8 14"."""

_MOST_EXERCISES = 100


def _out(text: str) -> None:
    sys.stdout.write(text + "\n")


def _err(text: str) -> None:
    sys.stderr.write(text + "\n")


def _report(problems: Sequence[Problem], as_data: bool) -> int:
    for problem in problems:
        if as_data:
            entry: dict[str, object] = {"question": problem.question, "text": problem.text}
            if problem.row is not None:
                entry["row"] = problem.row
            _err(json.dumps(entry, ensure_ascii=False))
        else:
            _err(problem.text.replace("\n", " "))
    return WRONG


def list_sheets() -> int:
    """Print the id, the title and the purpose of every sheet."""
    sheets = [find_sheet(name) for name in sheet_ids()]
    width = max(len(sheet.id) for sheet in sheets)
    for sheet in sheets:
        _out(f"{sheet.id:<{width}}  {sheet.title}. {sheet.purpose}")
    return ANSWERED


def _describe(question: Question, indent: str = "  ") -> None:
    _out(f"{indent}{question.id}: {question.label}")
    inner = indent + "    "
    if question.hint:
        _out(f"{inner}{question.hint}")
    _out(inner + what_to_type(question))
    if isinstance(question, Number) and question.unit:
        _out(f"{inner}Units understood: {', '.join(accepted_units(question))}.")
    if isinstance(question, Choice):
        for option in question.options:
            _out(f"{inner}{option.word}: {option.label}")
    if isinstance(question, Table):
        for column in question.columns:
            _describe(column, inner)
    said = []
    if question.optional:
        said.append("may stay blank")
    if question.default:
        said.append(f"{question.default} when nothing is said")
    if question.example:
        said.append(f"example: {question.example}")
    if said:
        _out(inner + "; ".join(said).capitalize() + ".")


def describe(sheet: Sheet) -> int:
    """Print the questions of a sheet: units, limits, defaults, example; and its answers."""
    _out(f"{sheet.id}: {sheet.title}. {sheet.purpose}")
    _out("\nQuestions")
    for question in sheet.questions:
        _describe(question)
    for either in sheet.either:
        groups = " or ".join(" with ".join(group) for group in either.groups)
        _out(f"  Give one of: {groups}." + ("" if either.required else " All may stay blank."))
    _out("\nAnswers")
    for one in sheet.answers:
        unit = f" [{one.unit}]" if one.unit else ""
        _out(f"  {one.id}{unit}: {one.label}")
        for word in one.words:
            _out(f"      {word.word}: {plain(word.label)}")
    return ANSWERED


def _print_outcome(answered: Answered) -> int:
    sheet, values, outcome = answered.sheet, answered.said, answered.outcome
    _out(f"{sheet.title} ({sheet.id}, version {__version__})")
    for question in sheet.questions:
        value = values[question.id]
        if value is not None:
            _out(f"  {question.label}: {typed_words(question, value)}")
    _out("")
    if isinstance(outcome, Refusal):
        _err(f"Refused: {plain(outcome.text)}")
    for note in outcome.notes:  # before the answers, as in a page
        if note.level != "remark":
            _out(f"{note.level.upper()}: {plain(note.text)}")
    if isinstance(outcome, Outcome):
        _print_answers(sheet, outcome)
    for note in outcome.notes:
        if note.level == "remark":
            _out(plain(note.text))
    return REFUSED if isinstance(outcome, Refusal) else ANSWERED


def _print_answers(sheet: Sheet, outcome: Outcome) -> None:
    for found in outcome.answers:
        one = declared(sheet, found.id)
        decimals = one.decimals if found.decimals is None else found.decimals
        up = one.rounds_up
        text = figure(found.value, decimals, one.unit if one.kind == "number" else "", up)
        if found.low is not None and found.high is not None:
            low, high = figure(found.low, decimals, up=up), figure(found.high, decimals, up=up)
            text += f" ({low} to {high})"
        if one.kind == "verdict":
            words = next(plain(option.label) for option in one.words if option.word == found.value)
            text = f"{words} ({found.value})"
        _out(f"{one.label}: {text}")
        if found.working:
            _out(f"    {found.working}")
    listings = {listing.id: listing for listing in sheet.listings}
    for table in outcome.tables:
        listing = listings[table.id]
        _out(f"\n{listing.label}")
        _out("\t".join(column.label for column in listing.columns))
        for row in table.rows:
            _out("\t".join(row_words(listing, table, row)))


def run(arguments: Sequence[str]) -> int:
    """Work one sheet from ``question=value`` words."""
    as_data = "--json" in arguments
    words = [word for word in arguments if word != "--json"]
    wants_help = any(word in ("--help", "-h") for word in words)
    words = [word for word in words if word not in ("--help", "-h")]
    if not words:
        _err("Which sheet? Try: python -m calculators list")
        return WRONG
    try:
        sheet = find_sheet(words[0])
    except LookupError as error:
        return _report([Problem("sheet", str(error))], as_data)
    if wants_help:
        return describe(sheet)
    given: dict[str, str] = {}
    problems: list[Problem] = []
    for word in words[1:]:
        name, equals, text = word.partition("=")
        if not equals:
            problems.append(Problem(name, f"“{word}”: write question=value, such as {_such_as(sheet)}"))
        elif name in given:
            problems.append(Problem(name, f"{name} is given twice. Give it once."))
        given[name] = text
    if problems:
        return _report(problems, as_data)
    result = answer(sheet, given)
    if isinstance(result, NotAnswered):
        return _report(result.problems, as_data)
    if as_data:
        _out(json.dumps(as_json(result), ensure_ascii=False, allow_nan=False))
        return REFUSED if isinstance(result.outcome, Refusal) else ANSWERED
    return _print_outcome(result)


def _such_as(sheet: Sheet) -> str:
    first = sheet.questions[0]
    return f"{first.id}={first.example or first.default or '...'}"


def _option(words: list[str], name: str, default: str) -> str:
    """Take ``--name value`` out of the words."""
    if name not in words:
        return default
    place = words.index(name)
    value = words[place + 1] if place + 1 < len(words) else ""
    del words[place : place + 2]
    return value


def exercise(arguments: Sequence[str]) -> int:
    """Print a paper of exercises, then its key with the working."""
    words = list(arguments)
    seed = _option(words, "--seed", "1")
    count = _option(words, "--count", "10")
    chapters = ", ".join(CHAPTERS)
    if len(words) != 1 or words[0] not in CHAPTERS:
        _err(f"Which chapter? Type one of: {chapters}.")
        return WRONG
    if not count.isdecimal() or not 1 <= int(count) <= _MOST_EXERCISES:
        _err(f"--count {count}: type a whole number from 1 to {_MOST_EXERCISES}.")
        return WRONG
    drawn = paper(CHAPTERS[words[0]], seed, int(count))
    _out(f"Exercises: {words[0]}, seed {seed}, version {__version__}")
    _out("All numbers are invented. Name: ______________  Date: __________")
    for number, one in enumerate(drawn, 1):
        _out(f"\n{number}. {one.question}\n   Answer: ______________")
    _out(f"\nKey: {words[0]}, seed {seed}")
    for number, one in enumerate(drawn, 1):
        _out(f"\n{number}. {answer_words(one)}\n   {one.working}")
        _out(f"   Taught in {one.exercise.teaches}; sheet {one.exercise.sheet}.")
    return ANSWERED


def main(arguments: Sequence[str] | None = None) -> int:
    """Run a verb and give the exit code: 0 answered, 2 not answered right, 3 refused."""
    words = list(sys.argv[1:] if arguments is None else arguments)
    verb = words[0] if words else "--help"
    if verb in ("--help", "-h", "help"):
        _out(USAGE)
        return ANSWERED if words else WRONG
    if verb == "--version":
        _out(__version__)
        return ANSWERED
    if verb == "list":
        return list_sheets()
    if verb == "run":
        return run(words[1:])
    if verb == "exercise":
        return exercise(words[1:])
    if verb == "fit":
        from .records.cli import fit  # reads the whole of the batch record

        return fit(words[1:])
    _err(f"There is no verb “{verb}”. There are: list, run, exercise, fit. Try: python -m calculators --help")
    return WRONG
