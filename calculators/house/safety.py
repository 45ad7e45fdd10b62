"""What a house says that people's lives hang on: alarms, calls, places, and what is looked for in a hurry."""

from ..rules.gases import GASES
from .declare import Field, Section
from .shown_on import FIRST_DAY, GAS, PROCEDURES, SAFETY

IN_IT = (
    "carbon dioxide", "too little oxygen", "grain that buries", "deep water", "moving parts", "electricity", "heat",
    "dust that explodes", "fumigant", "fire gases", "a fall",
)  # fmt: skip
"""What can be in a place."""

ROLES = (
    "emergency number", "trained rescue team", "first aider", "shift lead", "engineer", "poison line", "hospital",
    "eye hospital", "inspector", "electricity supplier", "river or water authority",
)  # fmt: skip
"""Who is called, by what they are: no name of a person stands in the file."""

THINGS = (
    "rescue ring", "reaching pole", "isolator", "stop for water", "stop for air", "eye wash", "shower", "extinguisher",
    "way out", "defibrillator", "oxygen for first aid", "first aid box", "spill kit", "gas meters", "telephone",
)  # fmt: skip
"""What is looked for in a hurry."""

KINDS_OF_PLACE = (
    "steep", "drum", "box", "floor", "kiln", "bin", "pit", "duct", "drain", "cellar", "tank", "conveyor", "other",
)  # fmt: skip

OXYGEN = "oxygen"
CELLS = (OXYGEN, *GASES)
"""What a cell of a meter is for."""

SAFETY_SECTIONS = (
    Section(
        "meter", "Gas meters", "Which gas meters are there?",
        (
            Field("name", "What is it called?", example="Meter 1", longest=40, needed=True),
            Field("kind", "Is it worn, or fixed to a wall?", "choice", options=("worn", "fixed"), example="worn"),
            Field("cells", "Which cells has it?", "choices", options=CELLS, example="oxygen, carbon-dioxide"),
            Field("at", "Where does it hang?", example="shift office, by the door"),
            Field("calibrated", "When was it last calibrated?", "date", example="2026-09-01"),
            Field("due", "When is it due again?", "date", example="2027-03-01"),
        ),
        (*SAFETY, *FIRST_DAY), safety=True, help="safety/carbon-dioxide",
    ),
    Section(
        "alarm", "Alarm steps", "At which readings do the meters sound?",
        (
            Field("gas", "Which gas?", "choice", options=CELLS, example="carbon-dioxide", needed=True),
            Field("at", "At which reading?", example="5000", kind="number", low=0, high=1_000_000),
            Field("unit", "In which unit?", "choice", options=("ppm", "%"), example="ppm"),
            Field("act", "What is done at it?", example="everybody out, upwind; call; count heads"),
        ),
        (*PROCEDURES, *SAFETY, *FIRST_DAY), safety=True, help="safety/carbon-dioxide",
    ),
    Section(
        "call", "Who is called", "Who is called, and on which number?",
        (
            Field("role", "Who is it?", "choice", options=ROLES, example="emergency number", needed=True),
            Field("number", "On which telephone number?", example="the number on our wall", longest=40),
            Field("channel", "On which radio channel?", example="channel 3", longest=40),
            Field("words", "In which words?", longest=200,
                  example="Person down in a vessel. Carbon dioxide. We are at …"),
            Field("minutes", "How long do they take to come?", "number", "min", 0, 600, example="25"),
            Field("brings", "What do they bring?", example="breathing apparatus, hoist"),
        ),
        (*PROCEDURES, *SAFETY, *FIRST_DAY), safety=True, help="safety/emergency",
    ),
    Section(
        "thing", "What is looked for in a hurry", "Where are rings, poles, isolators, showers, ways out?",
        (
            Field("kind", "What is it?", "choice", options=THINGS, example="rescue ring", needed=True),
            Field("at", "Where is it?", example="on the rail between the two steeps"),
            Field("place", "For which place? Blank for all.", example="Steep 2", longest=40),
        ),
        (*SAFETY, *FIRST_DAY), safety=True, help="safety/emergency",
    ),
    Section(
        "permit", "Permits by name", "Which permits are used here?",
        (
            Field("name", "What is it called?", example="Permit for vessels", longest=60, needed=True),
            Field("work", "For which work?", example="any part of a body past a rim, hatch or guard"),
            Field("office", "Who issues it, by office?", example="head of malting", longest=60),
        ),
        (*PROCEDURES, *SAFETY), safety=True, help="safety/confined-vessels",
    ),
    Section(
        "place", "Vessels, pits and low places", "Which vessels, pits and low places are there?",
        (
            Field("name", "What is it called? A steep or drum as above.", example="Steep 2", longest=40, needed=True),
            Field("kind", "What is it?", "choice", options=KINDS_OF_PLACE, example="steep"),
            Field("in_it", "What can be in it?", "choices", options=IN_IT, example="carbon dioxide, deep water"),
            Field("isolated", "How is it isolated from what moves and feeds?",
                  example="barley valve, water and air ring locked off", longest=200),
            Field("isolator", "Where is the isolator?", example="north wall, panel 4"),
            Field("keeps_running", "What keeps running in an emergency?", longest=200,
                  example="fresh-air blower for people"),
            Field("meter", "Which meter is used at it?", example="Meter 1", longest=40),
            Field("permit", "Under which permit is work on it done?", example="Permit for vessels", longest=60),
            Field("call", "What is said for this place?", example="We are at steep 2, north end", longest=200),
            Field("drill_done", "When was its last drill?", "date", example="2026-05-04"),
            Field("drill_due", "When is the next drill due?", "date", example="2027-05-04"),
        ),
        ("safety/emergency", "safety/index", *GAS), safety=True, help="safety/confined-vessels",
    ),
)  # fmt: skip
