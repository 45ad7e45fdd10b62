"""A lying drum part-filled with grain: how full it is and how deep the bed lies."""

from math import acos, pi, sqrt

from ..bounds import Bounds, OutOfRange, check

DIAMETER_M = Bounds(0.5, 6.0)
LENGTH_M = Bounds(0.5, 30.0)
DUCTS_M3 = Bounds(0.0, 200.0)
BULK_DENSITY = Bounds(450.0, 800.0)
SWELLING = Bounds(1.0, 3.5)
FILL_LIMIT = Bounds(10.0, 100.0)


def drum_volume(*, diameter_m: float, length_m: float) -> float:
    """Give the volume of a drum with flat ends [m3].

    Examples
    --------
    >>> round(drum_volume(diameter_m=2.0, length_m=5.0), 3)
    15.708
    """
    check("drum_diameter_m", diameter_m, DIAMETER_M)
    check("drum_length_m", length_m, LENGTH_M)
    return pi * diameter_m**2 / 4.0 * length_m


def grain_volume(*, barley_kg: float, bulk_density: float, swelling: float) -> float:
    """Give the room that the batch takes.

    Parameters
    ----------
    barley_kg : float
        Barley as weighed dry [kg].
    bulk_density : float
        Of that barley, poured [kg/m3].
    swelling : float
        Room it takes now against the room it took dry [-].

    Returns
    -------
    float
        Volume with the air between the corns [m3].

    Raises
    ------
    OutOfRange
        Outside 450 to 800 kg/m3 or a swelling of 1 to 3.5.

    Examples
    --------
    >>> round(grain_volume(barley_kg=6000.0, bulk_density=600.0, swelling=1.4), 3)
    14.0
    """
    check("bulk_density", bulk_density, BULK_DENSITY)
    check("swelling", swelling, SWELLING)
    return barley_kg / bulk_density * swelling


def segment_share(*, depth: float) -> float:
    """Give the share of a circle that lies below a depth.

    Parameters
    ----------
    depth : float
        Depth over the lowest point, in diameters [-], 0 to 1.

    Returns
    -------
    float
        Share of the circle's area [-].

    Raises
    ------
    OutOfRange
        When the depth is not from 0 to 1.

    Notes
    -----
    Circular segment: (R^2 acos((R-h)/R) - (R-h) sqrt(2Rh - h^2)) / (pi R^2).

    Examples
    --------
    >>> segment_share(depth=0.5)
    0.5
    """
    check("depth", depth, Bounds(0.0, 1.0))
    up = 1.0 - 2.0 * depth  # of the surface over the axis, in radii
    return (acos(up) - up * sqrt(max(0.0, 1.0 - up * up))) / pi


def segment_depth(*, share: float) -> float:
    """Give the depth at which a share of the circle lies below: the inverse of ``segment_share``.

    Parameters
    ----------
    share : float
        Share of the circle's area [-], 0 to 1.

    Returns
    -------
    float
        Depth in diameters [-].

    Raises
    ------
    OutOfRange
        When the share is not from 0 to 1.

    Examples
    --------
    >>> round(segment_depth(share=0.5), 12)
    0.5
    """
    check("share", share, Bounds(0.0, 1.0))
    low, high = 0.0, 1.0
    for _ in range(60):
        middle = (low + high) / 2.0
        if segment_share(depth=middle) < share:
            low = middle
        else:
            high = middle
    return (low + high) / 2.0


def fill_percent(*, grain_m3: float, drum_m3: float, ducts_m3: float) -> float:
    """Give how much of the room for grain is filled.

    Parameters
    ----------
    grain_m3 : float
        Grain with the air between the corns [m3].
    drum_m3 : float
        The whole drum [m3].
    ducts_m3 : float
        What false floor and ducts take of it [m3].

    Returns
    -------
    float
        Fill [%]; over 100 when it would not go in.

    Raises
    ------
    OutOfRange
        When floor and ducts take nine tenths of the drum or more.
    """
    if not 0.0 <= ducts_m3 < 0.9 * drum_m3:
        raise OutOfRange("ducts_m3", 0.0, 0.9 * drum_m3, "Floor and ducts leave too little of the drum.")
    return 100.0 * grain_m3 / (drum_m3 - ducts_m3)


def bed_depth(*, grain_m3: float, ducts_below_m3: float, diameter_m: float, length_m: float) -> float:
    """Give the depth of the bed in the middle of the drum, levelled.

    Parameters
    ----------
    grain_m3 : float
        Grain [m3].
    ducts_below_m3 : float
        Room under the false floor, on which the grain lies [m3]; 0 without one.
    diameter_m, length_m : float
        Of the drum, inside [m].

    Returns
    -------
    float
        Depth from the false floor, or from the lowest point, to the surface [m].

    Raises
    ------
    OutOfRange
        When both do not fit into the drum.

    Examples
    --------
    >>> round(bed_depth(grain_m3=7.854, ducts_below_m3=0.0, diameter_m=2.0, length_m=5.0), 3)
    1.0
    """
    whole = drum_volume(diameter_m=diameter_m, length_m=length_m)
    floor_at = segment_depth(share=ducts_below_m3 / whole)
    surface = segment_depth(share=(ducts_below_m3 + grain_m3) / whole)
    return (surface - floor_at) * diameter_m
