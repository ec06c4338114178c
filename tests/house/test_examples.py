"""What a docstring shows as an example is what comes back."""

import doctest
import importlib
from pathlib import Path

import quizzer
from tests.house.imports import modules_of

MODULES = [module.name for module in modules_of(Path(quizzer.__file__).parent) if not module.name.endswith("__main__")]


def test_every_example_of_a_docstring_is_true():
    ran = {name: doctest.testmod(importlib.import_module(name)) for name in MODULES}
    assert {name: found.failed for name, found in ran.items() if found.failed} == {}
    assert sum(found.attempted for found in ran.values()) > 100
