"""Whether a batch has room in the drum, at the cast and fully grown."""

from __future__ import annotations

from ..asking.declare import Answer, AskAgain, Choice, Found, Note, Option, Outcome, Refusal, Sheet
from ..asking.figures import carried, few_digits, fixed, limits_said, plain_number
from ..models.bed import drum
from ..models.bounds import OutOfRange
from ..words import within
from ..words.cautions import NO_ENTRY
from ..words.questions.shared import barley_kg, bulk_density, number
from ..words.room import SLACK, most_said, most_shown

drum_diameter_m = number("drum_diameter_m", "Drum diameter", "m", drum.DIAMETER_M, "Inside.", example="2.8")
drum_length_m = number("drum_length_m", "Drum length", "m", drum.LENGTH_M, "Inside.", example="5.6")
ducts_m3 = number(
    "ducts_m3", "False floor and ducts", "m3", drum.DUCTS_M3, "What they take from the grain.", example="1.6"
)
ducts_lie = Choice(
    "ducts_lie",
    "Where they lie",
    (Option("under", "Under the grain, as a false floor"), Option("among", "Among the grain, as ducts")),
    "Only the depth rests on it.",
    default="under",
)
swelling_cast = number(
    "swelling_cast",
    "Swelling at the cast",
    "",
    drum.SWELLING,
    "Room it takes, dry = 1. Published: 1.2 to 1.45.",
    example="1.4",
)
swelling_grown = number(
    "swelling_grown",
    "Swelling fully grown",
    "",
    drum.SWELLING,
    "With its rootlets, dry = 1. About 2, from memory: measure your own.",
    example="2",
)
fill_limit_percent = number(
    "fill_limit_percent",
    "Your fill limit",
    "%",
    drum.FILL_LIMIT,
    "Of the room for grain, by the maker’s plate or the site’s engineer.",
    example="75",
)


def work(
    *,
    drum_diameter_m: float,
    drum_length_m: float,
    ducts_m3: float,
    ducts_lie: str,
    barley_kg: float,
    bulk_density: float,
    swelling_cast: float,
    swelling_grown: float,
    fill_limit_percent: float,
) -> Outcome | Refusal:
    """Compare the room that the grain takes with the room there is."""
    if swelling_grown < swelling_cast:
        raise AskAgain(
            "swelling_grown",
            f"{plain_number(swelling_grown)} is less than at the cast, {plain_number(swelling_cast)}. Growing "
            f"grain takes more room. Type a number from {plain_number(swelling_cast)} to "
            f"{plain_number(drum.SWELLING.high)}.",
        )
    whole = drum.drum_volume(diameter_m=drum_diameter_m, length_m=drum_length_m)
    cast, grown = (
        drum.grain_volume(barley_kg=barley_kg, bulk_density=bulk_density, swelling=s)
        for s in (swelling_cast, swelling_grown)
    )
    try:
        fill_cast, fill_grown = (drum.fill_percent(grain_m3=g, drum_m3=whole, ducts_m3=ducts_m3) for g in (cast, grown))
    except OutOfRange as limit:
        raise AskAgain(
            "ducts_m3",
            f"{plain_number(ducts_m3)} m³ leaves too little of a drum of {few_digits(whole)} m³. Type a number "
            f"from 0 to {limits_said(0.0, limit.high * 0.99)[1]} m³.",
        ) from None
    room = whole - ducts_m3
    if fill_grown > fill_limit_percent * SLACK:
        return _too_full(barley_kg, fill_cast, fill_grown, fill_limit_percent, room)
    below = ducts_m3 if ducts_lie == "under" else 0.0
    # Ducts among the grain lift its surface by their own room.
    among = ducts_m3 - below
    depth_cast, depth_grown = (
        drum.bed_depth(grain_m3=g + among, ducts_below_m3=below, diameter_m=drum_diameter_m, length_m=drum_length_m)
        for g in (cast, grown)
    )
    most = barley_kg * fill_limit_percent / fill_grown
    drum_text = (
        f"π × {plain_number(drum_diameter_m)}² / 4 × {plain_number(drum_length_m)} − {plain_number(ducts_m3)} = "
        f"{carried(room)} m³ of room"
    )
    found = (
        Found(
            "fill_percent_cast",
            fill_cast,
            f"{_grain(barley_kg, bulk_density, swelling_cast, cast)}; {drum_text}; 100 × {carried(cast)} / "
            f"{carried(room)} = {fixed(fill_cast, 0)} %",
        ),
        Found(
            "fill_percent_grown",
            fill_grown,
            f"{_grain(barley_kg, bulk_density, swelling_grown, grown)}; 100 × {carried(grown)} / {carried(room)} = "
            f"{fixed(fill_grown, 0)} %",
        ),
        Found("bed_depth_m", depth_cast, f"height of the segment of a circle that holds {fixed(cast, 1)} m³ of grain"),
        Found("bed_depth_grown_m", depth_grown, f"the same for {fixed(grown, 1)} m³"),
        Found("free_m3_cast", room - cast, f"{carried(room)} − {carried(cast)} = {fixed(room - cast, 1)} m³"),
        Found("free_m3_grown", room - grown, f"{carried(room)} − {carried(grown)} = {fixed(room - grown, 1)} m³"),
        Found(
            "most_barley_kg",
            most_shown(most),
            f"{plain_number(barley_kg)} kg × {plain_number(fill_limit_percent)} / {carried(fill_grown)} = "
            f"{fixed(most, 2)} kg; − {fixed(most - most_shown(most), 2)} kg to whole kilograms = "
            f"{fixed(most_shown(most), 0)} kg",
        ),
    )
    return Outcome(found, notes=(_GAS, NO_ENTRY, _LOAD))


def _grain(kg: float, density: float, swelling: float, volume: float) -> str:
    return (
        f"{plain_number(kg)} kg / {plain_number(density)} kg/m³ × {plain_number(swelling)} = "
        f"{carried(volume)} m³ of grain"
    )


def _too_full(kg: float, at_cast: float, grown: float, limit: float, room: float) -> Refusal:
    most = kg * limit / grown
    if at_cast > 100.0:
        start = f"The drum has {fixed(room, 1)} m³ of room and the grain needs more than that on the day of the cast."
    elif grown > 100.0:
        start = (
            f"The grain goes in at the cast ({fixed(at_cast, 0)} %) and has no room when it is grown "
            f"({fixed(grown, 0)} %)."
        )
    else:
        start = f"Fully grown it would fill {fixed(grown, 0)} % of the room; your limit is {plain_number(limit)} %."
    instead = most_said(
        most,
        "Fill at most {} kg of this barley, and put the rest elsewhere.",
        "It holds not a kilogram of this barley.",
    )
    return Refusal(
        f"This batch is too large for the drum. {start} A drum too full cannot mix: the grain mats, heats, and "
        f"strains the drive and the doors. {instead}",
        (NO_ENTRY, _LOAD),
    )


_GAS = Note(
    "danger",
    "The room left over the grain fills with carbon dioxide within minutes once the fan stands. It is no room "
    "for a person.",
)
_LOAD = Note(
    "notice",
    "What the drum, its bearings and the floor below can carry is an engineer’s matter. This sheet looks at "
    "room, not at weight.",
)
_GEOMETRY = "volume of a cylinder with flat ends, and the segment of a circle below a level surface"
_SWELL = "your own swelling and bulk density"
_DEPTH = within.between(0.0, 6.0, "No drum is wider.", "drum_diameter_m")
_ROOM = within.between(0.0, 900.0, "No drum has more room.", "drum_diameter_m")

SHEET = Sheet(
    id="drum-fill",
    title="Drum fill",
    purpose="Whether the batch has room in the drum, wet and fully grown.",
    questions=(
        barley_kg._replace(hint="Of the batch, as weighed dry."),
        drum_diameter_m,
        drum_length_m,
        ducts_m3,
        bulk_density,
        swelling_cast,
        swelling_grown,
        fill_limit_percent,
        ducts_lie,
    ),
    answers=(
        Answer(
            "fill_percent_grown",
            "Fill, fully grown",
            "%",
            0,
            lead=True,
            rests_on=f"{_GEOMETRY}; {_SWELL}",
            trust="A tenth more swelling is a tenth more fill. Measure the depth on the last day and correct it.",
            within=within.part("barley_kg"),
        ),
        Answer(
            "fill_percent_cast",
            "Fill at the cast",
            "%",
            0,
            lead=True,
            rests_on=f"{_GEOMETRY}; {_SWELL}",
            within=within.part("barley_kg"),
        ),
        Answer(
            "bed_depth_m",
            "Depth at the cast, in the middle",
            "m",
            2,
            lead=True,
            rests_on=_GEOMETRY,
            trust="Levelled. After turning the bed leans to one side.",
            next="Check it with a marked rod from the sampling port, the drum stopped, isolated, locked, blocked and "
            "tried.",
            worked="model",
            within=_DEPTH,
        ),
        Answer("bed_depth_grown_m", "Depth fully grown", "m", 2, rests_on=_GEOMETRY, worked="model", within=_DEPTH),
        Answer("free_m3_cast", "Room left at the cast", "m3", 1, rests_on=_GEOMETRY, within=_ROOM),
        Answer("free_m3_grown", "Room left fully grown", "m3", 1, rests_on=_GEOMETRY, within=_ROOM),
        Answer(
            "most_barley_kg",
            "Most barley for your limit",
            "kg",
            0,
            rests_on=f"{_GEOMETRY}; {_SWELL}",
            within=within.kilograms("drum_diameter_m"),
        ),
    ),
    work=work,
    guarded=True,
    sources=("bulk-density", "thomson-1824", "swelling-handbook", "drum-plant"),
    story="Batch example-01 and the drum of the example maltings: invented numbers.",
)
