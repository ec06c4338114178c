"""One order: whatever puts entries in line calls `schedule.line`, and nothing else sorts what is to be asked."""

import ast
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
# Who may call the order and the choice of the next question, and nobody else.
CALLERS = {
    "line": {"workflows/study/starting.py", "schedule/planning.py", "scripts/demonstration.py"},
    "turn": {"workflows/study/session.py", "schedule/pacing.py"},
    "right_day": {"schedule/planning.py"},
    "newcomers": {"schedule/queue.py"},
}
HOME = {"schedule/queue.py", "schedule/newcomers.py"}  # where entries are put in order
SORTERS = {"sorted", "sort", "shuffle", "argsort", "lexsort", "nlargest", "nsmallest"}
MEMORY = {"due", "interval", "owed", "ease"}  # what an order of entries would look at
PLACES = {"Standing", "Fresh"}


def calls_in(text: str) -> list[tuple[str, ast.Call]]:
    """Every call with the bare name of what is called."""
    return [
        (node.func.id if isinstance(node.func, ast.Name) else node.func.attr, node)
        for node in ast.walk(ast.parse(text))
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Name | ast.Attribute)
    ]


def faults_of(name: str, text: str) -> list[str]:
    """What in a file puts entries in order past the one function."""
    tree, faults = ast.parse(text), []
    from_schedule = {
        alias.name
        for node in ast.walk(tree)
        if isinstance(node, ast.ImportFrom) and (node.module or "").startswith("quizzer.schedule")
        for alias in node.names
    }
    for called, node in calls_in(text):
        if called in CALLERS and called in from_schedule and name not in CALLERS[called]:
            faults.append(f"{name}:{node.lineno}: calls {called}")
        looks_at = {each.attr for part in ast.walk(node) if isinstance(each := part, ast.Attribute)}
        if called in SORTERS and looks_at & MEMORY and name not in HOME:
            faults.append(f"{name}:{node.lineno}: sorts by {', '.join(sorted(looks_at & MEMORY))}")
        if called in SORTERS and from_schedule & PLACES and name not in HOME:
            faults.append(f"{name}:{node.lineno}: sorts where entries to be asked are held")
    return faults


FILES = [*sorted((ROOT / "quizzer").rglob("*.py")), *sorted((ROOT / "scripts").rglob("*.py"))]
KNOWN = {
    # The reference rules that the program is measured against, and reports of what was asked.
    "scripts/simulation/plainly.py",
}
# They sort topics for a table, answers by their day, and what is known for a page.
REPORTS = {"workflows/forecast/plan.py", "workflows/study/order_by_gain.py", "workflows/forecast/progress.py"}


def label(path: Path) -> str:
    return path.relative_to(ROOT).as_posix().removeprefix("quizzer/")


def test_nothing_else_builds_an_order() -> None:
    faults = [
        fault for path in FILES if label(path) not in KNOWN for fault in faults_of(label(path), path.read_text("utf-8"))
    ]
    assert [fault for fault in faults if fault.partition(":")[0] not in REPORTS] == []


@pytest.mark.parametrize("name", ["line", "turn", "right_day", "newcomers"])
def test_each_is_called_where_it_is_said_to_be(name: str) -> None:
    for place in CALLERS[name]:
        path = ROOT / place if place.startswith("scripts/") else ROOT / "quizzer" / place
        assert name in {called for called, _ in calls_in(path.read_text("utf-8"))}, f"{place} does not call {name}"


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("from quizzer.schedule import line\nx = line(a, b, c)", "calls line"),
        ("x = sorted(a, key=lambda one: one.memory.due)", "sorts by due"),
        ("from quizzer.schedule import Standing\na.sort()", "sorts where"),
        ("from quizzer.schedule.pacing import turn\nturn(a, b, c)", "calls turn"),
    ],
)
def test_another_order_is_found(text: str, words: str) -> None:
    assert any(words in fault for fault in faults_of("workflows/other.py", text))
