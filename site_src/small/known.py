"""All that the small engine knows. What stands in none of these tables stops the build."""

from __future__ import annotations

import ast
import builtins
from functools import cache
from pathlib import Path

STD = Path(__file__).parent / "std"

ROOMS = ("asking", "drawing", "house_data", "house_limits", "models", "page", "rules", "sheets", "sources", "words")
"""Rooms of ``calculators`` on the way to an answer. Where a function imports another, the other engine is asked."""

OTHER_ENGINE = {"numpy", "numpy.typing", "pkgutil", "qrcodegen", "random"}
"""Libraries that a sheet may import inside a function; whoever comes there is answered by the other engine."""

INSTALLED = {
    "psychrolib": (
        "GetHumRatioFromRelHum", "GetMoistAirEnthalpy", "GetMoistAirVolume", "GetRelHumFromHumRatio",
        "GetStandardAtmPressure",
    ),
}  # fmt: skip
"""Libraries of others that are written anew from their own source, as far as these functions of them reach."""

TYPES_ONLY = {"__future__", "typing", "collections.abc"}
"""Modules that only types are imported from; a class names ``NamedTuple`` and ``Protocol``, ``isinstance`` the rest."""

BY_A_HOUSE = {"house_data", "house_limits"}
"""Modules that are there where a house has a file of its own; they hold data and nothing else."""

OF_STD = {"__init__"}
"""What is called on anything else, beyond the names below."""

NATIVE = {
    "abs", "all", "any", "bool", "enumerate", "filter", "frozenset", "getattr", "len", "list", "map", "max", "min",
    "next", "object", "property", "range", "set", "staticmethod", "super", "tuple", "ArithmeticError",
    "AttributeError", "Exception", "ImportError", "IndexError", "KeyError", "LookupError", "NotImplementedError",
    "OverflowError", "StopIteration", "TypeError", "ValueError", "ZeroDivisionError",
}  # fmt: skip
"""What is built in and does there what it does here; ``tests/small`` tries it."""

REPLACED = {
    "dict": "Ordered", "float": "to_float", "int": "to_int", "repr": "shown", "reversed": "backwards",
    "round": "rounded", "sorted": "in_order", "str": "said", "sum": "total",
    "ModuleNotFoundError": "ModuleNotFoundError",
}  # fmt: skip
"""What is built in and does something else there, with the function of ``std/prelude.py`` that is called instead."""

METHODS = {
    "add", "append", "clear", "count", "endswith", "extend", "get", "index", "insert", "items", "join", "keys",
    "pop", "remove", "replace", "setdefault", "startswith", "update", "values",
}  # fmt: skip
"""Methods of texts, lists, dicts and sets that do there what they do here."""

REPLACED_METHODS = {
    "capitalize", "format", "isalnum", "isalpha", "isascii", "isdigit", "isprintable", "lower", "lstrip",
    "removeprefix", "removesuffix", "rsplit", "rstrip", "sort", "split", "strip", "upper",
}  # fmt: skip
"""Methods that know only ASCII there: ``text.lower()`` becomes ``m_lower(text)`` of ``std/prelude.py``."""

IN_ISINSTANCE = {
    "str": ("str",), "float": ("float",), "int": ("int", "bool"), "bool": ("bool",), "list": ("list",),
    "dict": ("dict",), "tuple": ("tuple", "Named"), "Mapping": ("dict",),
    "Sequence": ("list", "tuple", "Named", "str", "range"),
}  # fmt: skip
"""What ``isinstance`` is asked there for a class that is asked for here."""

FORMATS = (r",?\.\{?\w+\}?[fg]", "g")
"""Formats of numbers, as regular expressions; ``{}`` is a count of digits that is only known later."""

DATE_FORMATS = "%[HMYab]"

NODES = {
    "Add", "And", "AnnAssign", "Assert", "Assign", "Attribute", "AugAssign", "BinOp", "BitAnd", "BitOr", "BoolOp",
    "Break", "Call", "ClassDef", "Compare", "Constant", "Continue", "Del", "Delete", "Dict", "DictComp", "Div",
    "Eq", "ExceptHandler", "Expr", "FloorDiv", "For", "FormattedValue", "FunctionDef", "GeneratorExp", "Gt", "GtE",
    "If", "IfExp", "Import", "ImportFrom", "In", "Is", "IsNot", "JoinedStr", "Lambda", "List", "ListComp", "Load",
    "Lt", "LtE", "Mod", "Module", "Mult", "Name", "NamedExpr", "Not", "NotEq", "NotIn", "Or", "Pass", "Pow",
    "Raise", "Return", "Set", "SetComp", "Slice", "Starred", "Store", "Sub", "Subscript", "Try", "Tuple", "UAdd",
    "USub", "UnaryOp", "While", "With", "Yield", "YieldFrom", "alias", "arg", "arguments", "comprehension",
    "keyword", "withitem",
}  # fmt: skip
"""Constructs, as ``ast`` calls them."""

DECORATORS = {"property", "staticmethod", "cached_property", "contextmanager", "lru_cache"}

_OF_TYPES = (str, list, dict, tuple, set, frozenset, float, int, bytes)
LIBRARY_METHODS = {name for kind in _OF_TYPES for name in dir(kind)} - METHODS - REPLACED_METHODS
"""Methods that types have here and that are not known there."""

BUILT_IN = set(dir(builtins))


def stand_in(module: str) -> Path:
    """The file that stands in for a module of the library; it need not be there."""
    return STD / f"{module.rsplit('.', 1)[-1].lower()}.py"


@cache
def names_of(module: str) -> frozenset[str]:
    """The names that a stand-in gives to whoever imports it."""
    found: set[str] = set()
    for one in ast.parse(stand_in(module).read_text("utf-8")).body:
        if isinstance(one, (ast.FunctionDef, ast.ClassDef)):
            found.add(one.name)
        elif isinstance(one, ast.Assign):
            found |= {at.id for at in one.targets if isinstance(at, ast.Name)}
        elif isinstance(one, (ast.Import, ast.ImportFrom)):
            found |= {at.asname or at.name for at in one.names}
    return frozenset(name for name in found if not name.startswith("_"))


@cache
def std_attributes() -> frozenset[str]:
    """Names of methods and fields of the classes of all stand-ins."""
    found: set[str] = set()
    for path in sorted(STD.glob("*.py")):
        for node in ast.walk(ast.parse(path.read_text("utf-8"))):
            if isinstance(node, ast.ClassDef):
                found |= {one.name for one in node.body if isinstance(one, ast.FunctionDef)}
                stored = [one for each in node.body if isinstance(each, ast.Assign) for one in each.targets]
                found |= {one.id for one in stored if isinstance(one, ast.Name)}
            elif isinstance(node, ast.Attribute) and isinstance(node.ctx, ast.Store):
                found.add(node.attr)
    return frozenset(name for name in found if not name.startswith("__"))
