"""The germination test: index, water sensitivity and its classes."""

from collections.abc import Sequence

from .limits import Limits, OutOfRange, check

# Classes of water sensitivity, points between the 4 ml and the 8 ml test (from memory;
# the one published line that was read calls 30 points or more sensitive).
SENSITIVITY_CLASSES: tuple[tuple[float, str], ...] = (
    (10.0, "slight"),
    (26.0, "some"),
    (45.0, "marked"),
)
MOST_SENSITIVE = "strong"


def germination_index(*, newly_grown: Sequence[float]) -> float:
    """Give the germination index from the corns that grew on each day.

    Parameters
    ----------
    newly_grown : sequence of float
        Corns newly grown, and taken out, after 24, 48, 72 h and so on.

    Returns
    -------
    float
        Index, from 10 / days to 10; 10 when every corn grew on the first day.

    Raises
    ------
    OutOfRange
        When a count is negative or no corn grew.

    Notes
    -----
    10 times the corns grown, over the sum of corns times day: 10 (x + y + z)/(x + 2y + 3z).
    It says how fast those grew that grew; it says nothing about those that did not.

    References
    ----------
    Formula from memory.  Its maximum of 10: McCafferty and Bryce 1999 (read).

    Examples
    --------
    >>> round(germination_index(newly_grown=(60, 30, 7)), 2)
    6.88
    """
    for count in newly_grown:
        check("newly_grown", count, Limits(0.0, 1e6))
    grown = sum(newly_grown)
    if grown == 0:
        raise OutOfRange("newly_grown", 1, 1e6, "No corn grew, so there is no speed to give.")
    return 10.0 * grown / sum(day * count for day, count in enumerate(newly_grown, 1))


def newly_from_running(*, running: Sequence[float]) -> list[float]:
    """Give the corns newly grown each day from running totals.

    Parameters
    ----------
    running : sequence of float
        Totals after 24, 48, 72 h; never falling.

    Returns
    -------
    list of float
        Corns newly grown on each day.

    Raises
    ------
    OutOfRange
        When a total is below the one before.

    Examples
    --------
    >>> newly_from_running(running=(60, 90, 97))
    [60.0, 30.0, 7.0]
    """
    newly = []
    before = 0.0
    for total in running:
        check("running", total, Limits(before, 1e6), "A running total never falls.")
        newly.append(float(total - before))
        before = total
    return newly


def sensitivity_class(*, points: float) -> str:
    """Give the class of water sensitivity.

    Parameters
    ----------
    points : float
        Germination in 4 ml less that in 8 ml [points], -100 to 100.

    Returns
    -------
    str
        slight (under 10), some (10 to under 26), marked (26 to 45) or strong (over 45).

    Raises
    ------
    OutOfRange
        When the points are outside their limits.

    Notes
    -----
    The classes are from memory.  Published and read: 30 points or more is sensitive
    (Montana State University, barley breeding laboratory).

    Examples
    --------
    >>> sensitivity_class(points=9.9), sensitivity_class(points=45.0)
    ('slight', 'marked')
    """
    check("points", points, Limits(-100.0, 100.0))
    for below, name in SENSITIVITY_CLASSES[:-1]:
        if points < below:
            return name
    return SENSITIVITY_CLASSES[-1][1] if points <= SENSITIVITY_CLASSES[-1][0] else MOST_SENSITIVE
