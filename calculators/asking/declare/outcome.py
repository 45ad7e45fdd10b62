"""What the working of a sheet gives back."""

# No annotations from the future: as text, those of so many named tuples cost the browser 30 ms at each cold start.
from collections.abc import Mapping, Sequence
from datetime import datetime
from typing import Literal, NamedTuple

from .pictures import Picture

Level = Literal["danger", "warning", "caution", "notice", "remark"]
LEVELS: tuple[Level, ...] = ("danger", "warning", "caution", "notice", "remark")

Worked = Literal["sum", "model", "table", "rule", "given"]
"""How a figure was found: by a sum that its working shows and that can be followed with a pencil; by a model that goes
step by step, fits or tries; from a published table or equation; by rules; or not at all, being given."""

Value = float | str | datetime
"""What one question or one cell holds once it is read."""


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

    ``decimals`` replaces those of a heading, by its id, where the doubt of this case asks for it. With ``labels`` the
    columns are those that it names, under these labels, and the rows have no others: where the case says what there is.
    """

    id: str
    rows: Sequence[Sequence[Value | None]]
    decimals: dict[str, int] | None = None
    labels: dict[str, str] | None = None


class Note(NamedTuple):
    """A sentence that goes with the answers.

    danger, warning, caution and notice are used as the open standards define them;
    anything milder is a remark.
    """

    level: Level
    text: str


class GoOn(NamedTuple):
    """What of an answer its reader may go on from, at a press of his own: a label, and what it puts into questions.

    ``values`` has text, and rows of cells, as they would be typed, by the question; what stood there is not lost.
    """

    label: str
    values: Mapping[str, str | Sequence[Sequence[str]]]
    said: str


class Outcome(NamedTuple):
    """What the working of a sheet gives back when it can answer."""

    answers: tuple[Found, ...]
    tables: tuple[Rows, ...] = ()
    notes: tuple[Note, ...] = ()
    charts: tuple[Picture, ...] = ()
    goes_on: GoOn | None = None


class Refusal(NamedTuple):
    """A result of its own: the sheet understood and will not answer, and says why."""

    text: str
    notes: tuple[Note, ...] = ()
