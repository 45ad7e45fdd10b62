"""Every limit of the trade, once, in a file for each procedure; ``every`` gives them all.

A sheet imports the file it needs and nothing else, so that a page carries little.
"""

from importlib import import_module

from ..limit import Limit, Signs

PAGES = (
    "intake_and_storage",
    "germination_test",
    "store_through_the_year",
    "filling_the_steep",
    "steeping",
    "measuring_moisture",
    "quick_moisture",
    "casting",
    "floor_germination",
    "drum_germination",
    "box_germination",
    "readiness",
    "kiln_hand_over",
    "hand_over",
    "between_batches",
)
"""The files of limits, in the order of the work: each is named for its procedure's page."""


def of_page(page: str) -> tuple[Limit | Signs, ...]:
    """The limits of a procedure, in the order of its table.

    Parameters
    ----------
    page : str
        The procedure's file name, such as ``floor-germination``.

    Raises
    ------
    LookupError
        When the page has no limits; the message names those that have.
    """
    name = page.replace("-", "_")
    if name not in PAGES:
        raise LookupError(f"No limits for “{page}”. There are some for: {', '.join(PAGES).replace('_', '-')}.")
    rows: tuple[Limit | Signs, ...] = import_module(f"{__name__}.{name}").ROWS
    return rows


def every() -> tuple[Limit | Signs, ...]:
    """All limits, in the order of the work."""
    return tuple(row for page in PAGES for row in of_page(page))
