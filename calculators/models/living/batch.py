"""One batch from its first wetting to the kiln's door: water, warmth, breath, chit and growth stepped together.

The same steps run on floats for one batch and on arrays for some hundreds (``ensemble``).
What water does inside the corns comes from a ``Water``: exact series for one batch, shells
for many.  Everything is for a tonne of barley as filled.
"""

from collections.abc import Sequence
from math import ceil, exp, inf

from ..bed import respiration
from ..bounds import BARLEY_MOISTURE, Bounds, OutOfRange, check
from ..steep.course import Stage, Steep
from ..steep.hydration import REST_FULL_H, SURFACE_DB, SURFACE_RATE, WATER_TEMP_C, rate_at, steep
from .bed_days import AT_CAST_PERCENT
from .breathing import CORN_MOISTURE, GRAIN_C, GROWTH_H, after_wet_transfer, rate
from .lot_plan_state import DRYING, BedSpell, Lot, Plan, State, Water, check_bed, check_plan
from .maths import FLOATS, Maths, Values
from .pace import air_share_at, air_shares, chit_pace, growth_pace, must_grow, water_pace
from .warmth import Air, air_on, cooling_kw, heat_capacity, water_for_heat

LEACHING_H = 12.0
"""Hours under water in which most of it leaches [h]: our assumption."""

WATER_SUPPLY_MG_KG_H = 10.0
"""Oxygen that aerated water brings to the corns [mg for each kg of dry matter and hour].

A cereal textbook whose title was not noted (not citable): 1 to 10 mg/kg h were taken from the water in steeps.
"""

STEEP_STEP_H = 1.0
BED_STEP_H = 3.0


def _moisture(water_db: Values) -> Values:
    return 100.0 * water_db / (1.0 + water_db)


def _steps(hours: float, step_h: float) -> int:
    return max(1, ceil(hours / step_h - 1e-9))


def drive(m: Maths, lot: Lot, plan: Plan, water: Water, until_h: float = inf) -> list[State]:
    """Give the states of a batch, or of many, through a plan taken as checked.

    Parameters
    ----------
    m : Maths
        For floats or arrays.
    lot : Lot
        What it is.
    plan : Plan
        What is done.
    water : Water
        What water does in the steep; fresh, for the same lot and plan.
    until_h : float, optional
        Hour after which no state is asked for: the last one is at it or next after it.

    Returns
    -------
    list of State
        From hour 0, each hour of the steep and each third of the bed, and at each edge.
    """
    air = air_on(temp_c=plan.air_c, relative_humidity=plan.rest_air_rh)
    shares = air_shares(stage_hours=[stage.hours for stage in plan.stages])
    dry0 = 1000.0 * (1.0 - lot.barley_moisture / 100.0)
    none = 0.0 * dry0  # in an array for each member
    begins_c = plan.stages[0].water_temp_c + lot.water_warmer_k + none
    moist = lot.barley_moisture
    now = State(0.0, True, True, begins_c, moist, moist, dry0, none, none, none, none, none, 0.0)
    states = [now]
    hour, rested_h, immersed_h = 0.0, 0.0, 0.0
    for number, stage in enumerate(plan.stages):
        wet = number % 2 == 0
        slower = m.exp(SURFACE_RATE * (lot.surface_db - SURFACE_DB))
        faster = slower * (1.0 + (lot.rest_factor - 1.0) * min(1.0, rested_h / REST_FULL_H))
        held = None if wet or number >= len(plan.held_c) else plan.held_c[number]
        count = _steps(stage.hours, STEEP_STEP_H)
        step = stage.hours / count
        start_h = hour
        if held is not None:
            now = now._replace(temp_c=held + 0.0 * dry0)
        for n in range(count):
            # The end itself, as a share of a stage may come out a last bit beyond it.
            until = start_h + (stage.hours if n + 1 == count else stage.hours * (n + 1) / count)
            lets = air_share_at(shares, hour, until)
            temp = stage.water_temp_c + lot.water_warmer_k + none if wet else now.temp_c
            made, burnt, chit_h, growth_h = _breathe(
                m, lot, now, temp, step, lets, WATER_SUPPLY_MG_KG_H if wet else None
            )
            respired = now.respired_kg + burnt
            dried: Values = 0.0
            if wet:
                immersed_h += step
                gone = lot.leached * (1.0 - exp(-immersed_h / LEACHING_H))
                dry = dry0 * (1.0 - gone) - respired
            else:
                dry = now.dry_kg - burnt
                capacity = heat_capacity(dry, dry * (water.net_db + water.film_db))
                warmed, dried = _rest(m, plan, air, lot.suction_factor, made, temp, capacity, step)
                temp = warmed if held is None else temp
            pace = faster * rate_at(m, temp, lot.corn_weight_g, lot.rate_factor, lot.activation_kj_mol)
            water.go(hour, until, wet, number, pace)
            if wet:
                film = water.film_db
            else:
                film = m.most(water.film_db - dried / dry, 0.0)
                dried = (water.film_db - film) * dry
                water.film_db = film
            now = State(
                until, wet, True, temp, _moisture(water.net_db), _moisture(water.net_db + film), dry, chit_h, growth_h,
                respired, made, now.evaporated_kg + dried, 0.0,
            )  # fmt: skip
            states.append(now)
            hour = until
            if hour >= until_h:
                return states
        rested_h += 0.0 if wet else stage.hours
    return grow(m, lot, plan, states, until_h)


def _rest(
    m: Maths, plan: Plan, air: Air, drawn: Values, made_kw: Values, temp: Values, capacity: Values, step: float
) -> tuple[Values, Values]:
    """Give the temperature after a step of a rest and the water that the air took [kg]."""

    def slope(at: Values) -> tuple[Values, Values]:
        taken, dried = cooling_kw(m, air, plan.suction_m3_h_t * drawn, at)
        return (made_kw - taken - plan.wall_w_k_t / 1000.0 * (at - air.temp_c)) * 3600.0 / capacity, dried

    half = temp + 0.5 * step * slope(temp)[0]
    rise, dried = slope(m.least(m.most(half, GRAIN_C.low), GRAIN_C.high))
    return m.least(m.most(temp + step * rise, GRAIN_C.low), GRAIN_C.high), m.most(dried, 0.0) * step


def _breathe(
    m: Maths, lot: Lot, now: State, temp: Values, step: float, lets: float, supply: float | None
) -> tuple[Values, Values, Values, Values]:
    """Give the heat of breathing over a step [kW], what it burns [kg], and both clocks after it [h]."""
    per_h = lot.breath_factor * rate(
        m, now.net, temp, now.growth_h * lot.breath_timing, lot.cold_kj_mol, lot.warm_kj_mol
    )
    if supply is not None:
        per_h = m.least(per_h, supply * 1e-6 / respiration.O2_PER_KG)
    burnt = per_h * now.dry_kg * step
    made = burnt / step * respiration.HEAT_MJ_PER_KG / 3.6
    on = step * lets * water_pace(m, now.net)
    chit_h = now.chit_h + on * chit_pace(m, temp, lot.chit_base_c)
    return made, burnt, chit_h, now.growth_h + on * growth_pace(m, temp, lot.growth_q10)


def grow(m: Maths, lot: Lot, plan: Plan, states: list[State], until_h: float = inf) -> list[State]:
    """Go on from the last state through the days after the cast, or until an hour is reached."""
    now = states[-1]
    hour = cast_h = now.hour
    # What is cast is what a basket shows: the film is taken up in the bed.
    water = now.dry_kg * now.drained / (100.0 - now.drained)
    for spell in plan.bed:
        air = air_on(temp_c=spell.air_c, relative_humidity=spell.air_rh)
        temp = m.least(m.most(spell.temp_c + lot.warmer_k, GRAIN_C.low), GRAIN_C.high)
        water = water + spell.sprinkled_l_t
        now = now._replace(sprinkled_kg=now.sprinkled_kg + spell.sprinkled_l_t)
        taken = water_for_heat(m, air, temp)
        count = _steps(spell.hours, BED_STEP_H)
        step = spell.hours / count
        for _ in range(count):
            breath, lets = 1.0, 1.0
            if plan.wet_transfer:
                breath, lets = after_wet_transfer(FLOATS, hour - cast_h + 0.5 * step)
            moist = now._replace(net=100.0 * water / (water + now.dry_kg))
            slower = lot if breath == 1.0 else lot._replace(breath_factor=lot.breath_factor * breath)
            made, burnt, chit_h, growth_h = _breathe(m, slower, moist, temp, step, lets, None)
            dried = m.least(made * 3600.0 * step * taken * lot.drying_factor, 0.5 * water)
            water = water - dried + respiration.WATER_PER_KG * burnt
            dry = now.dry_kg - burnt
            moisture = 100.0 * water / (water + dry)
            hour += step
            now = State(
                hour, False, False, temp, moisture, moisture, dry, chit_h, growth_h, now.respired_kg + burnt, made,
                now.evaporated_kg + dried, now.sprinkled_kg,
            )  # fmt: skip
            states.append(now)
            if hour >= until_h:
                return states
    return states


class SteepWater:
    """What water does in the steep of one batch, from the exact series of ``hydration``.

    Parameters
    ----------
    lot : Lot
        The batch, in floats.
    stages : sequence of Stage
        Immersions and rests; in a rest the temperature that the grain has.
    course : Steep, optional
        What it drinks, where that is worked out already.
    """

    def __init__(self, lot: Lot, stages: Sequence[Stage], course: Steep | None = None) -> None:
        self._course = course or steep(
            barley_moisture=lot.barley_moisture,
            stages=stages,
            corn_weight_g=lot.corn_weight_g,
            rate_factor=lot.rate_factor,
            first_uptake_db=lot.first_uptake_db,
            film_db=lot.film_db,
            rest_factor=lot.rest_factor,
            activation_kj_mol=lot.activation_kj_mol,
            surface_db=lot.surface_db,
        )
        self.net_db: Values = lot.barley_moisture / (100.0 - lot.barley_moisture)
        self.film_db: Values = 0.0
        self._dried: float = 0.0  # of the film, by air
        self._left = (0.0, -1, 0.0)  # hour, stage and film that the course had when it was last asked

    def go(self, hour: float, until_h: float, wet: bool, stage: int, per_h: Values) -> None:  # noqa: ARG002 as Water has it
        """Go on to a later hour of one stage; the pace is the course's own."""
        if wet:
            self._dried = 0.0
        elif hour > 0.0:
            if self._left[:2] == (hour, stage):
                left = self._left[2]
            else:
                net, drained = self._course.water_at(hour, stage)
                left = drained - net
            self._dried = max(self._dried, left - self.film_db)
        net, drained = self._course.water_at(until_h, stage)
        film = drained - net
        self._left = (until_h, stage, film)
        self.net_db = net
        self.film_db = max(0.0, film - self._dried)


def course(*, plan: Plan, lot: Lot | None = None) -> list[State]:
    """Give the course of one batch from its first wetting to the kiln's door.

    Parameters
    ----------
    plan : Plan
        What is done.
    lot : Lot, optional
        What it is, in floats; the typical barley.

    Returns
    -------
    list of State
        From hour 0, hour by hour through the steep and every three hours after it, for a
        tonne of barley as filled.

    Raises
    ------
    OutOfRange
        When a value is outside its limits, or the batch gets as warm as 40 C in a rest.

    Notes
    -----
    The steep is worked out twice: the second time with the warmth that rests came to.
    """
    check_plan(plan)
    batch = lot or Lot()
    check("barley_moisture", batch.barley_moisture, BARLEY_MOISTURE)
    check("drying_factor", batch.drying_factor, DRYING)
    stages = [Stage(s.hours, s.water_temp_c + batch.water_warmer_k) for s in plan.stages]
    states: list[State] = []
    for _ in range(2):
        states = drive(FLOATS, batch, plan, SteepWater(batch, stages))
        stages = with_warmth(stages, states)
    for state in states:
        if state.temp_c >= GRAIN_C.high:
            raise OutOfRange("temp_c", GRAIN_C.low, GRAIN_C.high, f"The grain gets as warm at {state.hour:.0f} h.")
    return states


def with_warmth(stages: Sequence[Stage], states: Sequence[State]) -> list[Stage]:
    """Give the stages with the mean temperature that the grain had in each rest, as far as water's law goes."""
    found, start = [], 0.0
    for number, stage in enumerate(stages):
        end = start + stage.hours
        if number % 2:
            temps = [s.temp_c for s in states if s.steeping and start - 1e-6 <= s.hour <= end + 1e-6]
            mean = sum(temps) / len(temps)
            found.append(Stage(stage.hours, min(max(mean, WATER_TEMP_C.low), WATER_TEMP_C.high)))
        else:
            found.append(stage)
        start = end
    return found


def bed_course(
    *,
    barley_moisture: float,
    moisture: float,
    growth_h: float,
    spells: Sequence[BedSpell],
    loss_percent: float = AT_CAST_PERCENT,
    lot: Lot | None = None,
    wet_transfer: bool = False,
) -> list[State]:
    """Give moisture, heat, growth and loss together for grain on a floor, in a box or a drum.

    Parameters
    ----------
    barley_moisture : float
        Of the barley as filled, % of wet weight.
    moisture : float
        Of the grain now, % of wet weight, 26 to 55.
    growth_h : float
        Growth clock now [h at 15 C] (``pace.growth_after_cast``).
    spells : sequence of BedSpell
        What is done from now on.
    loss_percent : float, optional
        Dry matter lost so far, % of the barley's.
    lot : Lot, optional
        What it is, in floats; its own barley moisture is not used.
    wet_transfer : bool, optional
        True when it was just moved in water.

    Returns
    -------
    list of State
        From hour 0, every three hours, for a tonne of barley as filled; evaporated and
        respired count from now.

    Raises
    ------
    OutOfRange
        When a value is outside its limits; ``table`` is ``bed`` for a spell.

    Notes
    -----
    Kept at a temperature, grain gives its heat to the air, which takes water in proportion
    (``warmth.water_for_heat``): about a kilogram for a kilowatt-hour.  Water that breathing
    makes stays.

    Examples
    --------
    >>> day = bed_course(barley_moisture=12, moisture=45, growth_h=78, spells=[BedSpell(24.0, 15.0)])
    >>> round(day[-1].net, 1), round(day[-1].evaporated_kg)
    (44.1, 34)
    """
    check("barley_moisture", barley_moisture, BARLEY_MOISTURE)
    check("moisture", moisture, CORN_MOISTURE)
    check("growth_h", growth_h, GROWTH_H)
    check("loss_percent", loss_percent, Bounds(0.0, 30.0))
    must_grow(moisture=moisture)
    check_bed(spells)
    batch = (lot or Lot())._replace(barley_moisture=barley_moisture)
    dry = 1000.0 * (1.0 - barley_moisture / 100.0) * (1.0 - loss_percent / 100.0)
    now = State(0.0, False, False, spells[0].temp_c, moisture, moisture, dry, growth_h, growth_h, 0.0, 0.0, 0.0, 0.0)
    begun = now._replace(heat_kw=_breathe(FLOATS, batch, now, now.temp_c, 1.0, 1.0, None)[0])
    return grow(FLOATS, batch, Plan((), tuple(spells), wet_transfer=wet_transfer), [begun])
