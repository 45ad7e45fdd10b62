import sys

from std.prelude import ModuleNotFoundError


def import_module(name, package=None):
    if name[:1] == ".":
        name = package + name
    try:
        __import__(name)
    except ImportError as fault:
        said = str(fault)
        missing = said.split("'")[1] if "no module named '" in said else None
        raise ModuleNotFoundError(said, missing)
    return sys.modules[name]
