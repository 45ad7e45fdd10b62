"""A sheet: its questions, its working, its answers."""

# No annotations from the future: as text, those of so many named tuples cost the browser 30 ms at each cold start.
from collections.abc import Callable
from typing import Any, NamedTuple

from ..tally import Tally
from .answers import Answer, Listing
from .outcome import Outcome, Refusal
from .questions import Either, Question, Sharing, is_private


class First(NamedTuple):
    """What is answered before the rest is asked, from these questions alone, whatever else is blank or wrong.

    ``work`` takes just those questions by name, None for one that is blank or cannot be read, of a table its rows with
    None for such a cell. It returns an Outcome or a Refusal, or None to go on. What decides about people belongs here:
    a figure still missing must not hide it.

    ``worst`` names numbers, of a table its columns, of which more is worse. One that cannot be read or is over its
    limits is given as the most that it may mean, infinite where nobody can say: "15,000", "> 5 %", "OL".
    """

    questions: tuple[str, ...]
    work: Callable[..., Outcome | Refusal | None]
    worst: tuple[str, ...] = ()


class Belongs(NamedTuple):
    """To which question a limit of a model belongs, where the model calls the value otherwise.

    The first of ``questions`` that was answered is asked again. ``said`` names the value in our words, as the subject
    of a sentence: "the air off the bed". With no ``said`` the value is what the question itself was answered with.
    """

    parameter: str
    questions: tuple[str, ...]
    said: str = ""
    unit: str = ""


class Sheet(NamedTuple):
    """A calculator: questions, working, answers.

    ``work`` takes the questions by name (None for an optional one left blank) and returns an
    Outcome or a Refusal. ``first`` answers before the rest is asked. ``guarded`` sheets (gas, vessels, lifting) are
    never remembered and never keep an old answer in view. ``needs`` names the packages that must be there first.
    ``belongs`` says which question a model's limit is asked back beside, where their names differ.
    ``tallies`` are counters to tap that count into its questions. What is printed of one ``for_wall`` is its plan: the
    leading figures and the tables, without the questions and the working.
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
    belongs: tuple[Belongs, ...] = ()
    tallies: tuple[Tally, ...] = ()
    for_wall: bool = False

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


def shared_by(sheet: Sheet, question: Question) -> Sharing:
    """How far the answer is shared with other sheets; those about gas, vessels and lifting take and give nothing."""
    return "" if sheet.guarded or is_private(question) else question.shared


def is_blank_by_choice(sheet: Sheet, question: Question) -> bool:
    """Whether a question may stay blank: optional, or one of alternatives."""
    return question.optional or any(question.id in group for either in sheet.either for group in either.groups)


Values = dict[str, Any]
"""Question id -> value in our unit: float, word, text, datetime, tuple of rows, or None."""
