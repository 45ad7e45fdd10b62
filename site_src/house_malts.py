"""A house's own targets by the malt that is made, from the table ``malts`` of its file."""

from __future__ import annotations

from collections.abc import Callable

from calculators.rules.limits.casting import MOISTURE
from calculators.rules.limits.floor_germination import PIECE
from calculators.rules.malts import BOOK_MALTS, QUANTITIES, Quantity
from site_src.settings import BuildError

Malts = dict[str, dict[str, tuple[float, float]]]
Fault = Callable[[str, str], BuildError]

_STOPS = {"cast": MOISTURE, "floor": PIECE}
_OTHER = ("reason", "office")
_LONGEST = 200


def malts_of(tables: object, edges: dict[str, dict[str, float]], fault: Fault) -> Malts:
    """The checked targets, by id of the malt.

    Parameters
    ----------
    tables : object
        What stands under ``malts`` in the file.
    edges : dict
        The edges that the same file moves, by id of the limit: no target lies past a stop of this house.
    fault : callable
        Makes the fault with the line on which a word stands.

    Raises
    ------
    BuildError
        When a malt, a quantity or a figure is not one that can be.
    """
    if not isinstance(tables, dict):
        raise fault("malts", "malts is a table: write [malts.dark] above its targets.")
    return {name: _row(name, table, edges, fault) for name, table in tables.items()}


def _row(
    name: str, table: object, edges: dict[str, dict[str, float]], fault: Fault
) -> dict[str, tuple[float, float]]:
    known = [row.id for row in BOOK_MALTS]
    if name not in known:
        raise fault(name, f"there is no malt “{name}”. There are: {', '.join(known)}.")
    if not isinstance(table, dict):
        raise fault(name, f"write [malts.{name}] above its targets.")
    quantities = {one.id: one for one in QUANTITIES}
    found = {}
    for key, value in table.items():
        if key in _OTHER:
            if not isinstance(value, str) or len(value) > _LONGEST or not value.isprintable():
                raise fault(key, f"{key} is one line of text of at most {_LONGEST} letters.")
        elif key not in quantities:
            raise fault(key, f"“{key}” is not known. Known are: {', '.join((*quantities, *_OTHER))}.")
        else:
            found[key] = _pair(name, quantities[key], value, edges, fault)
    for key in _OTHER:
        if not table.get(key):
            raise fault(name, f"{name}: write {key} = “…” too.")
    if not found:
        raise fault(name, f"{name}: no target is given. There are: {', '.join(quantities)}.")
    return found


def _pair(
    name: str, quantity: Quantity, value: object, edges: dict[str, dict[str, float]], fault: Fault
) -> tuple[float, float]:
    lowest, highest = quantity.lowest, quantity.highest
    stops = _STOPS.get(quantity.id)
    if stops is not None:  # as this very file moves them
        moved = edges.get(stops.id, {})
        lowest, highest = moved.get("stop_low", lowest), moved.get("stop_high", highest)
    said = f"{name}: {quantity.id} is two figures from {lowest:g} to {highest:g}, the low one first"
    numbers = isinstance(value, list) and len(value) == 2 and not any(isinstance(one, bool) for one in value)
    if not numbers or not all(isinstance(one, (int, float)) for one in value):  # type: ignore[attr-defined]
        raise fault(quantity.id, f"{said}, such as {quantity.id} = [{lowest:g}, {highest:g}].")
    low, high = (float(one) for one in value)  # type: ignore[attr-defined]
    if not lowest <= low <= high <= highest:
        raise fault(quantity.id, f"{said}, not {low:g} and {high:g}.")
    return low, high
