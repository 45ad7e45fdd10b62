# JSON as CPython writes and reads it: in order, every letter that is not ASCII as an escape, numbers in full.
from bridge import quoted as _quoted
from bridge import unquoted as _unquoted
from std.prelude import Elsewhere, Ordered, shortest, to_float, to_int

_SPACE = " \t\n\r"


def dumps(one):
    if isinstance(one, str):
        return _quoted(one)
    if one is None:
        return "null"
    if isinstance(one, bool):
        return "true" if one else "false"
    if isinstance(one, float):
        if one - one != 0.0:
            return "NaN" if one != one else "Infinity" if one > 0 else "-Infinity"
        return shortest(one)
    if isinstance(one, int):
        return str(one)
    if isinstance(one, dict):
        for key in one:
            if not isinstance(key, str):
                raise Elsewhere("JSON with a key that is no text")
        return "{" + ", ".join([_quoted(key) + ": " + dumps(worth) for key, worth in one.items()]) + "}"
    if isinstance(one, (list, tuple)) or hasattr(one, "_fields"):
        return "[" + ", ".join([dumps(each) for each in one]) + "]"
    raise TypeError("no JSON of a " + type(one).__name__)


def loads(text):
    found, at = _value(text, _skip(text, 0), 0)
    if _skip(text, at) != len(text):
        raise ValueError("Extra data")
    return found


def _skip(text, at):
    while text[at : at + 1] and text[at] in _SPACE:
        at += 1
    return at


_WORDS = (
    ("null", None), ("true", True), ("false", False),
    ("NaN", float("nan")), ("Infinity", float("inf")), ("-Infinity", -float("inf")),
)


def _value(text, at, deep):
    if deep > 60:  # a form is not so deep
        raise Elsewhere("JSON so deep")
    letter = text[at : at + 1]
    if letter == '"':
        return _string(text, at)
    if letter == "{":
        return _dict(text, _skip(text, at + 1), deep)
    if letter == "[":
        return _list(text, _skip(text, at + 1), deep)
    for word, worth in _WORDS:
        if text.startswith(word, at):
            return worth, at + len(word)
    end = at
    while text[end : end + 1] and text[end] in "+-0123456789.eE":
        end += 1
    part = text[at:end]
    if not part:
        raise ValueError("Expecting value")
    return (to_float(part) if "." in part or "e" in part or "E" in part else to_int(part)), end


def _string(text, at):
    end = at
    while True:
        end = text.find('"', end + 1)
        if end < 0:
            raise ValueError("Unterminated string")
        back = end
        while text[back - 1] == "\\":
            back -= 1
        if (end - back) % 2 == 0:
            break
    part = text[at + 1 : end]
    if "\U0010ffff" in part:
        raise Elsewhere("the letter U+10FFFF")
    return (_unquoted('"' + part + '"') if "\\" in part else part), end + 1


def _list(text, at, deep):
    found = []
    if text[at : at + 1] == "]":
        return found, at + 1
    while True:
        one, at = _value(text, _skip(text, at), deep + 1)
        found.append(one)
        at = _skip(text, at)
        if text[at : at + 1] == "]":
            return found, at + 1
        if text[at : at + 1] != ",":
            raise ValueError("Expecting ',' delimiter")
        at += 1


def _dict(text, at, deep):
    found = Ordered()
    if text[at : at + 1] == "}":
        return found, at + 1
    while True:
        at = _skip(text, at)
        if text[at : at + 1] != '"':
            raise ValueError("Expecting property name")
        key, at = _string(text, at)
        at = _skip(text, at)
        if text[at : at + 1] != ":":
            raise ValueError("Expecting ':' delimiter")
        found[key], at = _value(text, _skip(text, at + 1), deep + 1)
        at = _skip(text, at)
        if text[at : at + 1] == "}":
            return found, at + 1
        if text[at : at + 1] != ",":
            raise ValueError("Expecting ',' delimiter")
        at += 1
