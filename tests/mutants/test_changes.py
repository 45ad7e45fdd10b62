"""What is changed in a file and what is left alone."""

import ast
from pathlib import Path

import pytest

from tests.mutants.changes import changed, mutants

TEXT = '''"""At most 3."""
from typing import NamedTuple

LIMIT = 17.27


class Edge(NamedTuple):
    """Edge 5."""

    label: str = "5 h"
    high: float = 0.5


def held(value: float, other: "float" = 2) -> bool:
    """At least 4."""
    if value < 1 or not other:
        raise ValueError(f"{value} is not {3 + 4}")
    return min(value, LIMIT) - 1e-12 > other
'''


@pytest.fixture
def file(tmp_path: Path) -> Path:
    path = tmp_path / "edge.py"
    path.write_text(TEXT, "utf-8")
    return path


def test_numbers_edges_signs_and_ends_are_changed_and_words_are_not(file: Path) -> None:
    found = {(m.old, m.new) for m in mutants(file, file.parent)}
    assert found == {
        ("17.27", "17.6154"),  # a step of its last digit is less than two per cent
        ("0.5", "0.6"),
        ("2", "3"),
        ("value < 1 or not other", "value < 1 and (not other)"),
        ("value < 1", "value <= 1"),
        ("value < 1", "value >= 1"),
        ("not other", "other"),
        ("1", "2"),
        ("min(value, LIMIT) - 1e-12 > other", "min(value, LIMIT) - 1e-12 >= other"),
        ("min(value, LIMIT) - 1e-12 > other", "min(value, LIMIT) - 1e-12 <= other"),
        ("min(value, LIMIT) - 1e-12", "min(value, LIMIT) + 1e-12"),
        ("min(value, LIMIT)", "max(value, LIMIT)"),
        ("1e-12", "0.0"),
    }


def test_each_change_is_made_once_and_where_it_stands(file: Path) -> None:
    as_it_is = ast.unparse(ast.parse(TEXT))
    every = mutants(file, file.parent)
    texts = {ast.unparse(changed(file, m.which)) for m in every}
    assert len(texts) == len(every) and as_it_is not in texts
    for mutant in every:
        assert mutant.function == ("held" if mutant.line > 13 else "Edge" if mutant.line > 6 else "")
        assert mutant.old in TEXT.splitlines()[mutant.line - 1]
        assert mutant.lines[0] <= mutant.line <= mutant.lines[1]
        different = [
            (a, b)
            for a, b in zip(as_it_is.splitlines(), ast.unparse(changed(file, mutant.which)).splitlines(), strict=True)
            if a != b
        ]
        assert len(different) == 1
