"""What a sheet is made of: its questions, its answers, and what its working gives back.

Everything here is plain immutable data. The page, the command line, the tests and the
exercises all read the same declarations, so nothing about a sheet is written twice.

A *default* is a value that means something when nothing is said. An *example* belongs to
the worked case of the page and never answers for a reader. Both are written as a person
would type them. A question that has a default or is optional stands under "More questions"
in a form, unless it is ``in_view``.

Text that a reader sees may name a sheet or a page by its id: ``[[sheet:steep-timing]]`` or
``[[page:safety/confined-vessels|the vessel page]]``. The build resolves and checks them.
"""

# No annotations from the future: as text, those of so many named tuples cost the browser 30 ms at each cold start.
from collections.abc import Callable, Sequence
from datetime import datetime
from typing import Any, Literal, NamedTuple

from .tally import Tally

Level = Literal["danger", "warning", "caution", "notice", "remark"]
LEVELS: tuple[Level, ...] = ("danger", "warning", "caution", "notice", "remark")

Worked = Literal["sum", "model", "table", "rule", "given"]
"""How a figure was found: by a sum that its working shows and that can be followed with a pencil; by a model that goes
step by step, fits or tries; from a published table or equation; by rules; or not at all, being given."""

Sharing = Literal["", "lot", "batch"]
"""How far a question means the same in every sheet that asks it, so that its answer is offered there: not at all; while
the barley is of one lot, which another answer ends; or while the work is at one batch. The id is then its one name."""

SHARED_HOURS = 12
"""An answer is offered to other sheets for so long [h]."""

Value = float | str | datetime
"""What one question or one cell holds once it is read."""


class Number(NamedTuple):
    """A question answered by a number in ``unit``, from ``low`` to ``high`` inclusive.

    ``reason`` says why the limits stand, as a sentence; it is given when they are broken.
    """

    id: str
    label: str
    unit: str
    low: float
    high: float
    hint: str = ""
    default: str = ""
    example: str = ""
    optional: bool = False
    whole: bool = False
    source: str = ""
    in_view: bool = False
    reason: str = ""
    shared: Sharing = ""


class Option(NamedTuple):
    """One of the words a choice may take.

    With ``refuses`` the sheet answers nothing once this word is chosen, whatever else is blank.
    """

    word: str
    label: str
    refuses: "Refusal | None" = None


class Choice(NamedTuple):
    """A question answered by one word of a closed list.

    A ``private`` one is about a person. Its answer goes into the working and nowhere else: it is not kept on the
    device, not put back, not in a link and not taken from one, not printed, not in what the command line gives back.
    """

    id: str
    label: str
    options: tuple[Option, ...]
    hint: str = ""
    default: str = ""
    example: str = ""
    optional: bool = False
    source: str = ""
    in_view: bool = False
    private: bool = False
    shared: Sharing = ""


class Clock(NamedTuple):
    """A question answered by a time of day, with or without a date.

    A time without a date is kept on day 1, which is written 0001-01-01. A ``daily`` one means that
    time of every day, and a date typed with it is let go.
    """

    id: str
    label: str
    hint: str = ""
    default: str = ""
    example: str = ""
    optional: bool = False
    source: str = ""
    in_view: bool = False
    daily: bool = False
    shared: Sharing = ""


class Text(NamedTuple):
    """A question answered by a short line of words."""

    id: str
    label: str
    longest: int = 80
    hint: str = ""
    default: str = ""
    example: str = ""
    optional: bool = False
    source: str = ""
    in_view: bool = False
    shared: Sharing = ""


Cell = Number | Choice | Clock | Text


class Table(NamedTuple):
    """A question answered by rows; each column is a question of its own.

    Rows are read as tuples in the order of the columns; an optional cell left blank is None.
    With as many row names as rows, no more and no fewer, the rows are fixed: a blank one keeps
    its place and is still to be filled in.
    """

    id: str
    label: str
    columns: tuple[Cell, ...]
    min_rows: int = 1
    max_rows: int = 24
    hint: str = ""
    row_names: tuple[str, ...] = ()
    default: str = ""
    example: str = ""
    optional: bool = False
    source: str = ""
    in_view: bool = False
    shared: Sharing = ""

    @property
    def fixed(self) -> bool:
        """Whether the rows are given by their names."""
        return self.min_rows == self.max_rows == len(self.row_names)


Question = Number | Choice | Clock | Text | Table


class Either(NamedTuple):
    """Groups of questions of which exactly one group is answered, such as bed or barley weight.

    The questions inside are neither optional nor given a default by themselves.
    With ``required`` false, leaving all groups blank is fine.
    """

    groups: tuple[tuple[str, ...], ...]
    required: bool = True


class Answer(NamedTuple):
    """One figure, word or clock time that a sheet gives.

    ``decimals`` is what the method supports; values keep full precision.
    With ``rounds_up`` a number is never shown as less than it is (minutes of a fan, say).
    A verdict is a word from ``words``; each word carries the sentence shown for it.
    ``worked`` says how the figure is found; a verdict is always found by rules.
    ``gives`` is the shared question that the figure answers in other sheets.
    """

    id: str
    label: str
    unit: str = ""
    decimals: int = 0
    kind: Literal["number", "verdict", "clock"] = "number"
    words: tuple[Option, ...] = ()
    lead: bool = False
    rests_on: str = ""
    trust: str = ""
    next: str = ""
    rounds_up: bool = False
    worked: Worked = "sum"
    gives: str = ""


class Heading(NamedTuple):
    """The head of one column of a table that a sheet gives."""

    id: str
    label: str
    unit: str = ""
    decimals: int = 0
    kind: Literal["number", "clock", "text"] = "number"


class Listing(NamedTuple):
    """A table that a sheet gives: its id, its title and its columns."""

    id: str
    label: str
    columns: tuple[Heading, ...]


class Found(NamedTuple):
    """The value found for one answer, with how it was worked out (the numbers put in).

    ``next``, ``worked`` and ``gives`` stand in place of the answer's own where they depend on the case.
    """

    id: str
    value: Value
    working: str = ""
    low: float | None = None
    high: float | None = None
    decimals: int | None = None
    next: str = ""
    worked: Worked | None = None
    gives: str | None = None


class Rows(NamedTuple):
    """The rows of one listing; a cell may be blank (None).

    ``decimals`` replaces those of a heading, by its id, where the doubt of this case asks for it.
    """

    id: str
    rows: Sequence[Sequence[Value | None]]
    decimals: dict[str, int] | None = None


class Note(NamedTuple):
    """A sentence that goes with the answers.

    danger, warning, caution and notice are used as the open standards define them;
    anything milder is a remark.
    """

    level: Level
    text: str


class Axis(NamedTuple):
    """One axis of a chart; limits left out are taken from the data."""

    label: str
    unit: str = ""
    low: float | None = None
    high: float | None = None
    decimals: int = 0


class Line(NamedTuple):
    """A curve."""

    label: str
    xs: Sequence[float]
    ys: Sequence[float]


class Band(NamedTuple):
    """A region between two curves, for doubt."""

    label: str
    xs: Sequence[float]
    lows: Sequence[float]
    highs: Sequence[float]


class Shade(NamedTuple):
    """A stretch of the x axis that is shaded; equal labels look alike. ``past`` marks what lies past a limit."""

    label: str
    start: float
    end: float
    past: bool = False


class Mark(NamedTuple):
    """A horizontal line at a value of y, such as a target."""

    label: str
    y: float


class Dots(NamedTuple):
    """Single readings."""

    label: str
    xs: Sequence[float]
    ys: Sequence[float]


class Chart(NamedTuple):
    """A chart as data; ``chart.draw`` turns it into a picture and its data table."""

    id: str
    title: str
    summary: str
    x: Axis
    y: Axis
    lines: tuple[Line, ...] = ()
    bands: tuple[Band, ...] = ()
    shades: tuple[Shade, ...] = ()
    marks: tuple[Mark, ...] = ()
    dots: tuple[Dots, ...] = ()


class Span(NamedTuple):
    """A value with its interval, and the limit it is held against.

    ``wanted`` says on which side of the limit the value is wanted.
    """

    label: str
    value: float
    low: float
    high: float
    limit: float | None = None
    wanted: Literal["above", "below"] = "above"


class Spans(NamedTuple):
    """Intervals under each other on one axis, each with its own limit."""

    id: str
    title: str
    summary: str
    axis: Axis
    spans: tuple[Span, ...]


class Bar(NamedTuple):
    """One set of bars: a value for each class."""

    label: str
    values: Sequence[float]


class Bars(NamedTuple):
    """Up to three sets of bars side by side in each class, the one that counts most last."""

    id: str
    title: str
    summary: str
    x_label: str
    classes: tuple[str, ...]
    y: Axis
    sets: tuple[Bar, ...]


Picture = Chart | Spans | Bars


class Outcome(NamedTuple):
    """What the working of a sheet gives back when it can answer."""

    answers: tuple[Found, ...]
    tables: tuple[Rows, ...] = ()
    notes: tuple[Note, ...] = ()
    charts: tuple[Picture, ...] = ()


class Refusal(NamedTuple):
    """A result of its own: the sheet understood and will not answer, and says why."""

    text: str
    notes: tuple[Note, ...] = ()


class First(NamedTuple):
    """What is answered before the rest is asked, from these questions alone, whatever else is blank or wrong.

    ``work`` takes just those questions by name, None for one that is blank or cannot be read, of a table its rows with
    None for such a cell. It returns an Outcome or a Refusal, or None to go on. What decides about people belongs here:
    a figure still missing must not hide it.
    """

    questions: tuple[str, ...]
    work: Callable[..., Outcome | Refusal | None]


class Sheet(NamedTuple):
    """A calculator: questions, working, answers.

    ``work`` takes the questions by name (None for an optional one left blank) and returns an
    Outcome or a Refusal. ``first`` answers before the rest is asked. ``guarded`` sheets (gas, vessels, lifting) are
    never remembered and never keep an old answer in view. ``needs`` names the packages that must be there first.
    ``tallies`` are counters to tap that count into its questions.
    """

    id: str
    title: str
    purpose: str
    questions: tuple[Question, ...]
    answers: tuple[Answer, ...]
    work: Callable[..., Outcome | Refusal]
    either: tuple[Either, ...] = ()
    listings: tuple[Listing, ...] = ()
    guarded: bool = False
    needs: tuple[str, ...] = ()
    sources: tuple[str, ...] = ()
    story: str = ""
    first: First | None = None
    tallies: tuple[Tally, ...] = ()

    def question(self, question_id: str) -> Question | None:
        """The question of that id, or None."""
        for question in self.questions:
            if question.id == question_id:
                return question
        return None


class AskAgain(ValueError):
    """Raised by a working when answers that are right one by one do not fit together.

    Parameters
    ----------
    question : str
        Id of the question to change.
    text : str
        What was wrong, the limits, and what to type instead.
    row : int, optional
        Row of a table, counted from 1.
    """

    def __init__(self, question: str, text: str, row: int | None = None) -> None:
        super().__init__(text)
        self.question = question
        self.text = text
        self.row = row


def is_private(question: Question) -> bool:
    """Whether the answer goes into the working and nowhere else."""
    return isinstance(question, Choice) and question.private


def shared_by(sheet: Sheet, question: Question) -> Sharing:
    """How far the answer is shared with other sheets; those about gas, vessels and lifting take and give nothing."""
    return "" if sheet.guarded or is_private(question) else question.shared


def is_blank_by_choice(sheet: Sheet, question: Question) -> bool:
    """Whether a question may stay blank: optional, or one of alternatives."""
    return question.optional or any(question.id in group for either in sheet.either for group in either.groups)


Values = dict[str, Any]
"""Question id -> value in our unit: float, word, text, datetime, tuple of rows, or None."""
