"""What may be written into the day-book: the kinds of entry and their questions, declared once.

The forms, the reading of what was typed, the columns of the CSV file, the schema of the JSON file and the page that
documents both are made from this. A question that two kinds share has one id and means one thing.

Gas readings are text: they are logged as the meter said them, and nothing here judges them.
"""

from __future__ import annotations

from typing import NamedTuple

from ...asking.declare import Choice, Clock, Number, Option, Question, Table, Text
from ...asking.tally import Tally
from ...models import bounds as limits
from ...models.bed import floor, humid_air
from ...models.bounds import Bounds
from ...models.counts import acrospire
from ...rules import drum as drum_rules
from ...rules.replan.faults import MOST_HOURS
from ...sheets.cast_decision import chitted, counted
from ...sheets.readiness import rub
from ...sheets.sample_basket import gross_now_g
from ...words.questions.analysed import (
    colour_ebc,
    extract_basis,
    extract_percent,
    friability_percent,
    homogeneity_percent,
    laboratory,
    nitrogen_percent,
    soluble_ratio_percent,
)
from ...words.questions.plan import water_sensitivity as asked_sensitivity
from ...words.questions.shared import (
    barley_kg,
    barley_moisture,
    basket_g,
    corn_weight_g,
    drained,
    malt_moisture,
    number,
    sample_g,
    stages,
    target_moisture,
    water_temp_c,
)
from ...words.replan import FAULT_OPTIONS, WAY_OPTIONS
from ...words.tallies import ACROSPIRES, CHITS

WITHDRAWN = "withdrawn"
MALT = "malt"
WET, REST = "wet", "rest"
DRAINED, FILLED = "drained", "filled"
FLOOR, DRUM, BOX = "floor", "drum", "box"
TURNINGS = ("turned", "drum")
"""The lines that say that a bed was turned, by hand and by machine: either counts, whichever button was pressed."""

LEAVES = "to-kiln"
QUICK = "quick"
OVER = "over"
"""What a fault’s line says of it where it is no more."""

LONGEST_BATCH, LONGEST_WHO, LONGEST_REMARK = 40, 40, 2000


class EntryKind(NamedTuple):
    """One kind of entry: its id, the short label of its button, its questions and one line of hint.

    ``by_hand`` is false for kinds that the page writes by itself. ``begins`` is true for the kind that begins a batch.
    ``says`` is true for a kind whose remark is all that it says. ``drafted`` is false for a kind of which nothing is
    kept on the device before it is written. ``first`` are the questions that its form asks before the others,
    ``usual`` those whose answers a house keeps as its usual ones, ``anew`` those that are measured each time and never
    taken over from another batch. ``tallies`` are counters to tap.
    """

    id: str
    label: str
    questions: tuple[Question, ...]
    hint: str
    by_hand: bool = True
    begins: bool = False
    says: bool = False
    drafted: bool = True
    first: tuple[str, ...] = ()
    usual: tuple[str, ...] = ()
    anew: tuple[str, ...] = ()
    tallies: tuple[Tally, ...] = ()

    def question(self, question_id: str) -> Question | None:
        """The question of that id, or None."""
        return next((one for one in self.questions if one.id == question_id), None)


def _free(question: Number) -> Number:
    """The question as one that may stay blank, without an example."""
    return question._replace(optional=True, default="")


_COUNT = Number("corns", "Corns", "", 0, 2000, example="20", whole=True)
_SHARE = Bounds(0.0, 100.0)

barley = Text("barley", "Barley", 60, "Its name, as on the papers.", example="two-row spring barley")
lot = Text("lot", "Barley lot", 40, "The silo or the delivery: fits are kept by lot and season.", example="lot 3")
season = Text("season", "Harvest", 20, "The year it was cut, such as 2026.", example="2026")
energy_grown = Number(
    "energy_grown", "Grown in the 4 ml test", "", 0, 12_000, "All dishes together.", optional=True, whole=True
)
energy_sown = Number("energy_sown", "Sown in it", "", 1, 12_000, optional=True, whole=True)
capacity_percent = number("capacity_percent", "Capacity", "%", _SHARE, "Corns that live, asleep or not.")
water_sensitivity = asked_sensitivity._replace(hint="")
vessel = Choice(
    "vessel",
    "It goes to",
    (Option(FLOOR, "Floor"), Option(DRUM, "Drum"), Option(BOX, "Box")),
    "Where it will grow.",
    default=FLOOR,
)
stage = Choice("stage", "What begins", (Option(WET, "Water on"), Option(REST, "Air rest")), example=WET)
ended = Choice(
    "ended",
    "How it ended",
    (Option(DRAINED, "Drained"), Option(FILLED, "Filled again")),
    "Drained: the immersion is over. Filled: the rest is over.",
    example=DRAINED,
)
gross_g = gross_now_g._replace(id="gross_g", label="Basket and grain", hint="Weighed together, as it hangs.")
moisture = number("moisture", "Moisture", "%", limits.STEEPED_MOISTURE, "Of the grain as it is now.", example="43.5")
method = Choice(
    "method",
    "How it was found",
    (
        Option("oven", "Oven"),
        Option("meter", "Moisture meter"),
        Option(QUICK, "Quick way, corrected"),
        Option("hand", "By hand and eye"),
    ),
    default="oven",
)
bottom_c = number("bottom_c", "Bottom", "C", floor.PIECE_C, "Right down on the floor, or air-on side.", example="16.8")
top_c = number("top_c", "Top", "C", floor.PIECE_C, "A few centimetres under the surface.", example="15.2")
room_c = number("room_c", "Room", "C", floor.ROOM_C)
depth_cm = number(
    "depth_cm", "Depth", "cm", Bounds(floor.DEPTH_CM.low, 200.0), "Of the levelled bed; in a box a metre is usual."
)
water_l = number("water_l", "Water", "L", Bounds(0.1, 100_000.0), "What went on, all of it.", example="120")
drum_turns = number(
    "drum_turns", "Turns", "", Bounds(0.25, 1000.0), "Whole turns of the drum, or runs of the screws.", example="2"
)
drum_minutes = number("drum_minutes", "Turned for", "min", Bounds(0.5, 1440.0))
air_on_c = number("air_on_c", "Air on", "C", humid_air.AIR_C, "As it comes to the bed.", example="14")
air_off_c = number("air_off_c", "Air off", "C", humid_air.AIR_C, "As it leaves the grain.", example="16.5")
air_on_rh = number("air_on_rh", "Humidity of the air on", "%", humid_air.AIR_RH, "Relative humidity there.")
fan = Choice(
    "fan",
    "Fan",
    (Option(drum_rules.RUNNING, "Running"), Option(drum_rules.STOPPED, "Stopped")),
    "Of the drum or box, with grain in.",
    example=drum_rules.RUNNING,
)
counts = Table(
    "counts",
    "Corns by acrospire length",
    (_COUNT,),
    min_rows=len(acrospire.CLASS_NAMES),
    max_rows=len(acrospire.CLASS_NAMES),
    row_names=acrospire.CLASS_NAMES,
    hint="Length in parts of the corn. 0 where there are none.",
    example="1; 3; 9; 84; 3",
)
gas_meter = Text("gas_meter", "Which meter", 60, "Its number, and what it reads.", example="CO2 meter 2")
gas_where = Text("gas_where", "Held where", 80, "At which height, from outside.", optional=True)
gas_reading = Text("gas_reading", "Reading", 40, "As the meter shows it.", example="0.31")
gas_unit = Text("gas_unit", "Unit", 20, "As the meter shows it, such as % CO2 or ppm.", example="% CO2")
sheet = Text("sheet", "Sheet", 60, "Id of the sheet that answered.", example="steep-timing")
link = Text("link", "Link", 4000, "Opens the sheet with the same numbers.", optional=True)
answers = Text("answers", "Answers", 2000, "What it answered then.", example="Drain at: 14:10")
green_malt_kg = number(
    "green_malt_kg", "Green malt", "kg", limits.WEIGHT_KG, "As it leaves for the kiln.", example="8400"
)

fault = Choice("fault", "What left the plan", FAULT_OPTIONS, example="blower")
fault_hours = number("fault_hours", "For how long", "h", Bounds(0.5, MOST_HOURS), "As far as is known.", example="4")
fault_now = Choice(
    "fault_now",
    "How it is now",
    (Option("stands", "It stands so"), Option(OVER, "It is over")),
    "Over: the fan runs again, it smells fresh again.",
    example="stands",
    optional=True,
)
way = Choice("way", "Which way", WAY_OPTIONS, "What it puts first.", example="target", optional=True)
hold_c = number("hold_c", "Keep the bed at", "C", floor.PIECE_C)
load_at = Clock("load_at", "Load on the kiln at", "With its date.", optional=True)
told = Text(
    "told",
    "Who was told",
    120,
    "Only who was really told, and by whom.",
    example="shift lead",
    optional=True,
    in_view=True,
)
to_whom = Text("to_whom", "Taken over by", 40, "Who said it back.", example="CD")
said_back = Choice(
    "said_back",
    "Said back",
    (Option("yes", "Yes, all of it"), Option("no", "No")),
    "In their own words.",
    example="yes",
)
as_written = Choice(
    "as_written",
    "How it is",
    (Option("yes", "As the book says"), Option("no", "Otherwise: write what")),
    "Look from where nobody has to lean or reach.",
    example="yes",
)

KINDS: tuple[EntryKind, ...] = (
    EntryKind(
        "start",
        "Batch begun",
        (
            barley,
            lot,
            season,
            barley_kg,
            barley_moisture,
            water_temp_c._replace(label="Water temperature, expected"),
            target_moisture,
            vessel,
            _free(basket_g),
            _free(sample_g),
            stages._replace(label="Plan of the steep", optional=True, example="8; 8; 8; 12; 3"),
            _free(corn_weight_g),
            energy_grown,
            energy_sown,
            _free(capacity_percent),
            _free(water_sensitivity),
        ),
        "What is known before the water goes on. All of it can be put right later.",
        begins=True,
        first=("stages",),
        usual=("stages", "basket_g", "sample_g", "barley", "target_moisture", "vessel"),
        anew=("barley_moisture", "water_temp_c"),
    ),
    EntryKind(
        "stage-begun",
        "Stage begun",
        (stage, _free(water_temp_c)),
        "Water on: when it covers the barley. Air rest: when the drain is open.",
    ),
    EntryKind("stage-ended", "Stage ended", (ended,), "Drained ends an immersion; a rest begins with it."),
    EntryKind("water", "Water", (water_temp_c,), "Measured in the steep."),
    EntryKind(
        "basket",
        "Basket weighed",
        (
            gross_g,
            drained._replace(default="drained"),
            _free(basket_g)._replace(hint="With the first weighing, where the start does not say it."),
            _free(sample_g)._replace(hint="Likewise, once a batch."),
        ),
        "Drained as long each time.",
    ),
    EntryKind("moisture", "Moisture", (moisture, method), "Of a sample."),
    EntryKind("chits", "Chits", (chitted, counted), "Two hundred corns from three depths.", tallies=(CHITS,)),
    EntryKind("cast", "Cast", (_free(moisture),), "When the first grain lies on the floor, in the drum or in the box."),
    EntryKind(
        "bed",
        "Bed",
        (bottom_c, top_c, _free(room_c), _free(depth_cm)),
        "The same spot, the same way, each round. In an air rest: the grain, low and high.",
    ),
    EntryKind("turned", "Turned", (_free(depth_cm),), "When the piece was turned, and how deep it lies now."),
    EntryKind("sprinkled", "Sprinkled", (water_l,), "Turn it in afterwards."),
    EntryKind(
        "drum",
        "Drum or box turned",
        (_free(drum_turns), _free(drum_minutes)),
        "Turns of the drum, runs of the screws, or minutes, whichever is counted.",
    ),
    EntryKind(
        "air",
        "Air of drum or box",
        (fan, _free(air_on_c)._replace(in_view=True), _free(air_off_c)._replace(in_view=True), _free(air_on_rh)),
        "Read from outside, at the panel or the fixed probes.",
    ),
    EntryKind(
        "readiness",
        "Readiness",
        (counts, rub),
        "A hundred corns from three places, split along the back.",
        tallies=(ACROSPIRES,),
    ),
    EntryKind(
        "gas",
        "Gas reading",
        (gas_meter, gas_reading, gas_unit, gas_where),
        "Logged as read. The book says nothing about it: the meter, the permit and a competent person do.",
        drafted=False,
    ),
    EntryKind("fault", "Off the plan", (fault, _free(fault_hours), fault_now, told), "People first: then write it."),
    EntryKind(
        "plan",
        "Plan changed",
        (
            way,
            told,
            stages._replace(label="Plan of the steep", optional=True, example="8; 8; 8; 12; 3"),
            _free(hold_c),
            load_at,
        ),
        "The whole steep from its first water; of a bed its warmth and its hour at the kiln. From now on the next step "
        "goes by it. When a bed is turned goes by what is read.",
        first=("told",),
    ),
    EntryKind("looked", "Looked at", (as_written,), "Taking over: every batch is looked at before it is taken."),
    EntryKind("handed-over", "Handed over", (to_whom, said_back), "After the look. What is left to say is the remark."),
    EntryKind("answer", "Answer of a sheet", (sheet, link, answers), "Kept by the page.", by_hand=False),
    EntryKind("remark", "Remark", (), "Anything: smell, look, who was told.", says=True),
    EntryKind(
        LEAVES,
        "To the kiln",
        (_free(green_malt_kg), _free(moisture)),
        "When the last of it leaves. Weight and moisture give the loss up to here.",
    ),
    EntryKind(
        MALT,
        "Malt analysed",
        (
            _free(friability_percent)._replace(in_view=True),
            _free(extract_percent)._replace(in_view=True),
            extract_basis,
            _free(malt_moisture)._replace(in_view=True, hint="As on the sheet."),
            _free(nitrogen_percent)._replace(in_view=True),
            _free(colour_ebc)._replace(in_view=True),
            _free(homogeneity_percent),
            _free(soluble_ratio_percent),
            laboratory,
        ),
        "The laboratory’s or the customer’s sheet, written to the batch it is of. Leave blank what is not on it.",
    ),
    EntryKind(WITHDRAWN, "Struck out", (), "Strikes an entry out without a new value.", by_hand=False),
)

KIND = {kind.id: kind for kind in KINDS}


def question_ids() -> tuple[str, ...]:
    """The ids of all questions, in the order of the kinds, each once: the value columns of the CSV file."""
    return tuple(dict.fromkeys(question.id for kind in KINDS for question in kind.questions))


def question_of(question_id: str) -> Question:
    """The first question declared with that id.

    Raises
    ------
    LookupError
        When no kind asks it.
    """
    for kind in KINDS:
        found = kind.question(question_id)
        if found is not None:
            return found
    raise LookupError(f"no kind of entry asks {question_id}")
