"""Room and water in a steep: a cylinder on a cone, or any vessel of known volume."""

from math import pi
from typing import NamedTuple

from ..bounds import Bounds, check

DIAMETER_M = Bounds(0.3, 15.0)
CYLINDER_M = Bounds(0.0, 20.0)
CONE_M = Bounds(0.0, 12.0)
VESSEL_M3 = Bounds(0.05, 2000.0)
SURFACE_M2 = Bounds(0.05, 200.0)
WATER_COVER_M = Bounds(0.0, 2.0)
POROSITY_PERCENT = Bounds(30.0, 65.0)

POROSITY = 50.0
"""Share of a bed that is gaps between corns [%].

50.74 % computed from bulk and true density of barley at 42.17 % moisture, 613.68 and
1245.72 kg/m3 (Modares article 23-10966, read).
"""

TAKEN_UP_M3_T = 0.6
"""Water that a tonne of barley drinks from 12 to 45 % [m3/t]: (100 - 12)/(100 - 45) - 1."""


class Vessel(NamedTuple):
    """A round vessel, open at the top, with a cone below; the cone may be of no depth.

    Parameters
    ----------
    diameter_m : float
        Inside diameter of the cylinder [m].
    cylinder_m : float
        Height of the cylinder, from the cone to the overflow [m].
    cone_m : float
        Depth of the cone to its point [m]; the outlet that cuts the point off is left
        out.
    """

    diameter_m: float
    cylinder_m: float
    cone_m: float

    @property
    def surface_m2(self) -> float:
        """Give the area of the cylinder [m2]."""
        return pi * self.diameter_m**2 / 4.0

    @property
    def cone_m3(self) -> float:
        """Give the volume of the cone [m3]."""
        return self.surface_m2 * self.cone_m / 3.0

    @property
    def volume_m3(self) -> float:
        """Give the volume up to the overflow [m3]."""
        return self.cone_m3 + self.surface_m2 * self.cylinder_m

    @property
    def height_m(self) -> float:
        """Give the height from the point of the cone to the overflow [m]."""
        return self.cone_m + self.cylinder_m


def vessel(*, diameter_m: float, cylinder_m: float, cone_m: float) -> Vessel:
    """Give a cylinder on a cone.

    Parameters
    ----------
    diameter_m, cylinder_m, cone_m : float
        As for :class:`Vessel` [m].

    Returns
    -------
    Vessel
        The vessel.

    Raises
    ------
    OutOfRange
        When a length is outside its limits, or both heights are 0.

    Examples
    --------
    >>> round(vessel(diameter_m=2.4, cylinder_m=2.0, cone_m=1.2).volume_m3, 3)
    10.857
    """
    check("diameter_m", diameter_m, DIAMETER_M)
    check("cone_m", cone_m, CONE_M)
    least = 0.1 if cone_m == 0.0 else CYLINDER_M.low
    check("cylinder_m", cylinder_m, Bounds(least, CYLINDER_M.high))
    return Vessel(diameter_m, cylinder_m, cone_m)


def filled_to(*, volume_m3: float, shape: Vessel) -> float:
    """Give how high something stands above the point of the cone, its surface level.

    Parameters
    ----------
    volume_m3 : float
        What is in the vessel [m3], not negative; beyond the overflow the walls are
        thought to go on.
    shape : Vessel
        The vessel.

    Returns
    -------
    float
        Height [m].

    Raises
    ------
    OutOfRange
        When the volume is negative.

    Examples
    --------
    >>> shape = vessel(diameter_m=2.4, cylinder_m=2.0, cone_m=1.2)
    >>> round(filled_to(volume_m3=shape.cone_m3 / 8.0, shape=shape), 9)
    0.6
    """
    check("volume_m3", volume_m3, Bounds(0.0, 1e6))
    if volume_m3 < shape.cone_m3:
        height: float = shape.cone_m * (volume_m3 / shape.cone_m3) ** (1.0 / 3.0)
        return height
    return shape.cone_m + (volume_m3 - shape.cone_m3) / shape.surface_m2


def volume_to(*, height_m: float, shape: Vessel) -> float:
    """Give the volume below a height above the point of the cone; undoes :func:`filled_to`.

    Parameters
    ----------
    height_m : float
        Height [m], not negative.
    shape : Vessel
        The vessel.

    Returns
    -------
    float
        Volume [m3].

    Raises
    ------
    OutOfRange
        When the height is negative.
    """
    check("height_m", height_m, Bounds(0.0, 1e4))
    if height_m < shape.cone_m:
        return shape.cone_m3 * (height_m / shape.cone_m) ** 3
    return shape.cone_m3 + shape.surface_m2 * (height_m - shape.cone_m)


class Fill(NamedTuple):
    """One fill of water on grain.

    Attributes
    ----------
    level_m3 : float
        Volume below the surface of the water, grain and all [m3].
    water_m3 : float
        Water in it: between the corns and above them [m3].
    """

    level_m3: float
    water_m3: float


def fill(*, grain_m3: float, water_cover_m: float, porosity_percent: float, shape: Vessel | float) -> Fill:
    """Give the level and the water of a fill that covers the grain by some depth.

    Parameters
    ----------
    grain_m3 : float
        Room the bed of grain takes, gaps and all [m3].
    water_cover_m : float
        Depth of water above it [m].
    porosity_percent : float
        Share of the bed that is gaps [%].
    shape : Vessel or float
        The vessel; or the area of its water surface [m2] where only that is known.

    Returns
    -------
    Fill
        Level and water.

    Raises
    ------
    OutOfRange
        When a value is outside its limits.
    """
    check("grain_m3", grain_m3, Bounds(0.0, 1e5))
    check("water_cover_m", water_cover_m, WATER_COVER_M)
    check("porosity_percent", porosity_percent, POROSITY_PERCENT)
    if isinstance(shape, Vessel):
        top = filled_to(volume_m3=grain_m3, shape=shape) + water_cover_m
        level = volume_to(height_m=top, shape=shape)
    else:
        level = grain_m3 + water_cover_m * shape
    return Fill(level, level - grain_m3 * (1.0 - porosity_percent / 100.0))
