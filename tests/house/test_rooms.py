"""Rooms import only lower rows and keep their libraries to themselves; pure ones touch nothing outside."""

from pathlib import Path

import pytest

from tests.house.rooms import faults_in

PACKAGE = Path(__file__).parents[2] / "quizzer"


def test_the_house_is_in_order() -> None:
    assert faults_in(PACKAGE) == []


def tree(root: Path, files: dict[str, str]) -> Path:
    """A package called quizzer with these files."""
    for name, text in files.items():
        path = root / "quizzer" / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")
    return root / "quizzer"


BAD = [
    # rows
    ("bank/a.py", "from quizzer.cli import main", "bank may not import cli"),
    ("bank/a.py", "def f():\n    import quizzer.store", "a.py:2: bank may not import store"),
    ("units.py", "from quizzer.figures import x", "units may not import figures"),
    ("question/a.py", "from quizzer import schedule", "question may not import schedule"),
    ("schedule.py", "from . import question", "schedule may not import question"),
    ("question/a.py", "from ..paper import x", "question may not import paper"),
    (
        "errors.py",
        "from typing import TYPE_CHECKING\nif TYPE_CHECKING:\n    import quizzer.bank",
        "errors.py:3: errors",
    ),
    ("__init__.py", "from quizzer.errors import X", "quizzer may not import errors"),
    # parts of a room
    ("circuit/model/a.py", "from quizzer.circuit.testing.b import x", "circuit/model may not import circuit/testing"),
    ("circuit/testing/a.py", "from ..game import x", "circuit/testing may not import circuit/game"),
    ("circuit/model/a.py", "from quizzer.circuit.diagram import x", "circuit/model may not import circuit/"),
    ("question/a.py", "from quizzer.question.rig.b import x", "question/ may not import question/rig"),
    ("bank/a.py", "from quizzer import VERSION", "which no room holds"),
    ("bank/a.py", "import quizzer", "which no room holds"),
    ("helpers.py", "", "no row is given for the room 'helpers'"),
    # libraries
    ("workflows/a.py", "import typer", "typer belongs in cli, not in workflows"),
    ("cli/a.py", "from sqlmodel import Session", "sqlmodel belongs in store, not in cli"),
    ("units.py", "def f():\n    import pint", "units.py:2: pint belongs in lint"),
    ("lint/a.py", "import ast", "ast belongs in bank and expression, not in lint"),
    ("bankfiles/a.py", "import tomllib", "tomllib belongs in bank and expression"),
    ("paper/a.py", "import numpy as np", "numpy is imported inside the function"),
    ("cli/a.py", "import requests", "no room is the home of requests"),
    ("cli/a.py", "from importlib import import_module\nimport_module('pint')", "hides an import"),
    ("lint/a.py", "__import__('numpy')", "hides an import"),
    # clocks
    ("schedule.py", "import time", "time does not belong in schedule"),
    (
        "schedule.py",
        "from datetime import datetime\ndatetime.now()",
        "schedule.py:2: datetime.datetime.now is a clock",
    ),
    ("schedule.py", "import datetime as dt\nx = dt.date.today", "datetime.date.today is a clock"),
    (
        "paper/a.py",
        "from datetime import date as day\ndef f(on=day.today()): ...",
        "datetime.date.today is a clock",
    ),
    # dice
    ("question/a.py", "import random\nrandom.random()", "random.random is unseeded dice"),
    ("question/a.py", "from random import choice\nchoice([1])", "random.choice is unseeded dice"),
    ("question/a.py", "import random\nrandom.Random()", "random.Random is unseeded dice"),
    ("schedule.py", "import random\nrandom.Random('x')", "random.Random is unseeded dice"),
    ("question/a.py", "import random\nrandom.SystemRandom()", "random.SystemRandom is unseeded dice"),
    ("recall/a.py", "from uuid import uuid4\nuuid4()", "uuid.uuid4 is unseeded dice"),
    ("question/a.py", "import secrets", "secrets does not belong in question"),
    # the outside
    ("bank/a.py", "open('x')", "open reaches the outside world"),
    ("figures.py", "print('x')", "print reaches the outside world"),
    ("question/a.py", "x = input()", "input reaches the outside world"),
    ("bank/a.py", "def f(path):\n    return path.read_text()", "?.read_text reaches the outside world"),
    (
        "bank/a.py",
        "from pathlib import Path\nPath('x').write_bytes",
        "?.write_bytes reaches the outside world",
    ),
    (
        "bank/a.py",
        "from pathlib import Path\nPath.write_text",
        "pathlib.Path.write_text reaches the outside world",
    ),
    ("units.py", "import os\nos.environ['X']", "os.environ reaches the outside world"),
]


@pytest.mark.parametrize(("name", "text", "words"), BAD)
def test_a_fault_is_found(tmp_path: Path, name: str, text: str, words: str) -> None:
    faults = faults_in(tree(tmp_path, {"__init__.py": "", name: text}))
    assert len(faults) == 1
    assert words in faults[0]


GOOD = [
    ("cli/a.py", "import typer\nfrom quizzer.workflows import study\nfrom quizzer.errors import X"),
    ("bank/a.py", "import tomllib\nfrom quizzer.bank.b import x\nfrom .b import y\nfrom ..units import z"),
    (
        "question/a.py",
        "import random\ndef f(seed: str) -> random.Random:\n    return random.Random(f'{seed}')",
    ),
    ("question/a.py", "from random import Random\ndef f(dice: Random):\n    return dice.random()"),
    ("workflows/a.py", "from datetime import datetime\ndatetime.now()"),
    (
        "schedule.py",
        "from datetime import date, timedelta\ndef f(today: date, now):\n    return now() or today",
    ),
    ("bank/a.py", "def read(open):\n    return open('x')"),
    ("bankfiles/a.py", "def f(path):\n    return path.read_text() or open(path)"),
    ("recall/a.py", "def f():\n    import numpy as np\n    return np.random"),
    ("circuit/game/a.py", "from quizzer.circuit.testing.b import x\nfrom ..model.c import y\nfrom .d import z"),
    ("question/rig/a.py", "from quizzer.question.b import x\nfrom quizzer.circuit.game.c import y"),
    ("question/making.py", "def f():\n    from quizzer.question.rig.b import x"),
    ("__main__.py", "from quizzer.cli import main\nmain()"),
]


@pytest.mark.parametrize(("name", "text"), GOOD)
def test_what_is_allowed_is_let_be(tmp_path: Path, name: str, text: str) -> None:
    assert faults_in(tree(tmp_path, {"__init__.py": "", name: text})) == []


def test_a_cycle_inside_a_room_is_found_with_its_way(tmp_path: Path) -> None:
    package = tree(
        tmp_path,
        {
            "bank/__init__.py": "",
            "bank/a.py": "from quizzer.bank import b",
            "bank/b.py": "def f():\n    from .c import x",
            "bank/c.py": "import quizzer.bank.a",
        },
    )
    assert faults_in(package)[0] == (
        "quizzer.bank.a: imports itself by way of quizzer.bank.a -> quizzer.bank.b -> quizzer.bank.c -> quizzer.bank.a"
    )


def test_a_room_that_imports_from_its_own_front_door_is_a_cycle(tmp_path: Path) -> None:
    files = {"bank/__init__.py": "from quizzer.bank.a import X", "bank/a.py": "from quizzer.bank import X"}
    assert "imports itself" in faults_in(tree(tmp_path, files))[0]
