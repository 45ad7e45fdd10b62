"""The examples in the docstrings of the rules."""

import doctest
import importlib
import pkgutil

import pytest

import calculators.rules

MODULES = [module.name for module in pkgutil.iter_modules(calculators.rules.__path__)]


@pytest.mark.parametrize("name", MODULES)
def test_examples_in_docstrings_of_rules(name: str) -> None:
    assert doctest.testmod(importlib.import_module(f"calculators.rules.{name}")).failed == 0
