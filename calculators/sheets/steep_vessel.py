"""Whether the barley has room in the steep once it has swollen, and how much water it takes."""

from __future__ import annotations

from typing import NamedTuple

from ..asking.declare import Answer, Belongs, Either, Found, Note, Number, Outcome, Refusal, Sheet
from ..asking.figures import carried, few_digits, fixed, plain_number
from ..models.bed.drum import grain_volume
from ..models.bounds import WEIGHT_KG, Bounds
from ..models.steep import vessel as room
from ..rules.limit import edge
from ..rules.limits.filling_the_steep import COVER, ROOM
from ..rules.lines import Line, passed
from ..words import within
from ..words.cautions import NO_ENTRY
from ..words.limits import at_edge, limit_notes, span
from ..words.questions.shared import barley_kg, bulk_density, number
from ..words.room import SLACK, most_said, most_shown

SWELLING = Bounds(1.0, 1.8)
SWELLING_LEAST, SWELLING_MOST = 1.2, 1.45
_TIGHT_M = 0.15

diameter_m = number("diameter_m", "Diameter", "m", room.DIAMETER_M, "Inside, from the drawing.", example="3.2")
cylinder_m = number(
    "cylinder_m", "Height of the cylinder", "m", room.CYLINDER_M, "From the cone up to the overflow.", example="1.6"
)
cone_m = number("cone_m", "Depth of the cone", "m", room.CONE_M, "0 for a flat bottom.", example="1.8")
vessel_m3 = number("vessel_m3", "Volume of the vessel", "m3", room.VESSEL_M3, "Up to the overflow.")
surface_m2 = number("surface_m2", "Surface of the water", "m2", room.SURFACE_M2, "Where the vessel is open.")
swelling = number(
    "swelling",
    "Swelling in the steep",
    "",
    SWELLING,
    "Room it takes at the end, dry = 1. Published: 1.2 to 1.45.",
    default="1.4",
    source="1.24 on average (Thomson 1824, read), 1.25 (Britannica, read), 1.45 (a handbook, not citable)",
)
water_cover_m = number(
    "water_cover_m",
    "Water above the grain",
    "m",
    room.WATER_COVER_M,
    f"{span(COVER)} by common practice.",
    default="0.15",
)
porosity_percent = number(
    "porosity_percent",
    "Gaps between the corns",
    "%",
    room.POROSITY_PERCENT,
    "Share of the bed that water can fill.",
    default=f"{room.POROSITY:g}",
    source="50.7 % at 42 % moisture (Modares article 23-10966, read)",
)
fills = Number("fills", "Fills of the schedule", "", 1, 8, "Immersions, each with new water.", default="3", whole=True)


class _Charge(NamedTuple):
    """What one swelling does."""

    grain_m3: float
    fill: room.Fill


def work(
    *,
    barley_kg: float,
    bulk_density: float,
    diameter_m: float | None,
    cylinder_m: float | None,
    cone_m: float | None,
    vessel_m3: float | None,
    surface_m2: float | None,
    swelling: float,
    water_cover_m: float,
    porosity_percent: float,
    fills: float,
) -> Outcome | Refusal:
    """Fill the vessel with the swollen grain and its water, and see what is left."""
    shape: room.Vessel | None = None
    if diameter_m is not None and cylinder_m is not None and cone_m is not None:
        shape = room.vessel(diameter_m=diameter_m, cylinder_m=cylinder_m, cone_m=cone_m)
        whole, area = shape.volume_m3, shape.surface_m2
        told = (
            f"π × {plain_number(diameter_m)}² / 4 × ({plain_number(cylinder_m)} + {plain_number(cone_m)} / 3) "
            f"= {fixed(whole, 2)} m³"
        )
    else:
        assert vessel_m3 is not None and surface_m2 is not None
        whole, area, told = vessel_m3, surface_m2, f"{plain_number(vessel_m3)} m³"

    def charge(by: float, kg: float = barley_kg) -> _Charge:
        grain = grain_volume(barley_kg=kg, bulk_density=bulk_density, swelling=by)
        filled = room.fill(
            grain_m3=grain,
            water_cover_m=water_cover_m,
            porosity_percent=porosity_percent,
            shape=shape if shape is not None else area,
        )
        return _Charge(grain, filled)

    dry, swollen = charge(1.0), charge(swelling)
    fits = _most_barley(whole, area, shape, water_cover_m, bulk_density, swelling)
    with_room = whole * bulk_density / (1.0 + edge(ROOM.stop_low) / 100.0)
    most = min(fits, with_room)
    if swollen.fill.level_m3 > whole * SLACK:
        return _overfull(barley_kg, swollen, whole, swelling, water_cover_m, most)
    left = max(0.0, whole - swollen.fill.level_m3)
    tonnes = barley_kg / 1000.0
    drunk = room.TAKEN_UP_M3_T * tonnes
    total = fills * swollen.fill.water_m3 + drunk
    grain_text = f"{plain_number(barley_kg)} / {plain_number(bulk_density)} × {plain_number(swelling)}"
    found = [
        Found(
            "water_m3",
            swollen.fill.water_m3,
            f"up to {plain_number(water_cover_m)} m over the swollen grain, less the corns themselves: "
            f"{fixed(swollen.fill.level_m3, 2)} m³ − {fixed(swollen.grain_m3, 2)} m³ × (100 − "
            f"{plain_number(porosity_percent)})/100 = {fixed(swollen.fill.water_m3, 1)} m³",
        ),
        Found("most_barley_kg", most_shown(most), f"{_filled_by(fits, with_room)}, rounded down; its room: {told}"),
        Found(
            "grain_m3",
            dry.grain_m3,
            f"{plain_number(barley_kg)} / {plain_number(bulk_density)} = {fixed(dry.grain_m3, 1)} m³",
        ),
        Found("grain_swollen_m3", swollen.grain_m3, f"{grain_text} = {fixed(swollen.grain_m3, 2)} m³"),
        Found("room_left_m3", left, f"{told}; − {fixed(swollen.fill.level_m3, 2)} m³ = {fixed(left, 2)} m³"),
        Found(
            "water_m3_t",
            total / tonnes,
            f"({plain_number(fills)} × {carried(swollen.fill.water_m3)} + {carried(drunk)} drunk) / "
            f"{carried(tonnes)} t of barley = {fixed(total / tonnes, 1)} m³",
        ),
        Found(
            "filled_kg",
            barley_kg + 1000.0 * (swollen.fill.water_m3 + drunk),
            f"barley {plain_number(barley_kg)} + water between and above "
            f"{carried(1000 * swollen.fill.water_m3)} + drunk "
            f"{carried(1000 * drunk)} = {fixed(barley_kg + 1000.0 * (swollen.fill.water_m3 + drunk), 0)} kg",
        ),
    ]
    notes = [NO_ENTRY, *limit_notes(_passed(water_cover_m, whole, dry.grain_m3))]
    if shape is not None:
        tightest, widest = (
            (whole - charge(by).fill.level_m3) / area
            for by in (max(SWELLING_MOST, swelling), min(SWELLING_LEAST, swelling))
        )
        free = left / area
        found.append(
            Found(
                "freeboard_m",
                free,
                f"{carried(left)} m³ of room left / {carried(area)} m² of surface = {fixed(free, 2)} m",
                max(0.0, tightest),  # less than none is the overflow that the notice below tells of
                widest,
            )
        )
        if free < _TIGHT_M:
            notes.append(
                Note("notice", "Air from below and rousing lift the water. So little freeboard will splash over.")
            )
    if swelling < SWELLING_MOST and charge(SWELLING_MOST).fill.level_m3 > whole:
        notes.append(
            Note(
                "notice",
                f"Barley that swells {plain_number(SWELLING_MOST)} times, as some does, would overflow. Look at the "
                "water’s height in the last hours of each immersion.",
            )
        )
    notes.append(
        Note("remark", "What a vessel, its legs and the floor may carry is for the site’s engineer, by local codes.")
    )
    return Outcome(tuple(found), notes=tuple(notes))


def _passed(cover_m: float, whole_m3: float, dry_m3: float) -> list[Line | None]:
    """What the water above the grain and the room above the dry barley pass."""
    return [
        passed(COVER, round(100.0 * cover_m, 9)),
        passed(ROOM, round(100.0 * (whole_m3 / dry_m3 - 1.0), 9)),
    ]


def _filled_by(fits: float, with_room: float) -> str:
    if with_room < fits:
        return f"what leaves {at_edge(ROOM, 'stop_low')} of the dry volume free for swelling: less is a stop"
    return "what fills the vessel to its overflow at this swelling"


def _most_barley(
    whole: float, area: float, shape: room.Vessel | None, cover: float, density: float, swelling: float
) -> float:
    """The barley whose swollen bed lies just its water cover below the overflow [kg]."""
    if shape is None:
        grain = max(0.0, whole - cover * area)
    else:
        grain = room.volume_to(height_m=max(0.0, shape.height_m - cover), shape=shape)
    return grain * density / swelling


def _overfull(kg: float, swollen: _Charge, whole: float, swelling: float, cover: float, most: float) -> Refusal:
    over = swollen.fill.level_m3 - whole
    fits = most_said(most, "At most {} kg fit.", "Not even a kilogram fits under so much water.")
    return Refusal(
        f"It would overflow by {few_digits(over)} m³. Swollen {plain_number(swelling)} times, {plain_number(kg)} kg of "
        f"barley take {few_digits(swollen.grain_m3)} m³; with {plain_number(cover)} m of water above them the vessel "
        f"would need {few_digits(swollen.fill.level_m3)} m³ and has {few_digits(whole)} m³. {fits}",
        (NO_ENTRY,),
    )


_ROOM = within.between(0.0, 5000.0, "No steep has more room.", "diameter_m", "vessel_m3")
_WATER_T = within.between(
    0.5,
    60.0,
    "So much is no steep.",
    "barley_kg",
    instead="Check the weight of the barley and the height of the water above it, with their units.",
)

SHEET = Sheet(
    id="steep-vessel",
    title="Steep vessel",
    purpose="Whether the swollen grain has room, and how much water a fill takes.",
    questions=(
        barley_kg,
        bulk_density,
        diameter_m,
        cylinder_m,
        cone_m,
        vessel_m3,
        surface_m2,
        swelling,
        water_cover_m,
        porosity_percent,
        fills,
    ),
    either=(Either((("diameter_m", "cylinder_m", "cone_m"), ("vessel_m3", "surface_m2"))),),
    answers=(
        Answer(
            "freeboard_m",
            "Freeboard when swollen",
            "m",
            2,
            lead=True,
            rests_on="volume of a cylinder on a cone; the cut-off point of the cone and fittings are left out",
            trust="The range is for a swelling of 1.45 and of 1.2: lots differ that much.",
            next="Read the swollen height with a dip stick from the platform, and use your own swelling from then on.",
            within=within.between(0.0, room.CYLINDER_M.high + room.CONE_M.high, "No steep is higher.", "cylinder_m"),
        ),
        Answer(
            "water_m3",
            "Water for one fill",
            "m3",
            1,
            lead=True,
            rests_on="gaps between the corns and the water above them, grain swollen: the first fill takes less",
            within=_ROOM,
        ),
        Answer(
            "most_barley_kg",
            "Most barley that fits",
            "kg",
            0,
            lead=True,
            rests_on="no freeboard at all at this swelling and cover",
            trust="Not a load to aim at: leave room for swelling and splashing.",
            worked="model",
            within=within.kilograms("diameter_m", "vessel_m3", most=5.0 * WEIGHT_KG.high),
        ),
        Answer("grain_m3", "Grain dry", "m3", 1, rests_on="weight over bulk density", within=_ROOM),
        Answer("grain_swollen_m3", "Grain swollen", "m3", 1, rests_on="dry volume times the swelling", within=_ROOM),
        Answer("room_left_m3", "Room left when swollen", "m3", 2, rests_on="volume of the vessel", within=_ROOM),
        Answer(
            "water_m3_t",
            "Water for the whole schedule",
            "m3/t",
            1,
            rests_on="every fill counted as swollen, and 0.6 m³ a tonne drunk from 12 to 45 %",
            trust="Around 4 m³ a tonne of malt is published; 3.5 to 7 by practice. Washing comes on top.",
            next="The drain water is effluent: [[page:procedures/steeping|steeping]].",
            within=_WATER_T,
        ),
        Answer(
            "filled_kg",
            "Grain and water weigh about",
            "kg",
            0,
            rests_on="barley and water, without the vessel",
            trust="A figure to hand to an engineer, not a permission.",
            within=within.kilograms("barley_kg", most=6.0 * WEIGHT_KG.high),
        ),
    ),
    work=work,
    guarded=True,
    belongs=(Belongs("height_m", ("barley_kg",), "the height of the grain", "m"),),
    sources=(
        "thomson-1824",
        "britannica-young",
        "swelling-handbook",
        "modares-23-10966",
        "magb-malt-facts",
    ),
    story="A 6-tonne steep of the example maltings: invented sizes.",
)
