"""What a source is, and how its standing is said."""

from typing import Literal, NamedTuple

Standing = Literal["read", "abstract", "in a copy", "second-hand", "not citable", "not read"]


class Source(NamedTuple):
    """A published work; ``standing`` says whether it was read here, ``address`` is its publisher's record of it.

    Where the record itself was not seen, the address is the publisher's door.
    Where only a copy was read, the standing says so and the address is still the publisher's. One that nobody can find
    again from what was noted is "not citable".
    """

    cited: str
    standing: Standing
    note: str = ""
    address: str = ""


_WORDS: dict[Standing, str] = {
    "read": "read",
    "abstract": "abstract read",
    "in a copy": "read in a copy",
    "second-hand": "second-hand: read in a work that quotes it",
    "not citable": "not citable: what was read cannot be found again from this",
    "not read": "not read",
}


def standing_words(source: Source) -> str:
    """How the standing is said to a reader."""
    return _WORDS[source.standing] + (f"; {source.note}" if source.note else "")
