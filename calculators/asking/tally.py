"""A counter to tap: one button a class, each with its drawing, that counts into the questions of a form."""

# No annotations from the future: as text, those of named tuples cost the browser time at each cold start.
from typing import NamedTuple


class Stroke(NamedTuple):
    """One line of a drawing: its style, its path, and how much of its length is drawn, from 0 to 1."""

    style: str
    path: str
    share: float = 1.0


class Class(NamedTuple):
    """One class of what is counted.

    ``adds`` are the questions that one tap counts into; ``counts/2`` is the third row of the table ``counts``.
    """

    label: str
    adds: tuple[str, ...]
    picture: tuple[Stroke, ...] = ()


class Tally(NamedTuple):
    """A counter: what is counted, its classes in the order of the buttons, and how many are wanted."""

    id: str
    label: str
    classes: tuple[Class, ...]
    wanted: int
    view_box: str = "0 0 120 60"
