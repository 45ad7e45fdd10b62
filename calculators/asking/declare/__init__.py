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

from .answers import Answer, Heading, Listing, Within
from .outcome import LEVELS, Found, GoOn, Level, Note, Outcome, Refusal, Rows, Value, Worked
from .pictures import (
    Axis,
    Band,
    Bar,
    Bars,
    Chart,
    Dots,
    Drawing,
    Line,
    Mark,
    Picture,
    Shade,
    Shape,
    Span,
    Spans,
    Written,
)
from .questions import (
    SHARED_HOURS,
    Cell,
    Choice,
    Clock,
    Either,
    Number,
    Option,
    Question,
    Sharing,
    Table,
    Text,
    is_private,
)
from .sheet import AskAgain, Belongs, First, Sheet, Values, is_blank_by_choice, shared_by

__all__ = [
    "LEVELS",
    "SHARED_HOURS",
    "Answer",
    "AskAgain",
    "Axis",
    "Band",
    "Bar",
    "Bars",
    "Belongs",
    "Cell",
    "Chart",
    "Choice",
    "Clock",
    "Dots",
    "Drawing",
    "Either",
    "First",
    "Found",
    "GoOn",
    "Heading",
    "Level",
    "Line",
    "Listing",
    "Mark",
    "Note",
    "Number",
    "Option",
    "Outcome",
    "Picture",
    "Question",
    "Refusal",
    "Rows",
    "Shade",
    "Shape",
    "Sharing",
    "Sheet",
    "Span",
    "Spans",
    "Table",
    "Text",
    "Value",
    "Values",
    "Within",
    "Worked",
    "Written",
    "is_blank_by_choice",
    "is_private",
    "shared_by",
]
