"""A house's own targets by the malt that is made, from the table ``malts`` of its file."""

from __future__ import annotations

from calculators.rules.limits.casting import MOISTURE
from calculators.rules.limits.floor_germination import PIECE
from calculators.rules.malts import BOOK_MALTS, QUANTITIES, Quantity
from site_src.house.limits import OTHER, Fault, line_of_text

Malts = dict[str, dict[str, tuple[float, float]]]

_STOPS = {"cast": MOISTURE, "floor": PIECE}


def malt_row(
    name: str, table: object, edges: dict[str, dict[str, float]], fault: Fault
) -> dict[str, tuple[float, float]]:
    """The checked targets of one malt.

    Parameters
    ----------
    name : str
        Its id.
    table : object
        What stands under its heading.
    edges : dict
        The edges that the same file moves, by id of the limit: no target lies past a stop of this house.
    fault : callable
        Makes the fault with its line.

    Raises
    ------
    BuildError
        When a malt, a quantity or a figure is not one that can be.
    """
    place = f"malts.{name}"
    known = [row.id for row in BOOK_MALTS]
    if name not in known:
        raise fault(f"there is no malt “{name}”. There are: {', '.join(known)}.", place, "")
    if not isinstance(table, dict):
        raise fault(f"write [malts.{name}] above its targets.", place, "")
    quantities = {one.id: one for one in QUANTITIES}
    found = {}
    for key, value in table.items():
        if key in OTHER:
            if wrong := line_of_text(key, value):
                raise fault(wrong, place, key)
        elif key not in quantities:
            raise fault(f"“{key:.40}” is not known. Known are: {', '.join((*quantities, *OTHER))}.", place, key)
        else:
            found[key] = _pair(name, quantities[key], value, edges, fault)
    for key in OTHER:
        if not table.get(key):
            raise fault(f"{name}: write {key} = “…” too.", place, "")
    if not found:
        raise fault(f"{name}: no target is given. There are: {', '.join(quantities)}.", place, "")
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
        raise fault(f"{said}, such as {quantity.id} = [{lowest:g}, {highest:g}].", f"malts.{name}", quantity.id)
    low, high = (float(one) for one in value)  # type: ignore[attr-defined]
    if not lowest <= low <= high <= highest:
        raise fault(f"{said}, not {low:g} and {high:g}.", f"malts.{name}", quantity.id)
    return low, high
