"""Charts and other pictures, as data; what draws them stands elsewhere."""

# No annotations from the future: as text, those of so many named tuples cost the browser 30 ms at each cold start.
from collections.abc import Sequence
from typing import Literal, NamedTuple


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


class Shape(NamedTuple):
    """One shape of a drawing: its path as SVG writes it, and the class that gives its look."""

    path: str
    style: str


class Written(NamedTuple):
    """Words at a place of a drawing."""

    text: str
    x: float
    y: float
    style: str = "label"


class Drawing(NamedTuple):
    """A drawing that follows its numbers, with those numbers as a table; 420 units wide."""

    id: str
    title: str
    summary: str
    height: float
    shapes: tuple[Shape, ...]
    words: tuple[Written, ...]
    headings: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]


Picture = Chart | Spans | Bars | Drawing
