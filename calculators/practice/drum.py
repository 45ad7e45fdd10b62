"""A bed in a drum as it goes on: air through it, and what a turning of the drum does; numbers in, numbers out."""

from ..models.living.maths import FLOATS
from ..models.living.warmth import air_on, cooling_kw, heat_capacity

LOW_M3_H_T, FULL_M3_H_T = 250.0, 700.0
"""Air through the bed [m3/h for each tonne of barley]; made up for teaching, near what its busiest day asks."""
SET_C, FOLLOWS = 13.0, 0.25
"""Air on is set to 13 C; the sprays let it follow the room by a quarter. Made up for teaching."""
HUMID_PERCENT = 96.0
ENDS_APART_K = 3.0
SHELL_W_K_T = 12.0
"""Heat that leaves through the shell of the drum [W/K for each tonne]; made up for teaching."""
DRIES_DB, MIXES = 0.001, 0.8
"""What one turning takes in water [kg/kg], and how far it mixes [-]; made up for teaching."""


def air_on_c(room_c: float, usual_room_c: float) -> float:
    """Give the temperature of the air on [C]."""
    return SET_C + FOLLOWS * (room_c - usual_room_c)


def blown(
    *, temp_c: float, made_kw: float, dry_kg: float, water_db: float, flow_m3_h: float, air_c: float, room_c: float,
    hours: float,
) -> tuple[float, float]:  # fmt: skip
    """Give the bed's mean temperature after some time of air through it [C], and the water that the air took [kg].

    Parameters
    ----------
    temp_c, air_c, room_c : float
        The bed's mean, the air on and the room [C].
    made_kw : float
        Heat that the bed makes [kW].
    dry_kg, water_db : float
        Dry matter [kg] and its water [kg/kg].
    flow_m3_h : float
        Air through it [m3/h]; 0 with the fan stopped.
    hours : float
        How long, an hour at most [h].
    """
    temp, taken_kg = temp_c, 0.0
    air = air_on(temp_c=round(air_c, 1), relative_humidity=HUMID_PERCENT)
    parts = max(1, round(hours * 60 / 3))  # so much air answers in minutes
    for _ in range(parts):
        taken, dried = cooling_kw(FLOATS, air, flow_m3_h, temp)
        lost = SHELL_W_K_T / 1000.0 * (temp - room_c)
        rise = (made_kw - taken - lost) * 3600.0 * hours / parts / heat_capacity(dry_kg, dry_kg * water_db)
        temp = min(max(temp + rise, 1.0), 38.0)
        taken_kg += max(dried, 0.0) * hours / parts
    return temp, min(taken_kg, 0.02 * dry_kg)


def layers_of(temp_c: float, air_c: float, runs: bool, count: int) -> list[float]:
    """Give the layers from where the air comes on to where it leaves [C]: apart by what the air warms by."""
    half = min(max(temp_c - air_c, 0.0), ENDS_APART_K) / 2.0 if runs else 0.0
    return [temp_c + half * (2.0 * n / (count - 1) - 1.0) for n in range(count)]
