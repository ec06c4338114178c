"""A class name means one thing in the whole house."""

import ast
from collections import defaultdict
from pathlib import Path

import quizzer
from tests.house.imports import modules_of


def test_no_class_name_stands_in_two_rooms():
    rooms = defaultdict(set)
    for module in modules_of(Path(quizzer.__file__).parent):
        for node in module.tree.body:
            if isinstance(node, ast.ClassDef) and not node.name.startswith("_"):
                rooms[node.name].add(module.room)
    assert len(rooms) > 200
    assert {name: sorted(found) for name, found in rooms.items() if len(found) > 1} == {}
