"""The command line: ``list``, ``run``, ``exercise``, ``fit``, ``practice``."""

from __future__ import annotations

import argparse
import json
import sys
from collections.abc import Sequence
from typing import NoReturn

from . import __version__
from .asking.answer import Answered, NotAnswered, answer, as_json
from .asking.declare import Choice, Number, Outcome, Question, Refusal, Sheet, Table
from .asking.reading import Problem, what_to_type
from .drawing.form import accepted_units
from .drawing.links import plain
from .drawing.results import figure, row_words, typed_words, working_words
from .exercises import CHAPTERS
from .exercises.exercise import answer_words, paper
from .sheets import find_sheet, sheet_ids

ANSWERED, WRONG, REFUSED = 0, 2, 3

_TABLES = """\
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
        _print_answers(answered)
    for note in outcome.notes:
        if note.level == "remark":
            _out(plain(note.text))
    return REFUSED if isinstance(outcome, Refusal) else ANSWERED


def _print_answers(answered: Answered) -> None:
    for joined in answered.figures:
        one, found = joined
        decimals, up = joined.decimals, one.rounds_up
        text = figure(found.value, decimals, one.unit if one.kind == "number" else "", up)
        if found.low is not None and found.high is not None:
            low, high = figure(found.low, decimals, up=up), figure(found.high, decimals, up=up)
            text += f" ({low} to {high})"
        if one.kind == "verdict":
            words = next(plain(option.label) for option in one.words if option.word == found.value)
            text = f"{words} ({found.value})"
        _out(f"{one.label}: {text}")
        if words := working_words(joined):
            _out(f"    {words}")
    for listing, table in answered.tables:
        _out(f"\n{listing.label}")
        _out("\t".join(column.label for column in listing.columns))
        for row in table.rows:
            _out("\t".join(row_words(listing, table, row)))


class _Wrong(Exception):
    """What was typed is not a command; its text says what to type."""


class _Parser(argparse.ArgumentParser):
    def error(self, message: str) -> NoReturn:
        """Leave it to ``main`` to say so, in one line and with its own exit code."""
        raise _Wrong(message)


# Each verb with what it asks for first.
_VERBS = {"list": "", "run": "sheet", "exercise": "chapter", "fit": "file", "practice": "number"}


def _parser() -> _Parser:
    parser = _Parser(
        prog="python -m calculators",
        description="The handbook's calculators on the command line.",
        epilog=f"{_TABLES} Questions, units and limits of one sheet: python -m calculators run SHEET --help",
        allow_abbrev=False,
    )
    parser.add_argument("--version", action="store_true", help="say which version this is")
    verbs = parser.add_subparsers(dest="verb", metavar="VERB", parser_class=_Parser)
    verbs.add_parser("list", help="the sheets, with what each answers", allow_abbrev=False)
    runs = verbs.add_parser("run", help="work a sheet", epilog=_TABLES, add_help=False, allow_abbrev=False)
    runs.add_argument("sheet", nargs="?", metavar="SHEET", help="its id, as the list has it")
    runs.add_argument("words", nargs="*", metavar="question=value")
    runs.add_argument("--json", action="store_true", help="answer as data")
    runs.add_argument("-h", "--help", action="store_true", help="what the sheet asks and answers")
    papers = verbs.add_parser("exercise", help="a paper of exercises with its key", allow_abbrev=False)
    papers.add_argument("chapter", nargs="?", metavar="CHAPTER", help=", ".join(CHAPTERS))
    papers.add_argument("--seed", nargs="?", const="", default="1", help="the same seed gives the same paper")
    papers.add_argument("--count", nargs="?", const="", default="10", help=f"how many, from 1 to {_MOST_EXERCISES}")
    fits = verbs.add_parser("fit", help="what the batches of a day-book say together", allow_abbrev=False)
    fits.add_argument("files", nargs="*", metavar="DAY-BOOK.json")
    fits.add_argument("--json", action="store_true", help="answer as data")
    plays = verbs.add_parser("practice", help="a practice batch: moves in, scene and debrief out", allow_abbrev=False)
    plays.add_argument("number", nargs="?", metavar="NUMBER")
    for option, default in (("level", "3"), ("faults", ""), ("moves", ""), ("setting", "")):
        plays.add_argument(f"--{option}", nargs="?", const="", default=default)
    plays.add_argument("--debrief", action="store_true", help="also before the end")
    plays.add_argument("--json", action="store_true", help="answer as data")
    return parser


def run(sheet_id: str | None, words: Sequence[str], *, as_data: bool = False, wants_help: bool = False) -> int:
    """Work one sheet from ``question=value`` words, or describe it."""
    if sheet_id is None:
        return _report([Problem("sheet", "Which sheet? Try: python -m calculators list")], as_data)
    try:
        sheet = find_sheet(sheet_id)
    except LookupError as error:
        return _report([Problem("sheet", str(error))], as_data)
    if wants_help:
        return describe(sheet)
    given: dict[str, str] = {}
    problems: list[Problem] = []
    for word in words:
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


def exercise(chapter: str | None, seed: str, count: str) -> int:
    """Print a paper of exercises, then its key with the working."""
    if chapter not in CHAPTERS:
        _err(f"Which chapter? Type one of: {', '.join(CHAPTERS)}.")
        return WRONG
    if not seed:
        _err("--seed: type a number or a word after it, such as --seed 7.")
        return WRONG
    if not count.isdecimal() or not 1 <= int(count) <= _MOST_EXERCISES:
        _err(f"--count: type a whole number from 1 to {_MOST_EXERCISES}.")
        return WRONG
    drawn = paper(CHAPTERS[chapter], seed, int(count))
    _out(f"Exercises: {chapter}, seed {seed}, version {__version__}")
    _out("All numbers are invented. Name: ______________  Date: __________")
    for number, one in enumerate(drawn, 1):
        _out(f"\n{number}. {one.question}\n   Answer: ______________")
    _out(f"\nKey: {chapter}, seed {seed}")
    for number, one in enumerate(drawn, 1):
        _out(f"\n{number}. {answer_words(one)}\n   {one.working}")
        _out(f"   Taught in {one.exercise.teaches}; sheet {one.exercise.sheet}.")
    return ANSWERED


def main(arguments: Sequence[str] | None = None) -> int:
    """Run a verb and give the exit code: 0 answered, 2 not answered right, 3 refused."""
    typed = list(sys.argv[1:] if arguments is None else arguments)
    parser = _parser()
    try:
        words = _read(parser, typed)
    except _Wrong as wrong:
        about = _VERBS.get(next(iter(typed), ""), "")
        return _report([Problem(about, f"{wrong}. Try: python -m calculators --help")], "--json" in typed)
    except SystemExit:  # the help was asked for and is printed
        return ANSWERED
    if words.version:
        _out(__version__)
        return ANSWERED
    if words.verb == "list":
        return list_sheets()
    if words.verb == "run":
        if words.help and words.sheet is None:
            parser.print_help()
            return ANSWERED
        return run(words.sheet, words.words, as_data=words.json, wants_help=words.help)
    if words.verb == "exercise":
        return exercise(words.chapter, words.seed, words.count)
    if words.verb == "fit":
        from .daybook.cli import fit  # reads the whole of the batch record

        return fit([*words.files, *(["--json"] if words.json else [])])
    if words.verb == "practice":
        from .practice.cli import practice  # brings the whole of the practice batch

        given = {"level": words.level, "faults": words.faults, "moves": words.moves, "setting": words.setting}
        return practice(words.number, given, as_data=words.json, debrief=words.debrief)
    parser.print_help()
    return WRONG


def _read(parser: _Parser, typed: Sequence[str]) -> argparse.Namespace:
    """Read the words; a value may stand behind an option too, where argparse itself has given up on it."""
    verb = next((word for word in typed if not word.startswith("-")), None)
    if verb is not None and verb not in _VERBS:
        raise _Wrong(f"There is no verb “{verb}”. There are: {', '.join(_VERBS)}")
    words, rest = parser.parse_known_args(typed)
    options = [word for word in rest if word.startswith("-")]
    if options or (rest and words.verb != "run"):
        raise _Wrong(f"“{(options or rest)[0]}” means nothing here. Type the line without it")
    if rest:
        words.words += rest
    return words
