"""Files and functions stay small enough to be read whole, and names say what is inside."""

from pathlib import Path

import pytest

from tests.house.sizes import bodies_of, faults_in

PACKAGE = Path(__file__).parents[2] / "quizzer"


def test_the_house_is_in_order() -> None:
    assert faults_in(PACKAGE) == []


def function(name: str, lines: int) -> str:
    return f"def {name}(\n    a,\n    b,\n):\n    '''Not counted.'''\n" + "    a = b\n" * lines


def package(root: Path, **files: str) -> Path:
    for name, text in files.items():
        (root / f"{name}.py").write_text(text, encoding="utf-8")
    return root


def test_a_body_is_counted_without_signature_and_docstring(tmp_path: Path) -> None:
    text = function("f", 3) + "class A:\n    def g(self): return 1\n    async def h(self):\n        'Only words.'\n"
    package(tmp_path, a=text)
    assert list(bodies_of(tmp_path / "a.py").values()) == [3, 1, 0]


@pytest.mark.parametrize("lines", [250, 251])
def test_a_file_over_its_cap_is_found(tmp_path: Path, lines: int) -> None:
    package(tmp_path, big="x = 1\n" * lines, small="", tiny="")
    found = [] if lines == 250 else [f"{tmp_path / 'big.py'}: 251 lines, cap 250"]
    assert faults_in(tmp_path) == found


@pytest.mark.parametrize("lines", [40, 41])
def test_a_body_over_its_cap_is_found(tmp_path: Path, lines: int) -> None:
    package(tmp_path, a=function("long", lines) + "".join(function(f"f{n}", 1) for n in range(9)))
    found = [] if lines == 40 else [f"{tmp_path / 'a.py'}:1 long: a body of 41 lines, cap 40"]
    assert faults_in(tmp_path) == found


def test_too_many_long_bodies_are_found(tmp_path: Path) -> None:
    few = "".join(function(f"f{n}", 1) for n in range(17))
    package(tmp_path, a=function("one", 20) + function("two", 20), b=few, c="", d="")
    (fault,) = faults_in(tmp_path)
    assert fault.startswith("2 of 19 bodies have 20 lines or more: ")


def test_a_house_of_large_files_is_found(tmp_path: Path) -> None:
    package(tmp_path, a="x = 1\n" * 140, b="x = 1\n" * 131, c="")
    assert faults_in(tmp_path) == ["the median file has 131 lines, not about 130"]


@pytest.mark.parametrize("name", ["utils", "helpers", "common", "core", "manager"])
def test_a_name_that_says_nothing_is_found(tmp_path: Path, name: str) -> None:
    (tmp_path / name).mkdir()
    assert faults_in(tmp_path) == [f"{tmp_path / name}: a name that says nothing"]
