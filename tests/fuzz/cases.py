"""Random things to type: right ones, at the edges, and hostile ones."""

from __future__ import annotations

import json
import math
from collections.abc import Callable
from random import Random
from typing import Any

from calculators.asking.answer import example_of
from calculators.asking.declare import Choice, Clock, Number, Question, Sheet, Table, Text
from calculators.asking.reading import split_rows

HOSTILE = (
    "<script>window.hit=1</script>", "<img src=x onerror=window.hit=1>", "<svg onload=window.hit=1>",
    "</section></main>", "\"><svg/onload=window.hit=1>", "' onfocus='window.hit=1' autofocus='",
    "javascript:window.hit=1", "<iframe srcdoc=x>", "&lt;script&gt;", "&#60;b&#62;", "]]>", "<!--", "-->",
    "</textarea>", "<style>*{display:none}</style>", "{{7*7}}", "${7*7}", "{0.__class__}", "%s%n", "__proto__",
    "constructor", "__class__", "../../etc", "=HYPERLINK(\"x\")", "+1+cmd|' /C x'!A0", "@SUM(1)", "NaN", "nan",
    "Infinity", "-Infinity", "inf", "1e999", "-1e999", "1e308", "5e-324", "-0", "0x1F", "1_000", "1,000", "1.000,5",
    "٣٤", "１２", "²", "½", "−5", "–5", "1e", "e5", ".", ",", "+", "-", "--5", "1 2 3", "12 %%", "12 furlongs",
    "12 kg kg", "\x00", "\x1b[31m", "\u202e12", "\ufeff12", "\u200b", "a\u0301" * 30, "😀", "\ud800", "\n\n", "\t\t",
    ";;;", "9" * 300, "1" * 5000, "true", "null", "[]", "{}", "undefined", "06:60", "25:00", "24:00",
    "0000-00-00 00:00", "9999-12-31 23:59", "0001-01-01 00:00",
)  # fmt: skip

Case = dict[str, Any]


def example(sheet: Sheet) -> Case:
    """The worked case as it is typed, tables as rows of cells."""
    case: Case = {}
    for name, text in example_of(sheet).items():
        question = sheet.question(name)
        case[name] = split_rows(question, text) if isinstance(question, Table) else text
    return case


def _number(question: Number, random: Random) -> str:
    low, high = question.low, question.high
    pick = random.random()
    if pick < 0.12:
        value = random.choice((low, high))
    elif pick < 0.2:  # just outside
        value = random.choice((math.nextafter(low, -math.inf), math.nextafter(high, math.inf)))
    elif low > 0 and high / low > 100 and pick < 0.6:
        value = low * (high / low) ** random.random()
    else:
        value = random.uniform(low, high)
    if question.whole:
        return str(round(value))
    return repr(value) if random.random() < 0.5 else f"{value:.{random.randint(0, 4)}f}"


def _clock(random: Random) -> str:
    time = f"{random.randrange(24):02}:{random.randrange(60):02}"
    if random.random() < 0.6:
        return time
    year = random.choice((1, 1999, 2024, 2026, 9999))
    return f"{year:04}-{random.randint(1, 12):02}-{random.randint(1, 28):02} {time}"


def right(question: Question, random: Random) -> Any:
    """What a person might type: within the limits, but for a few just outside."""
    if isinstance(question, Number):
        return _number(question, random)
    if isinstance(question, Choice):
        return random.choice(question.options).word
    if isinstance(question, Clock):
        return _clock(random)
    if isinstance(question, Text):
        return "".join(random.choice("abc äé<&'\"") for _ in range(random.randint(0, question.longest)))
    most = question.max_rows if random.random() < 0.1 else min(question.max_rows, max(question.min_rows, 6))
    count = random.randint(question.min_rows, most)
    return [
        ["" if column.optional and random.random() < 0.3 else right(column, random) for column in question.columns]
        for _ in range(count)
    ]


MANY_CELLS = 50


def right_case(sheet: Sheet, random: Random) -> Case:
    """A case near a person's: the worked one with some or all of its answers drawn anew."""
    case = example(sheet)
    cells = sum(len(one.columns) if isinstance(one, Table) else 1 for one in sheet.questions)
    # Of very many cells one is always past its limits: then nothing would ever be answered.
    share = random.choice((0.15, 0.5, 1.0) if cells < MANY_CELLS else (1.0 / cells, 0.05, 0.15))
    for question in sheet.questions:
        if random.random() < share:
            case[question.id] = right(question, random)
        elif question.optional and random.random() < 0.3:
            case[question.id] = ""
    for either in sheet.either:  # one group of each, as a person gives
        chosen = random.choice(either.groups)
        for group in either.groups:
            for name in group:
                if group != chosen:
                    case[name] = ""
                elif not case.get(name):
                    member = sheet.question(name)
                    assert member is not None
                    case[name] = right(member, random)
    return case


def hostile(random: Random) -> str:
    """One hostile text, or several run together, or one behind a number."""
    text = random.choice(HOSTILE)
    if random.random() < 0.3:
        text = random.choice(("12", "5 kg ", "06:00 ", "")) + text + random.choice(HOSTILE)
    return text


def _deep(random: Random) -> Any:
    made: Any = hostile(random)
    for _ in range(random.choice((2, 5, 50))):
        made = [made] if random.random() < 0.5 else {hostile(random): made}
    return made


def hostile_case(sheet: Sheet, random: Random) -> Case:
    """What a link or an import may carry: text, and rows of texts, for questions that may not exist."""
    case = example(sheet)
    share = random.choice((0.5, 1 / len(sheet.questions)))  # many, or one among right ones
    for question in sheet.questions:
        if random.random() > share:
            continue
        columns = len(question.columns) if isinstance(question, Table) else 1
        rows = [[hostile(random) for _ in range(random.randint(0, columns + 2))] for _ in range(random.randint(0, 30))]
        case[question.id] = rows if isinstance(question, Table) and random.random() < 0.7 else hostile(random)
    if random.random() < 0.2:
        case[hostile(random)] = hostile(random)
    return case


def wrong_types(sheet: Sheet, random: Random) -> Case:
    """What the page itself never sends: numbers, nothing, truth, depth, in place of text."""
    case = example(sheet)
    kinds: tuple[Callable[[], Any], ...] = (
        lambda: random.choice((0, -1, 10**400, 1.5, 1e308, math.nan, math.inf, True, False, None)),
        list,
        dict,
        lambda: {hostile(random): hostile(random)},
        lambda: [[[[]]]],
        lambda: [None, 1, [None], "x", {}],
        lambda: _deep(random),
    )
    for question in sheet.questions:
        if random.random() < 0.5:
            case[question.id] = random.choice(kinds)()
    return case


def request(sheet: Sheet, case: Case, *, from_example: tuple[str, ...] = ()) -> str:
    """The case as the page sends it."""
    return json.dumps(
        {
            "sheet": sheet.id,
            "prefix": sheet.id,
            "root": "../../",
            "questions": case,
            "from_example": list(from_example),
            "date": "2026-01-12T06:00",
        }
    )
