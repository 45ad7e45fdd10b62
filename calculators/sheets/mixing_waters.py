"""How warm barley and water come out together, and how much of two waters gives the temperature wanted."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from ..asking.declare import Answer, AskAgain, Found, Note, Outcome, Sheet
from ..asking.figures import carried, few_digits, fixed, plain_number, said_span
from ..models.steep import mixing
from ..models.steep.hydration import TEMP_REASON, WATER_TEMP_C
from ..models.steep.mixing import (
    DRY_HEAT,
    DRY_HEAT_LIMITS,
    WATER_HEAT,
    WETTING_DOUBT,
    barley_heat,
    heat_of_wetting,
    mix_temp,
    second_share,
    water_temp_needed,
    wetting_rise,
)
from ..rules.conventions import SCALDS_C
from ..rules.limit import edge
from ..rules.limits.steeping import WATER_TEMP
from ..rules.lines import passed
from ..words import within
from ..words.limits import at_edge, stop_said
from ..words.questions.shared import barley_kg, number
from ..words.questions.shared import barley_moisture as asked_moisture

_HARM_C = WATER_TEMP_C.high
_STOP_C = edge(WATER_TEMP.stop_high)

barley_temp_c = number(
    "barley_temp_c", "Barley temperature", "C", mixing.TEMP_C, "In the heap or the bin, not of the air.", example="4"
)
water_kg = number("water_kg", "Water in all", "kg", mixing.WATER_KG, "1 m³ is 1000 kg.", example="8000")
usual_water_c = number("usual_water_c", "Water temperature", "C", mixing.TAP_TEMP_C, "Of the usual water.", example="7")
wanted_temp_c = number(
    "wanted_temp_c",
    "Temperature wanted",
    "C",
    WATER_TEMP_C,
    "Of water and barley together, just after filling.",
    example="14",
    reason=TEMP_REASON,
)
second_temp_c = number(
    "second_temp_c", "Temperature of a second water", "C", mixing.TAP_TEMP_C, "Warmer or colder.", example="45"
)._replace(optional=True, in_view=True)
barley_moisture = asked_moisture._replace(default="12", hint="Drier barley warms more as it wets.", example="")


def work(
    *,
    barley_kg: float,
    barley_temp_c: float,
    water_kg: float,
    usual_water_c: float,
    wanted_temp_c: float,
    second_temp_c: float | None,
    barley_moisture: float,
) -> Outcome:
    """Balance the heat of barley and water; share the water out between two."""
    if second_temp_c is not None and abs(second_temp_c - usual_water_c) < 0.1:
        raise AskAgain(
            "second_temp_c",
            f"both waters are at {plain_number(second_temp_c)} °C. Type a warmer or a colder one, or leave it blank.",
        )
    heats = [barley_heat(barley_moisture=barley_moisture, dry_heat=h) for h in (DRY_HEAT, *DRY_HEAT_LIMITS)]

    def mixed(water_temp: float, heat: float = heats[0]) -> float:
        return mix_temp(parts=[(barley_kg, heat, barley_temp_c), (water_kg, WATER_HEAT, water_temp)])

    def needed(heat: float) -> float:
        return water_temp_needed(
            barley_kg=barley_kg,
            barley_temp_c=barley_temp_c,
            barley_heat_kj=heat,
            water_kg=water_kg,
            wanted_temp_c=wanted_temp_c,
        )

    plain = [mixed(usual_water_c, heat) for heat in heats]
    wanted = [needed(heat) for heat in heats]
    if not _WATER.low <= wanted[0] <= _WATER.high:
        raise _not_to_be_had(wanted[0], (mixed(_WATER.low), mixed(_WATER.high)))
    barley_side = f"{plain_number(barley_kg)} × {carried(heats[0])}"
    water_side = f"{plain_number(water_kg)} × {plain_number(WATER_HEAT)}"
    found = [
        Found(
            "water_temp_needed_c",
            wanted[0],
            f"{plain_number(wanted_temp_c)} + {barley_side} × ({plain_number(wanted_temp_c)} − "
            f"{plain_number(barley_temp_c)}) / ({water_side}) = {fixed(wanted[0], 1)} °C",
            min(wanted),
            max(wanted),
        ),
    ]
    if plain[0] > 0.0:
        found.append(
            Found(
                "mix_temp_c",
                plain[0],
                f"({barley_side} × {plain_number(barley_temp_c)} + {water_side} × {plain_number(usual_water_c)}) / "
                f"({barley_side} + {water_side}) = {fixed(plain[0], 1)} °C",
                min(plain),
                max(plain),
            )
        )
    found += _wetting(barley_kg, barley_moisture, heats, water_kg, wanted_temp_c)
    asked = [("the temperature wanted", wanted_temp_c)]
    if plain[0] > 0.0:
        asked.append(("all of the usual water, mixed with the barley", plain[0]))
    notes = [*_past(asked), *_later(found, wanted_temp_c)]
    if plain[0] <= 0.0:
        notes.insert(0, _ICE)
    if second_temp_c is not None:
        found += _two_waters(water_kg, usual_water_c, second_temp_c, wanted, mixed, wanted_temp_c, notes)
    hottest = max(usual_water_c, second_temp_c or usual_water_c)
    if hottest > SCALDS_C:
        notes.append(
            Note("warning", "Water this hot scalds within seconds. Open the cold valve first and the hot one slowly.")
        )
    if hottest > _HARM_C:
        how = "Take colder water." if second_temp_c is None else "Mix the two waters before they meet the grain."
        notes.append(Note("notice", f"Above {plain_number(_HARM_C)} °C water harms barley. {how}"))
    notes.append(
        Note(
            "remark",
            "A cold vessel takes heat too, and is not counted here: measure after filling, at three depths, and "
            "correct the next fill.",
        )
    )
    return Outcome(tuple(found), notes=tuple(notes))


def _not_to_be_had(needed: float, ends: tuple[float, float]) -> AskAgain:
    """What is said where the water would have to be colder than any, or so warm that it kills; ``ends`` is in reach."""
    least, most = max(ends[0], WATER_TEMP_C.low), min(ends[1], WATER_TEMP_C.high)
    reach = (
        f"With this barley and so much water type a temperature {said_span(least, most)} °C, or take more water."
        if most - least >= 1.0
        else "Take more water, or let the barley’s temperature even out first."
    )
    return AskAgain(
        "wanted_temp_c",
        f"the water would have to be at {few_digits(needed)} °C. Water {said_span(_WATER.low, _WATER.high)} °C will "
        f"do: colder is not to be had, and warmer harms the barley that it meets first. {reach}",
    )


def _wetting(barley_kg: float, moisture: float, heats: list[float], water_kg: float, wanted: float) -> list[Found]:
    """By how much it warms in the hours after filling, and to what."""
    heat = heat_of_wetting(barley_moisture=moisture)

    def rise(factor: float, barley_kj: float) -> float:
        return wetting_rise(barley_kg=barley_kg, barley_heat_kj=barley_kj, water_kg=water_kg, wetting_kj=heat * factor)

    value = rise(1.0, heats[0])
    low, high = rise(WETTING_DOUBT.low, max(heats)), rise(WETTING_DOUBT.high, min(heats))
    working = (
        f"{plain_number(barley_kg)} × {fixed(heat, 1)} / ({plain_number(barley_kg)} × {carried(heats[0])} + "
        f"{plain_number(water_kg)} × {plain_number(WATER_HEAT)}) = {fixed(value, 1)} K"
    )
    return [
        Found("wetting_rise_k", value, working, low, high),
        Found(
            "later_temp_c",
            wanted + value,
            f"{plain_number(wanted)} + {fixed(value, 2)} = {fixed(wanted + value, 1)} °C",
            wanted + low,
            wanted + high,
        ),
    ]


_ICE = Note(
    "notice",
    "All of the usual water would begin to freeze on this barley. Take warmer water, more of it, or let the barley "
    "warm up first.",
)


def _past(mixtures: Sequence[tuple[str, float]]) -> list[Note]:
    """Which stop of the steep's water is passed by a mixture; each comes with what it is."""
    notes = []
    for what, value in mixtures:
        line = passed(WATER_TEMP, value)
        if line and line.mark == "stop":
            notes.append(Note("notice", f"Past a stop: {what}. {stop_said(line)}"))
    return notes


def _later(found: list[Found], wanted: float) -> list[Note]:
    """What the hours after filling ask for, by how warm it may get then."""
    (later,) = (one for one in found if one.id == "later_temp_c")
    assert isinstance(later.value, float)
    rise = later.value - wanted
    if wanted - rise < edge(WATER_TEMP.stop_low):
        aim = (
            f"Do not fill it {fixed(rise, 1)} K colder to make up for the wetting: under "
            f"{at_edge(WATER_TEMP, 'stop_low')} is stop and ask. Once the corns are wetted through it comes to "
            f"{fixed(later.value, 1)} °C. Measure every hour."
        )
    else:
        aim = (
            f"To have {plain_number(wanted)} °C once the corns are wetted through, aim {fixed(rise, 1)} K lower at "
            f"filling: {fixed(wanted - rise, 1)} °C. Measure every hour."
        )
    if later.high is not None and later.high > _STOP_C:
        return [
            Note(
                "notice",
                f"The steep may warm to {fixed(later.high, 1)} °C by the wetting alone, and breathing comes on top. "
                f"Over {at_edge(WATER_TEMP, 'stop_high')} is stop and ask: "
                "[[page:procedures/filling-the-steep#limits|limits]]."
                f" {aim}",
            )
        ]
    return [Note("remark", aim)]


def _two_waters(
    kg: float,
    first_c: float,
    second_c: float,
    needed: list[float],
    mixed: Callable[[float], float],
    wanted: float,
    notes: list[Note],
) -> list[Found]:
    """How much of each water; or how near the two can come."""
    shares = [second_share(first_temp_c=first_c, second_temp_c=second_c, needed_temp_c=n) for n in needed]
    share = shares[0]
    if not 0.0 <= share <= 1.0:
        best = second_c if share > 1.0 else first_c
        which = "second" if share > 1.0 else "first"
        if best == second_c:  # all of the first is said already
            notes[:0] = _past((("the nearest that these waters come", mixed(best)),))
        notes.append(
            Note(
                "notice",
                f"{plain_number(wanted)} °C cannot be reached with these waters: the water would have to be at "
                f"{fixed(needed[0], 1)} °C, and one is at {plain_number(first_c)}, the other at "
                f"{plain_number(second_c)} °C. All of the {which} water comes nearest: {fixed(mixed(best), 1)} °C. "
                "Take a warmer or colder second water, more water, or let the barley’s temperature even out first.",
            )
        )
        return []
    low, high = (min(max(s, 0.0), 1.0) for s in (min(shares), max(shares)))
    of_second = carried(share, 4)
    words = (
        f"part of the second water: ({fixed(needed[0], 2)} − {plain_number(first_c)}) / ({plain_number(second_c)} − "
        f"{plain_number(first_c)}) = {of_second}; {plain_number(kg)} kg × (1 − {of_second}) = "
        f"{fixed(kg * (1.0 - share), 0)} kg"
    )
    rest = f"{plain_number(kg)} kg in all − {carried(kg * (1.0 - share))} kg = {fixed(kg * share, 0)} kg"
    return [
        Found("water_one_kg", kg * (1.0 - share), words, kg * (1.0 - high), kg * (1.0 - low)),
        Found("water_two_kg", kg * share, rest, kg * low, kg * high),
    ]


_BALANCE = "heat balance: what warms takes up what cools gives off; water 4.19 kJ/kg K"
_DOUBT = (
    "The range is for barley’s specific heat: 0.84 to 1.6 kJ/kg K of dry matter is published, 1.3 is taken. The vessel "
    "is left out. It is for the minute after filling: the wetting warms it later."
)
_WETTING = (
    "15.1 kJ for each kg of barley at 12 %: a published figure for flour at 11 to 12 % (read); how it falls with "
    "moisture is from memory"
)
_MIXED = within.between(
    0.0,
    mixing.TAP_TEMP_C.high,
    "Under that it is ice, and the sum holds no more.",
    "barley_temp_c",
    instead="Let the barley warm up first, or take more or warmer water.",
)
_RISE = within.between(
    0.0,
    15.0,
    "Barley with the water it needs warms by a few.",
    "water_kg",
    instead="Check both weights: so little water does not cover the grain.",
)
_WATER = within.between(
    mixing.TAP_TEMP_C.low,
    WATER_TEMP_C.high,
    "Colder water is not to be had, and warmer harms the barley that it meets first.",
    "wanted_temp_c",
)

SHEET = Sheet(
    id="mixing-waters",
    title="Mixing waters",
    purpose="How warm barley and water come out, and how much of two waters gives what you want.",
    questions=(
        barley_kg,
        barley_temp_c,
        water_kg,
        usual_water_c,
        wanted_temp_c,
        second_temp_c,
        barley_moisture,
    ),
    answers=(
        Answer(
            "mix_temp_c",
            "All of the usual water gives",
            "C",
            1,
            lead=True,
            rests_on=_BALANCE,
            trust=_DOUBT,
            within=_MIXED,
        ),
        Answer(
            "water_one_kg",
            "Usual water",
            "kg",
            0,
            lead=True,
            rests_on="the share that gives the water’s temperature needed",
            trust=_DOUBT,
            within=within.kilograms("water_kg", most=mixing.WATER_KG.high),
        ),
        Answer(
            "water_two_kg",
            "Second water",
            "kg",
            0,
            lead=True,
            rests_on="water in all, less the first",
            trust=_DOUBT,
            next="Mix them before they meet the grain, and measure the mixture.",
            within=within.kilograms("water_kg", most=mixing.WATER_KG.high),
        ),
        Answer(
            "wetting_rise_k",
            "Warms by itself as the corns wet",
            "K",
            1,
            rests_on=_WETTING,
            trust="From two thirds to one and a half times as much: nobody was found to have measured barley. No loss "
            "to vessel and air is counted, and no breathing, which comes on top.",
            next="Over hours: about a third in the first hour, half by the third, seven tenths by the eighth "
            "(computed with the steep model at 14 °C).",
            within=_RISE,
        ),
        Answer(
            "later_temp_c",
            "Filled at the temperature wanted, it warms to",
            "C",
            1,
            rests_on="the temperature wanted and the warming by wetting",
            trust="As good as the warming. Draining the first water takes part of it away.",
            within=_MIXED._replace(ask=("wanted_temp_c",)),
        ),
        Answer(
            "water_temp_needed_c",
            "Mixed water must be at",
            "C",
            1,
            rests_on=_BALANCE,
            trust=_DOUBT,
            within=_WATER,
        ),
    ),
    work=work,
    sources=("earle-specific-heat", "kim-chang-1980", "bakers-dictionary", "cengel-boles", "daniels-1920"),
    story="A January fill of the example maltings, river water at 7 °C: invented numbers.",
)
