"""The table of the units that the sheets use and of those that a person may type, from their one declaration."""

from __future__ import annotations

from collections.abc import Iterator

from calculators.asking.units import UNITS, Unit, convert

_OF_A_SCALE = (50.0, 300.0)  # degrees shown, where one scale is no multiple of the other


def unit_lines() -> Iterator[str]:
    """Write the table as Markdown."""
    yield from ("", "| Unit | In words | Also understood |", "|---|---|---|")
    for name, unit in UNITS.items():
        if name:
            yield f"| {unit.show} | {unit.spoken} | {'; '.join(_others(name, unit)) or '–'} |"
    yield ""


def _others(name: str, unit: Unit) -> Iterator[str]:
    """Say each other unit once, with what one of it is; names of the same thing are left out."""
    said: set[tuple[float, float]] = {(1.0, 0.0)}
    for alias, pair in unit.accepts.items():
        if pair in said:
            continue
        said.add(pair)
        amount = next(n for n in _OF_A_SCALE if n * pair[0] + pair[1] > 0) if pair[1] else 1.0
        value = convert(amount, alias, name)
        yield f"{amount:g}\u00a0{alias} = {value:.5g}\u00a0{unit.show}"
