"""The hidden barley and place of a number: drawn from the stated doubts, and not the model of the sheets.

What differs from the sheets' model, each marked in ``STANDING``: three places of the vessel that drink and warm
unlike; a film of water that is another at each drain; breathing with another course by day; a corn whose inside
lets water through the faster the wetter it is; a floor with its own surface, conductivity, room and corner.
"""

from typing import NamedTuple

from ..models.living.breathing import FALL_POWER, RISE_POWER
from ..models.living.doubts import UNKNOWNS, moved
from ..models.living.lot_plan_state import Lot
from ..models.living.maths import FLOATS
from ..rules.conventions import USUAL_WATER_C
from .draws import clipped, uniform
from .faults import warm_water_c
from .setting import PAPER_MOISTURE

SEASON_C = {"": (USUAL_WATER_C, 11.0), "winter": (8.0, 8.0), "august": (18.0, 17.0)}
"""Season -> water and room [C]: the example maltings; made up for teaching."""
MOST_OUT = 1.3
"""Most that a drawn value lies out, in standard deviations of its stated doubt: no number is hopeless."""

FITTED, ASSUMED, MADE_UP = "fitted", "assumed", "made up for teaching"


class Place(NamedTuple):
    """A place of vessel and floor: its share of the grain, and how it differs from the middle."""

    share: float
    drinks: float
    air: float
    warmer_k: float
    deeper: float


class Hidden(NamedTuple):
    """All that a number hides; units stand in ``described``."""

    lot: Lot
    places: tuple[Place, ...]
    inside: float
    rise_h: float
    fall_h: float
    highest: float
    water_c: float
    surface_w_m2_k: float
    conducts_w_m_k: float
    room_c: float
    swing_k: float
    free_h: float
    basket_points: float
    probe_k: float
    faults: tuple[str, ...]

    def film_db(self, number: int, immersion: int) -> float:
        """Give the film of water after a drain [kg/kg]."""
        return 0.025 + 0.06 * uniform(number, "film", immersion)

    def growth_course(self, growth_h: float) -> float:
        """Give the part of breathing that goes with growth, 1 at its highest [-]."""
        return _course(growth_h, self.rise_h, self.fall_h) / self.highest


def _course(growth_h: float, rise_h: float, fall_h: float) -> float:
    t = max(growth_h, 1e-6)
    return float(1.0 / (1.0 + (rise_h / t) ** RISE_POWER) / (1.0 + (t / fall_h) ** FALL_POWER))


def planned_water_c(season: str, water_c: float = 0.0) -> float:
    """Give the water of the plan [C]: a house's where it set some, else the season's."""
    return water_c or SEASON_C[season][0]


def hidden(number: int, faults: tuple[str, ...], season: str = "", water_c: float = 0.0) -> Hidden:
    """Give what a number hides.

    Parameters
    ----------
    number : int
        The number of the run.
    faults : tuple of str
        What is wrong in it.
    season : str, optional
        Blank, ``winter`` or ``august``: it moves water and room, and nothing else.
    water_c : float, optional
        Water of a house in place of the season's [C]; 0 for the season's.
    """
    _, room_c = SEASON_C[season]
    planned_c = planned_water_c(season, water_c)
    came_c = warm_water_c(planned_c) if "warm-water" in faults else planned_c + 0.5 * clipped(number, 1.5, "water")
    z = [clipped(number, MOST_OUT, "lot", unknown.name) for unknown in UNKNOWNS]
    lot = moved(FLOATS, Lot(barley_moisture=PAPER_MOISTURE), z)
    # The rate is drawn from many sites and years; a house buys nearer to home: no farther than half as fast again.
    lot = lot._replace(rate_factor=min(max(lot.rate_factor, 0.75), 1.4), leached=min(lot.leached, 0.02))
    lot = lot._replace(breath_factor=min(max(lot.breath_factor, 0.7), 1.45))
    corns = lot.corns._replace(grows=min(lot.corns.grows, 0.99), middle_h=min(lot.corns.middle_h, 18.5))
    if "sleepy" in faults:
        corns = corns._replace(middle_h=corns.middle_h * 1.5, grows=min(corns.grows, 0.93))
    if "dislikes-water" in faults:
        corns = corns._replace(sensitive=0.35)
    side, corner = (
        Place(
            share,
            1.0 + spread * clipped(number, 1.5, "drinks", name),
            (0.45 if "ring" in faults else 0.8) * (1.0 - 0.15 * uniform(number, "air", name)),
            0.5 * clipped(number, 1.5, "warmer", name),
            1.0 + 0.25 * uniform(number, "deeper", name),
        )
        for name, share, spread in (("side", 0.3, 0.05), ("corner", 0.1, 0.1))
    )
    rise = 56.0 + 8.0 * clipped(number, 1.5, "rise")
    fall = 145.0 + 20.0 * clipped(number, 1.5, "fall")
    return Hidden(
        lot=lot._replace(corns=corns),
        places=(Place(0.6, 1.0, 1.1, 0.0, 1.0), side, corner),
        inside=0.5 + 0.4 * uniform(number, "inside"),
        rise_h=rise,
        fall_h=fall,
        highest=max(_course(float(t), rise, fall) for t in range(30, 160)),
        water_c=came_c,
        surface_w_m2_k=8.0 * 1.5 ** clipped(number, 1.3, "surface"),
        conducts_w_m_k=0.2 + 0.03 * clipped(number, 1.5, "conducts"),
        room_c=room_c + 1.5 * clipped(number, 1.5, "room"),
        swing_k=1.0 + uniform(number, "swing"),
        free_h=6.0 if "dislikes-water" in faults else 11.0,
        basket_points=0.3 * clipped(number, 1.5, "basket") + (2.2 if "tare" in faults else 0.0),
        probe_k=0.25 * clipped(number, 1.5, "probe") - (1.0 if "thermometer" in faults else 0.0),
        faults=faults,
    )


def described(this: Hidden) -> tuple[tuple[str, str, str], ...]:
    """Give each hidden thing: what it is, its value in this number, and what it rests on."""
    lot, corner = this.lot, this.places[2]
    return (
        ("Pace of drinking against the typical barley", f"× {lot.rate_factor:.2f}", FITTED),
        ("Barley moisture", f"{lot.barley_moisture:.1f} %", ASSUMED),
        ("Breathing against the law", f"× {lot.breath_factor:.2f}", FITTED),
        ("Growth at which it breathes most: half way up", f"{this.rise_h:.0f} h at 15 °C", MADE_UP),
        ("Hours to chit of the middle corn", f"{lot.corns.middle_h:.0f} h at 15 °C", FITTED),
        ("Corns that grow", f"{100 * lot.corns.grows:.0f} %", ASSUMED),
        ("Growth of an acrospire by one corn", f"{lot.acrospires.corn_length_h:.0f} h at 15 °C", ASSUMED),
        ("Steep water", f"{this.water_c:.1f} °C", ASSUMED),
        ("How much faster wet insides let water through", f"+ {100 * this.inside:.0f} %", MADE_UP),
        ("The corner: drinking", f"× {corner.drinks:.2f}", MADE_UP),
        ("The corner: air that reaches it", f"× {corner.air:.2f}", MADE_UP),
        ("The corner of the floor: depth", f"× {corner.deeper:.2f}", MADE_UP),
        ("Heat lost at the surface", f"{this.surface_w_m2_k:.0f} W/m²K", ASSUMED),
        ("Heat conducted in the piece", f"{this.conducts_w_m_k:.2f} W/mK", ASSUMED),
        ("Room", f"{this.room_c:.1f} ± {this.swing_k:.1f} °C", MADE_UP),
        ("Basket against batch", f"{this.basket_points:+.1f} points", ASSUMED),
        ("Thermometer against grain", f"{this.probe_k:+.1f} K", ASSUMED),
    )
