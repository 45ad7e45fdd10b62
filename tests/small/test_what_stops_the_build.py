"""What the small engine does not know stops the build, with file, line and what to write instead."""

from __future__ import annotations

import pytest

from site_src.settings import BuildError
from tests.small.both import written

HEAD = "from __future__ import annotations\nimport math\nimport re\nfrom typing import NamedTuple\n"

STOPS = {
    "a match statement": "def f(x):\n    match x:\n        case 1:\n            return 2",
    "a global": "def f():\n    global x\n    x = 1",
    "await": "async def f():\n    return 1",
    "a built-in function": "print(1)",
    "a method of text": "x = 'a'.title()",
    "a method of lists": "x = [1].copy()",
    "an attribute": "x = (1).numerator",
    "a module": "import statistics\nx = statistics.mean([1])",
    "a name of a module": "x = math.gamma(2.0)",
    "a name that is imported": "from math import gamma\nx = gamma(2.0)",
    "numpy at the head": "import numpy\nx = numpy.pi",
    "a format": "x = f'{3:05d}'",
    "a format of days": "x = f'{3:%j}'",
    "a conversion": "x = f'{3!a}'",
    "text % values": "x = '%d' % 3",
    "a pattern with an end": "x = re.compile('a$')",
    "a pattern that is not there": "y = 'a'\nx = re.compile(y)",
    "another function of re": "x = re.search('a', 'b')",
    "the order of a set": "x = [y for y in {1, 2}]",
    "a decorator": "import functools\n@functools.wraps\ndef f():\n    pass",
    "a base": "class A(dict):\n    pass",
    "two bases": "class A(ValueError, KeyError):\n    pass",
    "isinstance of a union": "x = isinstance(1, int | float)",
    "isinstance of another": "x = isinstance(1, complex)",
    "a name that is built in": "def f(sum):\n    return sum",
    "a method beside one of ours": "class A:\n    def strip(self):\n        return 1\nx = A().strip()",
    "a slice that is stored to": "x = [1, 2]\nx[::2] = [3]",
}


@pytest.mark.parametrize("source", STOPS.values(), ids=STOPS.keys())
def test_it_stops(source):
    with pytest.raises(BuildError, match=r"things\.py:\d+: the small engine does not know .+\. \S"):
        written(HEAD + source)


def test_it_names_the_line():
    with pytest.raises(BuildError, match=r"things\.py:6: the small engine does not know"):
        written(HEAD + "x = 1\ny = math.gamma(2.0)")


def test_what_is_known_passes():
    text = written(HEAD + "class A(NamedTuple):\n    x: float = 1.0\n\n\ndef f(a: A) -> str:\n    return f'{a.x:.1f}'")
    assert "_s_formatted(a.x, '.1f')" in text and "float = 1.0" not in text


def test_another_engines_library_inside_a_function_is_a_fault_there():
    text = written(HEAD + "def f():\n    import numpy as np\n    return np")
    assert "raise _s_Elsewhere('numpy')" in text
