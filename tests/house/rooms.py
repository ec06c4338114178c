"""The rule of the rooms: who may import whom, where a library lives, and what the pure rooms never touch."""

import sys
from collections.abc import Iterator, Mapping, Sequence
from pathlib import Path

from tests.house.imports import Import, Mention, Module, imports_of, mentions_of, modules_of

ROWS = (
    ("errors", "values"),
    ("expression", "units", "figures", "characters", "distributions", "editions"),
    ("bank", "circuit", "blocks"),
    ("question", "schedule", "paper", "marks", "recall", "picture"),
    ("store", "bankfiles", "lint", "render", "scan"),
    ("workflows",),
    ("pages",),
    ("web",),
    ("cli",),
    ("__main__",),
)
ROW = {room: number for number, rooms in enumerate(ROWS) for room in rooms}
PURE = {room for room, number in ROW.items() if number <= 3}
# Rooms that are parted: what each part may import of its own room beside itself. "" are the files in no part, and a
# file that may do more than they has a row of its own.
PARTS = {
    "circuit": {
        "model": (),
        "testing": ("model",),
        "game": ("model", "testing"),
        "installation": ("model", "testing"),
        "commissioning": ("model", "testing", "installation"),
        "": ("model",),
    },
    "workflows": {
        "": (),
        "bank": ("", "people"),
        "people": ("",),
        "faults": ("",),
        "study": ("", "bank"),
        "forecast": ("", "bank", "study"),
        "papers": ("", "bank", "people", "forecast"),  # a mark is held to what was forecast
    },
    "question": {"": (), "rig": ("",), "making": ("", "rig"), "exercises": ("", "making")},
}

HOMES = {
    "typer": ("cli",),
    "click": ("cli",),
    "rich": ("cli",),
    "sqlmodel": ("store",),
    "sqlalchemy": ("store",),
    "psycopg": ("store",),
    "platformdirs": ("store", "cli"),
    "typst": ("render",),
    "lxml": ("render",),
    "pint": ("lint",),
    "numpy": ("circuit", "paper", "marks", "recall", "lint", "scan"),
    "highspy": ("paper",),
    "starlette": ("web",),
    "uvicorn": ("web",),
    "jinja2": ("web",),
    "markupsafe": ("web",),  # comes with jinja2
    "segno": ("render", "web"),
    "cv2": ("scan",),
    "pypdfium2": ("scan",),
    "openpyxl": ("bankfiles", "workflows"),
    "dateutil": ("cli", "workflows"),
    "markdown_it": ("workflows",),
    # of the standard library, but each has one home all the same
    "tomllib": ("bank", "expression"),
    "ast": ("bank", "expression"),
}
LATE_ONLY = ("numpy", "highspy", "psycopg")

DAY, MOMENT = "datetime.date", "datetime.datetime"
CLOCK = {f"{DAY}.today", f"{MOMENT}.now", f"{MOMENT}.today", f"{MOMENT}.utcnow"}
OUTSIDE = {"open", "print", "input", "io.open", "os.environ", "os.getenv", "os.urandom", "os.open"}
CHANCE = {"uuid.uuid1", "uuid.uuid4"}
FILE_VERBS = {"read_text", "read_bytes", "write_text", "write_bytes", "unlink", "iterdir", "rglob"}
CLOSED_MODULES = {"time", "secrets", "subprocess", "socket"}
SEEDED_DICE = ("question",)


def faults_in(package: Path) -> list[str]:
    """Every fault of the package in that folder, as `file:line: what`; none for a tidy one."""
    modules = modules_of(package)
    names = {module.name for module in modules}
    found = [fault for module in modules for fault in _faults_of(module, package.name)]
    return [*found, *cycles_in({module.name: set(edges_of(module, names)) for module in modules})]


def _faults_of(module: Module, package: str) -> Iterator[str]:
    if module.room and module.room not in ROW:
        yield f"{module.path}:1: no row is given for the room {module.room!r}"
        return
    for found in imports_of(module):
        for what in (_inward(found, module, package), _foreign(found, module, package)):
            if what:
                yield f"{module.path}:{found.line}: {what}"
    for mention in mentions_of(module):
        if what := _forbidden(mention, module):
            yield f"{module.path}:{mention.line}: {what}"


def _inward(found: Import, module: Module, package: str) -> str:
    """What is wrong with an import from the package itself, "" if nothing."""
    first, *rest = found.target.split(".")
    if first != package:
        return ""
    room = rest[0] if rest else ""
    if room not in ROW:
        return f"imports {found.target}, which no room holds"
    if room != module.room and ROW[room] >= ROW.get(module.room, -1):
        return f"{module.room or package} may not import {room}: only rooms on lower rows"
    return _sideways(module, rest) if room == module.room else ""


def _sideways(module: Module, target: list[str]) -> str:
    """What is wrong with an import from another part of the same room, "" if nothing."""
    parts = PARTS.get(module.room, {"": ()})
    own, other = (_part(names, parts) for names in (module.name.split(".")[2:], target[1:]))
    if other == own or other in parts[own]:
        return ""
    return f"{module.room}/{own} may not import {module.room}/{other}"


def _part(names: list[str], parts: Mapping[str, Sequence[str]]) -> str:
    """The part of a room that a dotted name below it lies in."""
    return names[0] if names and names[0] in parts else ""


def _foreign(found: Import, module: Module, package: str) -> str:
    """What is wrong with an import from outside the package, "" if nothing."""
    library = found.target.partition(".")[0]
    if library == package:
        return ""
    if library in CLOSED_MODULES and module.room in PURE:
        return f"{library} does not belong in {module.room}: it is handed what it needs"
    if library not in HOMES:
        return "" if library in sys.stdlib_module_names else f"no room is the home of {library}"
    if module.room not in HOMES[library]:
        return f"{library} belongs in {' and '.join(HOMES[library])}, not in {module.room or package}"
    return f"{library} is imported inside the function that needs it" if _too_early(found, library) else ""


def _too_early(found: Import, library: str) -> bool:
    return library in LATE_ONLY and not found.late


def _forbidden(mention: Mention, module: Module) -> str:
    """What is wrong with reading a name, "" if nothing."""
    if mention.name in ("importlib.import_module", "__import__"):
        return f"{mention.name} hides an import from this test"
    if module.room not in PURE:
        return ""
    if mention.name in CLOCK:
        return f"{mention.name} is a clock: the day is handed in"
    if mention.name in CHANCE or (mention.name.startswith("random.") and not _seeded(mention, module)):
        where = " and ".join(SEEDED_DICE)
        return f"{mention.name} is unseeded dice: only random.Random(seed text), in {where}"
    if mention.name in OUTSIDE or mention.name.rpartition(".")[2] in FILE_VERBS:
        return f"{mention.name} reaches the outside world"
    return ""


def _seeded(mention: Mention, module: Module) -> bool:
    """True for `random.Random(...)` with a seed, or as a type, where seeded dice are allowed."""
    return mention.name == "random.Random" and mention.called_with != 0 and module.room in SEEDED_DICE


def edges_of(module: Module, names: set[str]) -> Iterator[str]:
    """The modules of the package that a module imports by name."""
    for found in imports_of(module):
        target = found.target
        if target not in names:
            target = target.rpartition(".")[0]  # a name taken from a module
        if target in names:
            yield target


def cycles_in(graph: dict[str, set[str]]) -> list[str]:
    """One sentence for every module that reaches itself, with the way."""
    ways = ((name, _way_back(name, graph)) for name in sorted(graph))
    return [f"{name}: imports itself by way of {' -> '.join(way)}" for name, way in ways if way]


def _way_back(start: str, graph: dict[str, set[str]]) -> list[str]:
    """The shortest way from a module back to itself, [] if there is none."""
    ways = [[start]]
    seen: set[str] = set()
    while ways:
        way = ways.pop(0)
        for target in sorted(graph[way[-1]] - seen):
            if target == start:
                return [*way, start]
            seen.add(target)
            ways.append([*way, target])
    return []
