"""What a sheet answers."""

# No annotations from the future: as text, those of so many named tuples cost the browser 30 ms at each cold start.
from typing import Literal, NamedTuple

from .outcome import Worked
from .questions import Option


class Within(NamedTuple):
    """What a figure can be, in nature or in a works, from ``low`` to ``high`` inclusive.

    A sum does not know where it stops being true. What comes out beyond is never shown: it is asked back beside the
    first question of ``ask`` that was answered, or refused where none is named.

    ``why`` says whence the edges are, as a sentence; ``instead`` what would make the figure possible.
    """

    low: float
    high: float
    why: str
    instead: str
    ask: tuple[str, ...] = ()


class Answer(NamedTuple):
    """One figure, word or clock time that a sheet gives.

    ``decimals`` is what the method supports; values keep full precision.
    With ``rounds_up`` a number is never shown as less than it is (minutes of a fan, say).
    A verdict is a word from ``words``; each word carries the sentence shown for it.
    ``worked`` says how the figure is found; a verdict is always found by rules.
    ``within`` says what a number can be; a test asks for it.
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
    within: Within | None = None
    gives: str = ""


class Heading(NamedTuple):
    """The head of one column of a table that a sheet gives."""

    id: str
    label: str
    unit: str = ""
    decimals: int = 0
    kind: Literal["number", "clock", "text"] = "number"
    within: Within | None = None


class Listing(NamedTuple):
    """A table that a sheet gives: its id, its title and its columns; ``on_card`` says whether a card carries it."""

    id: str
    label: str
    columns: tuple[Heading, ...]
    on_card: bool = True
