"""All that a house's file may hold, declared once.

The checker, the commented example, the questions of the command, the page that explains the file and what is shown
where all come from here. Limits and targets by malt have tables of their own, ``limits`` and ``malts``, whose keys are
those of ``calculators.rules``.
"""

from ..asking.declare import Number
from ..sheets import find_sheet
from .declare import Field, Section
from .safety import SAFETY_SECTIONS
from .shown_on import (
    BOX,
    DRUM,
    DRUM_SESSIONS,
    EXERCISES,
    FLOOR,
    FLOOR_SESSIONS,
    INTAKE,
    KILN,
    PROCEDURES,
    SAFETY,
    SIGN_OFF,
    STEEP,
    STEEP_SESSIONS,
    STORE,
)

FORMAT = 1
"""The format of the file. What changes the meaning of a key needs the next number."""

MOST = 60
"""Entries of one section."""


def _as_asked(
    sheet: str, question: str, ask: str, name: str, unit: str, example: str, *also: str,
    works: tuple[float, float] | None = None,
) -> Field:  # fmt: skip
    """A number with the bounds that a sheet has for its question, within those of a works where it names some."""
    found = find_sheet(sheet).question(question)
    if not isinstance(found, Number):
        raise TypeError(f"{sheet} asks for no number {question}")
    low, high = works or (found.low, found.high)
    low, high = max(low, found.low), min(high, found.high)
    return Field(name, ask, "number", unit, low, high, example=example, fills=(question, *also))


def _name(ask: str, example: str) -> Field:
    return Field("name", ask, example=example, longest=40, needed=True)


def _charge(example: str, *also: str) -> Field:
    ask = "What is its usual charge of barley?"
    return _as_asked("moisture-target", "barley_kg", ask, "charge_kg", "kg", example, *also, works=(20, 300_000))


def _area(example: str) -> Field:
    return Field("area_m2", "What is its area?", "number", "m2", 0.5, 5000, example=example)


_HOUSE = Section(
    "house", "The house", "What is the house called, and where is it?",
    (
        Field("name", "What is the house called?", example="The example maltings", longest=60, in_box=False),
        Field("address", "What is said on the telephone when they ask where you are?",
              example="Maltings by the tidal river, gate 2", longest=200),
        Field("gate", "Where does somebody wait for the crew?", example="gate 2, by the weighbridge"),
        Field("meeting", "Where does everybody meet?", example="under the clock"),
        Field("heads", "Who counts heads, by office?", example="shift lead", longest=60),
        Field("dates", "How are days written?", "choice", options=("29 Nov 2026", "2026-11-29", "29.11.2026"),
              example="29 Nov 2026", in_box=False),
        Field("months", "How are the months called here? Twelve short names.", "months",
              example="Jan Feb Mar Apr May Jun Jul Aug Sep Oct Nov Dec", in_box=False),
        Field("thermometers", "What do the thermometers read?", "choice", options=("C", "F"), example="C",
              in_box=False),
        Field("scales", "What does the barley scale read?", "choice", options=("kg", "t", "lb"), example="kg",
              in_box=False),
        Field("office", "Who approves papers, by office?", example="head of malting", longest=60,
              in_box=False),
        Field("cover", "What stands below the name on the cover of the printed book?",
              example="The book of the steep house", in_box=False),
    ),
    (*PROCEDURES, *SAFETY), many=False,
)  # fmt: skip

_PLANT = (
    Section(
        "steep", "Steeps", "Which steeps are there?",
        (
            _name("What is it called?", "Steep 2"),
            _charge("6000", "grain_kg"),
            _as_asked("steep-oxygen", "water_m3", "How much water is in it at an immersion?", "water_m3", "m3", "8",
                      works=(0.02, 600)),
            _as_asked("steep-timing", "suction_m3_h_t", "How much air is drawn through in a rest, a tonne of barley?",
                      "suction_m3_h_t", "m3/h t", "60"),
            Field("air", "How does air get in?", example="ring at the bottom, suction below the screen"),
            Field("drains_to", "Where does its water go?", example="pit below, then the screen"),
        ),
        (*STEEP, *STEEP_SESSIONS, *EXERCISES, *SIGN_OFF), help="procedures/filling-the-steep",
    ),
    Section(
        "floor", "Floors", "Which germinating floors are there?",
        (_name("What is it called?", "Floor 1"), _area("80"), _charge("6000"),
         Field("air", "How does air get in?", example="six windows to the river")),
        (*FLOOR, *FLOOR_SESSIONS, *EXERCISES, *SIGN_OFF), help="procedures/floor-germination",
    ),
    Section(
        "drum", "Drums", "Which drums are there?",
        (_name("What is it called?", "Drum 1"), _charge("6000"),
         Field("air", "Where does its air come from and go to?", example="from the north wall, out over the roof")),
        (*DRUM, *DRUM_SESSIONS, *EXERCISES, *SIGN_OFF), help="procedures/drum-germination",
    ),
    Section(
        "box", "Boxes", "Which germinating boxes are there?",
        (_name("What is it called?", "Box 1"), _area("30"), _charge("6000"),
         Field("air", "Where does its air come from and go to?", example="from below the floor of the box")),
        (*BOX, "training/session-16-box", *EXERCISES), help="procedures/box-germination",
    ),
    Section(
        "kiln", "Kilns", "Which kilns are there?",
        (_name("What is it called?", "Kiln 1"), _area("40"), _charge("6000")._replace(fills=()),
         Field("fired_by", "What is it fired by?", example="gas, through a heat exchanger")),
        KILN, help="procedures/kiln-hand-over",
    ),
)  # fmt: skip

_USUAL = (
    Section(
        "water", "Water by season", "How cold is the water, by season?",
        (
            _name("Which season or source?", "August"),
            _as_asked("steep-timing", "water_temp_c", "How warm does it come?", "temp_c", "C", "18", "usual_water_c",
                      "mains_c"),
            Field("kind", "What is it like?", example="soft, from the river"),
        ),
        (*STEEP, *STEEP_SESSIONS, *EXERCISES), help="reference/adapting",
    ),
    Section(
        "plan", "Usual plans", "Which steep plans are usual?",
        (
            _name("What is the plan called?", "Spring plan"),
            Field("stages", "Hours wet and dry by turns?", "stages", example="8 8 8 12 3", fills=("stages",)),
            Field("used", "When is it used?", example="water from 10 to 15 °C"),
        ),
        (*STEEP[:2], *STEEP_SESSIONS, *EXERCISES), help="procedures/steeping",
    ),
    Section(
        "barley", "Usual barley", "Which barley is usual?",
        (
            _name("What is it called?", "Spring barley"),
            _as_asked("moisture-target", "barley_moisture", "How moist is it?", "barley_moisture", "%", "12"),
            _as_asked("steep-timing", "corn_weight_g", "What do 1,000 corns weigh?", "corn_weight_g", "g", "45"),
            _as_asked("steep-plan", "water_sensitivity", "How sensitive is it to water?", "water_sensitivity",
                      "points", "15"),
        ),
        (*INTAKE, *STORE, *STEEP[:2], *EXERCISES), help="procedures/germination-test",
    ),
    Section(
        "basket", "Baskets", "Which baskets are weighed?",
        (
            _name("What is it called?", "Basket A"),
            _as_asked("sample-basket", "basket_g", "What does it weigh, empty and wet?", "basket_g", "g", "84"),
            _as_asked("sample-basket", "sample_g", "How much barley goes into it?", "sample_g", "g", "100"),
        ),
        (*STEEP, *STEEP_SESSIONS), help="procedures/measuring-moisture",
    ),
)  # fmt: skip

_PAPERS = (
    Section(
        "paper", "Papers under control", "Which procedures, record sheets and cards have a number?",
        (
            Field("page", "Which page of the book is it?", "page", example="procedures/steeping", needed=True),
            Field("number", "What is its number?", example="P-05", longest=20),
            Field("version", "Which version?", example="3", longest=12),
            Field("date", "Since when does it hold?", "date", example="2026-03-01"),
            Field("office", "Who approved it, by office?", example="head of malting", longest=60),
            Field("review", "By when is it read again?", "date", example="2027-03-01"),
            Field("assesses", "Which office may assess the job?", example="head of malting", longest=60),
        ),
        ("the page that it names", "house/papers", *SIGN_OFF),
    ),
)  # fmt: skip

SECTIONS: tuple[Section, ...] = (_HOUSE, *_PLANT, *_USUAL, *SAFETY_SECTIONS, *_PAPERS)
"""In the order in which they are asked."""

BY_ID = {one.id: one for one in SECTIONS}
VESSELS = ("steep", "floor", "drum", "box", "kiln")
"""The sections that name vessels and floors, in the order of the work."""


def sections_on(page: str) -> tuple[Section, ...]:
    """The sections that show on a page, by its address."""
    return tuple(one for one in SECTIONS if page in one.shows)
