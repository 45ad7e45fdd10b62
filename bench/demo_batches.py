"""The invented year of the example maltings: twelve batches, made by the models with stated noise.

``python -m bench.day_book_files`` writes them to ``docs/assets/demo-batches.json``. The same seed gives the same file.

What is put in, and can be looked for with the day-book:

- Water from the river, 4 C in February to 18 C in August, read to 0.2 K.
- Three barley lots with their own uptake; batches of one lot differ a little. The house's corns carry more water out of
  the steep than is typical and gain a little less by air rests.
- Weighings to 0.4 g, dripping to 0.2 points, oven samples to 0.25 points, thermometers on the floor to 0.3 K.
- Grain that breathes half of the one law, and loses dry matter and water with it; five and a quarter days to ready at
  15 C.
- What the laboratory said of the malt: ``bench.demo_malts``.
- One fault: the empty basket of one batch was written 6 g too light, so its barley seemed wetter than it was.
"""

from __future__ import annotations

import string
from datetime import datetime, timedelta
from math import cos, erf, pi, sqrt
from random import Random
from typing import Any

from calculators.daybook.batch.living import KEPT
from calculators.daybook.lines.entry import in_order
from calculators.daybook.lines.exchange import as_json
from calculators.models.bed import floor
from calculators.models.bed.slab import Slab
from calculators.models.living import ready
from calculators.models.living.batch import bed_course
from calculators.models.living.bed_days import DAY, heat_on_day
from calculators.models.living.breathing import GRAIN_C
from calculators.models.living.lot_plan_state import BED_HOURS, BedSpell, Lot, State
from calculators.models.living.pace import CHIT_C
from calculators.models.steep.course import Steep
from calculators.models.steep.doubt import Doubt, moved
from calculators.models.steep.hydration import run, steep, uptake_rate
from calculators.models.weights.basket import basket_gross
from calculators.plates.gas import LEAVE_PPM

SEED = 1854
SAVED = "2026-11-24T12:00"
LEFT = "Platform left at once, shift lead told."
TARE_G, SAMPLE_G, TARGET = 84.0, 100.0, 44.5
FAULT, FAULT_G = "example-07", -6.0
WEIGH_SD_G, DRIP_SD, OVEN_SD, WATER_SD, PIECE_SD = 0.4, 0.2, 0.25, 0.2, 0.3
BATCH_SD = (0.2, 0.2, 0.2, 0.2, 0.0)
"""From batch to batch of one lot, in typical standard deviations."""
HOUSE = (0.0, 0.0, -0.7, 0.5, 0.0)
LOTS = {
    "lot 3": ("two-row spring barley", "2025", (0.9, 0.35), 12.4, 46.0, 3),
    "lot 5": ("two-row spring barley", "2025", (-0.95, -0.3), 13.1, 43.5, 14),
    "lot 1": ("two-row winter barley", "2026", (0.45, -0.8), 12.8, 47.5, 4),
}
"""Barley, harvest, rate and first uptake in standard deviations, moisture, thousand-corn weight, water sensitivity."""
BATCHES = (
    ("2025-12-02", "lot 3", "floor"),
    ("2026-01-06", "lot 3", "floor"),
    ("2026-02-03", "lot 5", "floor"),
    ("2026-03-03", "lot 3", "drum"),
    ("2026-04-07", "lot 5", "floor"),
    ("2026-05-05", "lot 3", "floor"),
    ("2026-06-02", "lot 5", "drum"),
    ("2026-07-07", "lot 5", "drum"),
    ("2026-08-25", "lot 3", "drum"),
    ("2026-09-22", "lot 1", "floor"),
    ("2026-10-20", "lot 1", "floor"),
    ("2026-11-10", "lot 1", "floor"),
)
HOUSE_DAYS, HOUSE_SURFACE = 5.25, 10.0
HOUSE_HEAT = 0.5
"""Breath of its grain against the one law [-]: floors that are turned two or three times a day ask for about half."""
HOUSE_KJ_M3_K = 1820.0
"""Heat that warms its pieces, a little less than the law's."""
DAYS_SD = 0.04
LOSS_SD, GREEN_OFF = 0.35, 0.5
"""What weighing and drying at the kiln's door are off by: % of the dry matter, points."""
GROWTH_AT_CAST_H = 18.0
_SETTLES = 3
"""So often warmth and heat of a piece are put into each other: then they stand to a tenth of a kelvin."""
_SUMMER = (datetime(2026, 3, 29, 2), datetime(2026, 10, 25, 2))
_LETTERS = string.digits + string.ascii_lowercase


def house_heat(day: float, temp_c: float) -> float:
    """Heat of a piece of this house on a day, counted from 1, as warm as it is [kW/t]."""
    return heat_on_day(day=min(day, DAY.high), temp_c=min(max(temp_c, GRAIN_C.low), GRAIN_C.high), factor=HOUSE_HEAT)


class Writer:
    """Writes the lines of one batch as the page would have."""

    def __init__(self, random: Random, batch: str) -> None:
        self.random = random
        self.batch = batch
        self.lines: list[dict[str, Any]] = []

    def write(
        self,
        kind: str,
        at: datetime,
        values: dict[str, Any] | None = None,
        remark: str = "",
        replaces: str | None = None,
    ) -> str:
        """Add a line for work done at a moment (UTC) and give its id."""
        zone = 60 if _SUMMER[0] <= at < _SUMMER[1] else 0
        written = at + timedelta(seconds=self.random.randint(8, 240))
        name = "".join(self.random.choice(_LETTERS) for _ in range(12))
        self.lines.append(
            {
                "schema": 1,
                "id": name,
                "batch": self.batch,
                "kind": kind,
                "at": f"{at + timedelta(minutes=zone):%Y-%m-%dT%H:%M}",
                "written": f"{written:%Y-%m-%dT%H:%M:%S}.000Z",
                "zone": zone,
                "values": values or {},
                "who": ("AB", "CD", "EF")[(at.day + (at.hour > 13)) % 3],
                "remark": remark,
                "replaces": replaces,
            }
        )
        return name


DRAWN = Doubt(rate=0.28, first_uptake_db=0.06, rest_factor=0.1)
"""How far the invented barleys lie apart: their own, so that the year stays as it is when a doubt is mended."""


def river_c(day: datetime) -> float:
    """Temperature of the river [C]: 18 in the middle of August, 4 in the middle of February."""
    return 11.0 + 7.0 * cos(2 * pi * (day.timetuple().tm_yday - 227) / 365)


def true_z(random: Random, lot: str) -> list[float]:
    """What the barley of one batch really is, in typical standard deviations."""
    own = (*LOTS[lot][2], 0.0, 0.0, 0.0)
    return [house + lots + random.gauss(0.0, sd) for house, lots, sd in zip(HOUSE, own, BATCH_SD, strict=True)]


def plan_for(water: float) -> list[float]:
    """The house's plan for a water temperature [h]: wet hours by the pace of uptake, half hours."""
    slower = uptake_rate(water_temp_c=14.0) / uptake_rate(water_temp_c=water)
    wet = [round(2 * hours * slower) / 2 for hours in (8.0, 8.0, 4.0)]
    return [wet[0], 8.0, wet[1], 10.0, wet[2]]


class Batch:
    """One invented batch, from the start to the kiln."""

    def __init__(self, random: Random, name: str, day: str, lot: str, vessel: str) -> None:
        self.random, self.name, self.lot, self.vessel = random, name, lot, vessel
        self.log = Writer(random, name)
        self.barley, self.season, _, self.moisture, self.corn_g, self.sensitivity = LOTS[lot]
        self.start = datetime.fromisoformat(f"{day}T05:00") + timedelta(minutes=random.randint(0, 11) * 10)
        self.water = river_c(self.start)
        self.z = true_z(random, lot)
        self.tare = TARE_G
        self.temps: dict[int, list[float]] = {}
        self.sprinkled: dict[int, float] = {}
        self.kg = 6000.0 if vessel == "drum" else random.choice([5600.0, 5800.0, 6000.0])

    def truth(self, stages: list[tuple[float, float]]) -> Steep:
        """The course that this barley really takes."""
        typical = steep(barley_moisture=self.moisture, stages=stages, corn_weight_g=self.corn_g)
        return run(moved(typical.steeping, DRAWN, [*self.z, 0.0, 0.0, 0.0]))

    def reading(self, real: float) -> str:
        """What the basket shows at a real moisture."""
        drip = self.random.gauss(0.0, DRIP_SD)
        gross = basket_gross(
            moisture=real + drip,
            basket_g=self.tare,
            sample_g=SAMPLE_G,
            barley_moisture=self.moisture,
            dry_matter_lost=1.0,
        )
        return f"{gross + self.random.gauss(0.0, WEIGH_SD_G):.1f}"

    def steeped(self) -> datetime:
        """Write the start and the steep; give the end of the last immersion."""
        random, log = self.random, self.log
        written_tare = TARE_G + (FAULT_G if self.name == FAULT else 0.0)
        plan = plan_for(self.water)
        log.write(
            "start",
            self.start - timedelta(minutes=50),
            {
                "barley": self.barley,
                "lot": self.lot,
                "season": self.season,
                "barley_kg": f"{self.kg:.0f}",
                "barley_moisture": f"{self.moisture:.1f}",
                "water_temp_c": f"{self.water:.0f}",
                "target_moisture": f"{TARGET}",
                "vessel": self.vessel,
                "basket_g": f"{written_tare:.0f}",
                "sample_g": f"{SAMPLE_G:.0f}",
                "stages": [[f"{hours:g}", ""] for hours in plan],
                "corn_weight_g": f"{self.corn_g:g}",
                "energy_grown": str(random.randint(383, 397)),
                "energy_sown": "400",
                "water_sensitivity": str(self.sensitivity),
            },
            "Invented.",
        )
        stages: list[tuple[float, float]] = []
        at = self.start
        for number, hours in enumerate(plan):
            wet = number % 2 == 0
            temp = self.water + random.gauss(0.0, 0.3)
            if wet:
                began = at
                log.write(
                    "stage-begun", at, {"stage": "wet", "water_temp_c": f"{temp + random.gauss(0.0, WATER_SD):.1f}"}
                )
                hours = self.immersion(stages, hours, temp, number, began)
                at += timedelta(hours=hours)
                log.write("stage-ended", at, {"ended": "drained"})
                if self.vessel == "drum" or number == 2:
                    reading = self.gas("over the rim, from the platform")
                    leave = float(reading["gas_reading"]) * 1e4 >= LEAVE_PPM
                    log.write("gas", at + timedelta(minutes=20), reading, LEFT if leave else "")
            else:
                hours = round((hours + random.gauss(0.0, 0.25)) * 6) / 6
                at += timedelta(hours=hours)
            stages.append((hours, temp))
        self.stages = stages
        return at

    def gas(self, where: str) -> dict[str, str]:
        """A reading as it might stand in a book: text."""
        return {
            "gas_meter": "carbon dioxide meter 2",
            "gas_where": where,
            "gas_reading": f"{self.random.uniform(0.1, 4.0):.2f}",
            "gas_unit": "% CO2",
        }

    def immersion(
        self, stages: list[tuple[float, float]], planned: float, temp: float, number: int, began: datetime
    ) -> float:
        """Write what is read in an immersion; give its hours. The last one ends when the basket is on weight."""
        hours = round((planned + self.random.gauss(0.0, 0.2)) * 6) / 6
        if number < 4:
            course = self.truth([*stages, (hours, temp)])
            if number == 2:
                half = began + timedelta(hours=hours / 2)
                self.log.write("water", half, {"water_temp_c": f"{temp + self.random.gauss(0.0, WATER_SD):.1f}"})
            weighed = began + timedelta(hours=hours - 0.25)
            self.log.write(
                "basket",
                weighed,
                {"gross_g": self.reading(course.at(course.hours - 0.25).drained), "drained": "drained"},
            )
            return hours
        course = self.truth([*stages, (24.0, temp)])
        wrong = 0.0
        if self.name == FAULT:
            # The basket seems heavier than it is by the error of its tare: the target comes too early.
            dry = SAMPLE_G * (1 - self.moisture / 100) * 0.99
            seems = dry / (1 - TARGET / 100)
            wrong = TARGET - 100 * (1 - dry / (seems + FAULT_G))
        needed = course.last_immersion_needed_h(TARGET - wrong)
        hours = min(max(round((needed or 0.5) * 6) / 6, 0.5), 20.0)
        if hours > 1.5:
            moment = began + timedelta(hours=hours - 1.0)
            real = course.at(course.last_immersion_start_h + hours - 1.0).drained
            self.log.write("basket", moment, {"gross_g": self.reading(real), "drained": "drained"})
        course = self.truth([*stages, (hours, temp)])
        self.log.write(
            "basket",
            began + timedelta(hours=hours + 0.25),
            {"gross_g": self.reading(course.ends[-1].drained), "drained": "drained"},
        )
        return hours

    def cast(self, drained: datetime) -> datetime:
        """Write the cast, with an oven sample; give its moment."""
        at = drained + timedelta(hours=8 + self.random.randint(0, 12) / 3)
        self.held = self.truth([*self.stages, (8.0, self.water)]).ends[-1].drained
        oven = f"{self.held + self.random.gauss(0.0, OVEN_SD):.1f}"
        self.log.write(
            "moisture", at - timedelta(minutes=30), {"moisture": oven, "method": "oven"}, "sent for at the cast"
        )
        self.log.write("cast", at)
        return at

    def grown(self, cast: datetime) -> None:
        """Write the days on the floor or in the drum, the counts, and the way to the kiln."""
        days = HOUSE_DAYS * (1.0 + self.random.gauss(0.0, DAYS_SD))
        piece = self.on_floor if self.vessel == "floor" else self.in_drum
        done, at = piece(cast, days)
        while done < 1.02:
            at += timedelta(hours=6)
            done += 0.25 * ready.pace(temp_c=15.0, reference_temp_c=15.0) / days
        at = at.replace(hour=7, minute=30) + timedelta(days=int(at.hour >= 7))
        end = self.bed_by_the_law(cast, at)
        dry = 10.0 * (100.0 - self.moisture)
        loss = 100.0 * (1.0 - float(end.dry_kg) / dry) + self.random.gauss(0.0, LOSS_SD)
        green = float(end.net) + self.random.uniform(-GREEN_OFF, GREEN_OFF)
        kg = self.kg * (1 - self.moisture / 100) * (1 - loss / 100) / (1 - green / 100)
        self.log.write("to-kiln", at, {"green_malt_kg": f"{kg:.0f}", "moisture": f"{green:.1f}"})

    def bed_by_the_law(self, cast: datetime, left: datetime) -> State:
        """The batch as it leaves, by the one law: its water and its dry matter, as warm as each day was."""
        spells, hours = [], (left - cast).total_seconds() / 3600
        day, temp = 0, 15.0
        while hours > BED_HOURS.low:
            temps = self.temps.get(day, [temp])
            temp = min(max(sum(temps) / len(temps), CHIT_C.low), CHIT_C.high)
            kept = KEPT * self.sprinkled.get(day, 0.0) / (self.kg / 1000.0)
            spells.append(BedSpell(min(24.0, hours), temp, sprinkled_l_t=kept))
            day, hours = day + 1, hours - 24.0
        states = bed_course(
            barley_moisture=self.moisture, moisture=self.held, growth_h=GROWTH_AT_CAST_H, spells=spells,
            lot=Lot(breath_factor=HOUSE_HEAT),
        )  # fmt: skip
        return states[-1]

    def counted(self, at: datetime, done: float) -> None:
        """Write a count of a hundred corns at a share of the growth done."""
        mean, sd = 0.87 * done, 0.10
        ends = [0.5 * (1 + erf((end - mean) / sd / sqrt(2))) for end in (0.25, 0.5, 0.75, 1.0)]
        counts = [0, 0, 0, 0, 0]
        for _ in range(100):
            place = self.random.random()
            counts[sum(place > end for end in ends)] += 1
        flour = round(50 * min(1.0, max(0.0, (done - 0.55) / 0.45)) * 0.96)
        hard = round((50 - flour) * 0.4)
        rub = [[str(hard)], [str(50 - flour - hard)], [str(flour)]]
        self.log.write("readiness", at, {"counts": [[str(n)] for n in counts], "rub": rub})

    def on_floor(self, cast: datetime, days: float) -> tuple[float, datetime]:
        """Rounds and turnings by the clock; the piece warms between turnings as the layer model says."""
        random = self.random
        room = min(max(0.55 * self.water + 5.5, 7.0), 14.0)
        depth, mixed = 0.13, max(room + 1.0, min(self.water, 13.0))
        turned, at, done = cast, cast, 0.0
        self.log.write("turned", cast + timedelta(minutes=40), {"depth_cm": f"{depth * 100:.0f}"})
        while done < 1.0 and (at - cast).days < 16:
            at = self.next_round(at)
            hours = (at - turned).total_seconds() / 3600
            day = 1.0 + (at - cast).total_seconds() / 86_400
            bottom, top = self.layer(hours, depth, mixed, room, day)
            done += (at - self.last(cast)).total_seconds() / 86_400 * self.pace((bottom + top) / 2) / days
            self.seen = at
            self.temps.setdefault(int(day) - 1, []).append(floor.mean_c(bottom_c=bottom, top_c=top))
            read = [value + random.gauss(0.0, PIECE_SD) for value in (bottom, top, room)]
            values = dict(zip(("bottom_c", "top_c", "room_c"), (f"{value:.1f}" for value in read), strict=True))
            self.log.write("bed", at, {**values, "depth_cm": f"{depth * 100:.0f}"})
            if done > 0.72 and at.hour < 12:
                self.counted(at + timedelta(minutes=30), done)
            if at.hour < 12 or at.hour > 18:
                mean = floor.mean_c(bottom_c=bottom, top_c=top)
                mixed = mean - 0.65 * (mean - room)
                depth += 0.01 if bottom < 13.0 else -0.02 if bottom > 16.0 else 0.0
                depth = min(max(depth, 0.08), 0.20)
                turned = at + timedelta(minutes=20)
                self.log.write("turned", turned, {"depth_cm": f"{depth * 100:.0f}"})
            if 3.0 <= day < 3.4:
                litres = random.choice([90, 120, 150])
                self.sprinkled[int(day) - 1] = float(litres)
                self.log.write("sprinkled", at + timedelta(minutes=10), {"water_l": str(litres)})
        return done, at

    def last(self, cast: datetime) -> datetime:
        """When the growth was last added up."""
        return getattr(self, "seen", cast)

    def pace(self, temp: float) -> float:
        """Growth an hour against that at 15 C."""
        return ready.pace(temp_c=min(max(temp, 5.0), 30.0), reference_temp_c=15.0)

    def next_round(self, at: datetime) -> datetime:
        """The next of the three rounds of the day, with a few minutes either way."""
        for hour in (7, 14, 21, 31):
            moment = at.replace(hour=0, minute=0) + timedelta(hours=hour)
            if moment > at + timedelta(hours=3):
                return moment + timedelta(minutes=self.random.randint(0, 4) * 5)
        raise AssertionError

    def layer(self, hours: float, depth: float, mixed: float, room: float, day: float) -> tuple[float, float]:
        """Bottom and top of a piece some hours after it was turned at one temperature [C].

        It breathes as warm as it is on the mean of these hours.
        """
        found = (mixed, mixed)
        for _ in range(_SETTLES):
            warm = 0.5 * (mixed + floor.mean_c(bottom_c=found[0], top_c=found[1]))
            found = self.lying(hours, depth, mixed, room, house_heat(day, warm))
        return found

    @staticmethod
    def lying(hours: float, depth: float, mixed: float, room: float, heat_kw_t: float) -> tuple[float, float]:
        """Bottom and top of a piece that makes an even heat [C]."""
        rate = heat_kw_t * floor.BARLEY_KG_M3 / 1000.0 * 3600.0 / HOUSE_KJ_M3_K
        slab = Slab(HOUSE_SURFACE * depth / floor.CONDUCTIVITY_W_M_K)
        fo = floor.CONDUCTIVITY_W_M_K / (HOUSE_KJ_M3_K * 1000.0) * max(hours, 0.1) * 3600.0 / depth**2
        scale = max(hours, 0.1) / fo
        found = []
        for place in (0.0, 1.0 - 0.03 / depth):
            left, warm = slab.both(fo, place)
            found.append(room + (mixed - room) * left + rate * warm * scale)
        return found[0], found[1]

    def in_drum(self, cast: datetime, days: float) -> tuple[float, datetime]:
        """Turns by the clock; air on and off."""
        random, at, done = self.random, cast, 0.0
        while done < 1.0:
            before = at
            at += timedelta(hours=8 + random.randint(0, 6) / 2)
            on = min(max(0.5 * self.water + 7.0, 11.0), 15.5)
            off = on + 2.2 + random.gauss(0.0, PIECE_SD)
            done += (at - before).total_seconds() / 86_400 * self.pace((on + off) / 2) / days
            self.temps.setdefault((at - cast).days, []).append((on + off) / 2)
            if random.random() < 0.7:
                self.log.write("bed", at, {"bottom_c": f"{on:.1f}", "top_c": f"{off:.1f}"})
            self.log.write("drum", at + timedelta(minutes=5), {"drum_turns": str(random.choice([2, 2, 3]))})
            if done > 0.72:
                self.counted(at + timedelta(minutes=25), done)
        return done, at


def batches(seed: int = SEED) -> list[Batch]:
    """The twelve batches, written."""
    random = Random(seed)
    made = []
    for number, (day, lot, vessel) in enumerate(BATCHES, 1):
        batch = Batch(random, f"example-{number:02d}", day, lot, vessel)
        drained = batch.steeped()
        batch.grown(batch.cast(drained))
        made.append(batch)
    _mend(made[2].log)
    return made


def _mend(log: Writer) -> None:
    """One slip of the pen, corrected as a book corrects it."""
    right = next(line for line in log.lines if line["kind"] == "basket")
    moment = datetime.fromisoformat(right["at"])
    wrong = log.write("basket", moment, {"gross_g": "2" + right["values"]["gross_g"], "drained": "drained"})
    slip = log.lines.pop()
    log.lines.insert(log.lines.index(right), slip)
    right["replaces"], right["remark"] = wrong, "slip of the pen"


def demo_text(seed: int = SEED) -> str:
    """The year as an export of the day-book."""
    from bench.demo_malts import malt_lines  # it reads the batches of this file

    lines: list[dict[str, Any]] = []
    for batch in batches(seed):
        lines += sorted([*batch.log.lines, *malt_lines(batch)], key=lambda line: line["written"])
    return as_json(in_order(lines), SAVED)
