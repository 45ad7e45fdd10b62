"""The germination test: its index."""

from collections.abc import Sequence

from ..bounds import Bounds, OutOfRange, check


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
        check("newly_grown", count, Bounds(0.0, 1e6))
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
        check("running", total, Bounds(before, 1e6), "A running total never falls.")
        newly.append(float(total - before))
        before = total
    return newly
