"""What a practice run is made of: the scene, what may be done, the book, and the debrief."""

# No annotations from the future: as text, those of named tuples cost the browser time at each cold start.
from typing import NamedTuple

MODEL = "A teaching model. Invented barley; no reading here is of a real batch."
"""What stands over every scene and key."""


class Ask(NamedTuple):
    """A value that the learner expects before a reading is taken.

    Attributes
    ----------
    what : str
        In words, such as ``moisture``.
    unit : str
        Its unit.
    low, high : float
        What can be typed.
    """

    what: str
    unit: str
    low: float
    high: float


class Offer(NamedTuple):
    """One thing that may be done now.

    Attributes
    ----------
    code : str
        The move, as it goes into the list of moves.
    words : str
        What the button says.
    minutes : int
        What it takes [min]; 0 for waits, whose end is not known.
    big : bool
        Whether it is one of the two that stand first.
    ask : Ask or None
        What is to be typed before it: the move then goes on with ``~`` and the value.
    number : Ask or None
        A number that belongs to the move itself, as a depth; it follows the code.
    orders : tuple of str
        Of a hand-over: what the next shift can be told where the batch is, as codes.
    """

    code: str
    words: str
    minutes: int = 0
    big: bool = False
    ask: Ask | None = None
    number: Ask | None = None
    orders: tuple[str, ...] = ()


class Line(NamedTuple):
    """A line of the practice book: the minute of the run, what was written, by whom (``you`` or ``next shift``)."""

    minute: int
    words: str
    by: str = "you"


class Scene(NamedTuple):
    """What the learner has before them.

    Attributes
    ----------
    minute : int
        Since the first water of the plan [min].
    clock : str
        Such as ``Day 1, 14:00``.
    place : str
        Where the learner stands.
    see : str
        Under 60 words.
    drawing : str
        Id of a drawing of the handbook.
    offers : tuple of Offer
        What may be done; two are big. Blank when it has ended.
    last : Line or None
        The last line of the book.
    ended : str
        Blank, or how it ended: ``kiln``, ``piece``, ``stopped``, ``never`` or ``time``.
    page : str
        Page that teaches what is before them.
    prompt : str
        What the page says to do now: only on level 1, and in the words of the good hand on level 0.
    """

    minute: int
    clock: str
    place: str
    see: str
    drawing: str
    offers: tuple[Offer, ...]
    last: Line | None
    ended: str = ""
    page: str = ""
    prompt: str = ""


class Read(NamedTuple):
    """A reading of the run: minute, which (its code), value, its doubt (four in five), what was expected, the truth.

    ``value`` is None where a word was read; ``words`` is what was said of it. ``sure`` is how far off the learner
    thought to be, if it was typed. ``more`` are all the numbers that it showed.
    """

    minute: int
    code: str
    value: float | None
    doubt: float
    words: str
    expected: float | None = None
    sure: float | None = None
    truth: float | None = None
    more: tuple[float, ...] = ()


class Point(NamedTuple):
    """Where two courses parted: when, what was known then, what each did, what it did to the grain, which page.

    ``before`` is the minute before which one goes back to do it otherwise.
    """

    minute: int
    known: str
    you: str
    good: str
    did: str
    page: str
    before: int


class Course(NamedTuple):
    """A course for the chart: hours, moisture [%], warmth [C], lists of one length."""

    hours: list[float]
    moisture: list[float]
    temps_c: list[float]


class Grain(NamedTuple):
    """What the grain came to: all as the hidden barley has it.

    Attributes
    ----------
    moisture : float
        At the cast, drained [%]; or now.
    chit : float
        Chitted at the cast [%]; or now.
    even : float
        Corns in the two neighbouring classes of acrospire that hold most [%].
    ready, overshot : float
        Acrospires at three quarters and beyond, and overshot [%].
    loss : float
        Dry matter lost [%].
    at_kiln : float
        Moisture as it was loaded, or now [%].
    turned : int
        Turnings since the cast, the broken couch among them.
    bed_h : float
        Hours from the cast to the load, or to now; 0 where it was not cast.
    """

    moisture: float
    chit: float
    even: float
    ready: float
    overshot: float
    loss: float
    at_kiln: float
    turned: int
    bed_h: float


class Debrief(NamedTuple):
    """What is said at the end, or when a trainer asks.

    Attributes
    ----------
    truth, good : Course
        The hidden course of the learner's batch, and that of the good hand's on the same number.
    reads : tuple of Read
        The learner's readings.
    points : tuple of Point
        Three turning points, or fewer where nothing parted.
    people, grain, book, guessing : str
        The four lines.
    hidden : tuple of (str, str, str)
        Each hidden thing: what, its value in this number, and ``fitted``, ``assumed`` or ``made up for teaching``.
    back : tuple of (str, int, str)
        Where to go back to: clock, minute, and the moves that lead there.
    faults : tuple of str
        What was wrong, in words; blank when nothing was.
    yours, theirs : Grain
        What the grain came to.
    good_moves : str
        The good hand's own run.
    target : float
        Moisture wanted at the cast [%].
    """

    truth: Course
    good: Course
    reads: tuple[Read, ...]
    points: tuple[Point, ...]
    people: str
    grain: str
    book: str
    guessing: str
    hidden: tuple[tuple[str, str, str], ...]
    back: tuple[tuple[str, int, str], ...]
    faults: tuple[str, ...]
    yours: Grain
    theirs: Grain
    good_moves: str
    target: float


class Played(NamedTuple):
    """What ``play`` gives: the scene, all lines of the book, and the debrief where it was asked for or it has ended.

    ``moves`` are the moves as they were understood; ``left_out`` those that meant nothing or could not be done.
    """

    scene: Scene
    book: tuple[Line, ...]
    debrief: Debrief | None
    moves: str
    left_out: tuple[str, ...] = ()
