"""What the declaration of a house's file is made of: sections, and the fields of a section."""

# No annotations from the future: as text, those of named tuples cost the browser time at each cold start.
from typing import Literal, NamedTuple

Kind = Literal["text", "number", "choice", "choices", "date", "months", "stages", "page"]
"""How a value is written: one line of text; a number in the field's unit; a word of a closed list; several of them; a
day as 2026-11-29; the twelve names of the months; hours wet and dry by turns; the address of a page of the book."""

LONGEST = 120
"""Letters of one line of text."""


class Field(NamedTuple):
    """One line of a house's file.

    ``ask`` is the question in plain words. ``low`` and ``high`` bound a number, inclusive. ``options`` are the words
    of a choice. ``fills`` are the questions of sheets that the value is offered to. ``needed`` is what an entry is
    called by: without it the rest means nothing. What is not ``in_box`` is used elsewhere and left out of the boxes.
    """

    id: str
    ask: str
    kind: Kind = "text"
    unit: str = ""
    low: float = 0.0
    high: float = 0.0
    options: tuple[str, ...] = ()
    example: str = ""
    fills: tuple[str, ...] = ()
    longest: int = LONGEST
    needed: bool = False
    in_box: bool = True


class Section(NamedTuple):
    """A table of a house's file, or with ``many`` a list of tables, each with its own heading.

    ``shows`` are the addresses of the pages on which it stands, ``help`` is the page that helps to answer. With
    ``safety`` people can be hurt by what is wrong in it: competent people read it before it is hung up.
    """

    id: str
    title: str
    ask: str
    fields: tuple[Field, ...]
    shows: tuple[str, ...]
    many: bool = True
    safety: bool = False
    help: str = ""

    @property
    def heading(self) -> str:
        """How its heading is written in the file."""
        return f"[[{self.id}]]" if self.many else f"[{self.id}]"

    def field(self, name: str) -> Field | None:
        """The field of that name, or None."""
        return next((one for one in self.fields if one.id == name), None)
