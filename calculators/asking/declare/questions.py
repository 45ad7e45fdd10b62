"""What a sheet asks."""

# No annotations from the future: as text, those of so many named tuples cost the browser 30 ms at each cold start.
from typing import Literal, NamedTuple

from .outcome import Refusal

Sharing = Literal["", "lot", "batch"]
"""How far a question means the same in every sheet that asks it, so that its answer is offered there: not at all; while
the barley is of one lot, which another answer ends; or while the work is at one batch. The id is then its one name."""

SHARED_HOURS = 12
"""An answer is offered to other sheets for so long [h]."""


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
    refuses: Refusal | None = None


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
    its place and is still to be filled in. With other row names they go by turns: what a row is
    follows from its place, and a blank one above a filled one is asked back.
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

    @property
    def by_turns(self) -> bool:
        """Whether the names of the rows take turns, so that a row left out would rename those below it."""
        return bool(self.row_names) and not self.fixed


Question = Number | Choice | Clock | Text | Table


class Either(NamedTuple):
    """Groups of questions of which exactly one group is answered, such as bed or barley weight.

    The questions inside are neither optional nor given a default by themselves.
    With ``required`` false, leaving all groups blank is fine.
    """

    groups: tuple[tuple[str, ...], ...]
    required: bool = True


def is_private(question: Question) -> bool:
    """Whether the answer goes into the working and nowhere else."""
    return isinstance(question, Choice) and question.private
