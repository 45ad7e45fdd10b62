"""The calculators, one a file: questions go in, models and rules work, words come out."""

from importlib import import_module

from ..asking.declare import Sheet


def sheet_ids() -> list[str]:
    """The ids of all sheets, in alphabetical order."""
    from pkgutil import iter_modules  # a page that names its sheet needs no list of all

    return sorted(module.name.replace("_", "-") for module in iter_modules(__path__))


def find_sheet(sheet_id: str) -> Sheet:
    """The sheet of that id.

    Raises
    ------
    LookupError
        When there is none; the message names those there are.
    """
    module = f"{__name__}.{sheet_id.replace('-', '_')}"
    if sheet_id.replace("-", "").isalnum() and sheet_id.isascii():
        try:
            sheet: Sheet = import_module(module).SHEET
            return sheet
        except ModuleNotFoundError as missing:
            if missing.name != module:
                raise
    raise LookupError(f"There is no sheet “{sheet_id}”. There are: {', '.join(sheet_ids())}.")
