"""Sound files of every kind, made by the program itself, and the attacks that start from them."""

import os
import tempfile
from collections.abc import Callable, Sequence
from pathlib import Path
from random import Random
from typing import Any

from attacking.cases import Case
from attacking.mutating import bytes_of, json_of, text_of
from attacking.running import run

CHECKOUT = Path(__file__).resolve().parents[2]
STARTS = ("template", "card", "order", "diagnose", "value", "verdict", "action")
STORE = ("--store", "s.db")
TYPED = "a\n2\nb\n1\n12.5\n3\nwhat\n\nquit\n"
CHEAP = (
    ("topics",),
    ("store", "info", *STORE),
    ("trainee", "list", *STORE),
    ("show", "testing/template#3"),
    ("study", "--count", "2", *STORE),
    ("progress", *STORE),
    ("plan", "--exam", "2027-01-01", *STORE),
)
LOOKS = (
    ("store", "check", *STORE),
    ("store", "info", *STORE),
    ("trainee", "list", *STORE),
    ("group", "list", *STORE),
    ("study", "--count", "2", *STORE),
    ("progress", *STORE),
    ("trainee", "export", "Ada", *STORE),
    ("store", "backup", "new.bak", *STORE),
    ("store", "restore", "b.bak", "--yes", *STORE),
)
CHANGES = (
    ("study", "--count", "3", "--trainee", "Ada", *STORE),
    ("trainee", "erase", "Ada", "--yes", *STORE),
    ("store", "backup", "new.bak", *STORE),
    ("store", "restore", "b.bak", "--yes", *STORE),
    ("group", "import", "Monday", "people.csv", "--add", *STORE),
)
AROUND = (
    {"ATTACK_OUTPUT": "closed"},
    {"ATTACK_OUTPUT": "full"},
    {"ATTACK_OUTPUT": "unread"},
    {"COLUMNS": "1"},
    {"ATTACK_OUTPUT": "readonly"},
    {"COLUMNS": "100000"},
    {"COLUMNS": "x", "LINES": "-1"},
    {"TERM": "\x1b"},
    {"LC_ALL": "C", "PYTHONIOENCODING": "ascii"},
    {"PYTHONIOENCODING": "utf-16"},
    {"TZ": "Nowhere/None"},
    {"PYTHONIOENCODING": "cp437"},
    {"LANG": "tr_TR.UTF-8", "LC_ALL": "xx"},
    {"QUIZZER_STORE": "/dev/null"},
    {"HOME": "/nowhere", "XDG_DATA_HOME": "/dev/null/x"},
)


def sound() -> dict[str, bytes]:
    """A file of every kind, by name: a small bank, a blueprint, a paper, tables, a store and two backups."""
    from quizzer.lint import starts

    where = Path(starts.__file__).parent
    files = {f"bank/testing/{name}.toml": (where / f"{name}.toml").read_bytes() for name in STARTS}
    shared = CHECKOUT / "banks"
    files |= {f"bank/{name}.toml": (shared / f"{name}.toml").read_bytes() for name in ("topics", "cautions", "slips")}
    files["bank/signoffs.toml"] = (
        b'[[signoff]]\nentry = "testing/card/x"\nname = "Ada"\non = 2026-03-02\nedition = "BS 7671"\ndigest = "0"\n'
    )
    files["blueprint.toml"] = (where / "blueprint.toml").read_bytes()
    files["people.csv"] = b"name\nAda\nBen\n\xc3\x89va\n"
    with tempfile.TemporaryDirectory(prefix="quizzer-attack-") as folder:
        (Path(folder) / "people.csv").write_bytes(files["people.csv"])
        for args in (
            ("group", "import", "Monday", "people.csv", "--add", *STORE),
            ("study", "--count", "3", "--trainee", "Ada", *STORE),
            ("paper", "make", "safety", "--seed", "7", "--out", "in", *STORE),
            ("store", "backup", "b.bak", *STORE),
        ):
            ended = run(Case("sound", args, {}, TYPED), folder, 10)
            if ended.code:
                raise RuntimeError(f"{args}: {ended}")
        for name in ("s.db", "b.bak", "in/paper.json"):
            files[name] = (Path(folder) / name).read_bytes()
        files["lines.bak"] = _lines(os.path.join(folder, "s.db"))
    files["answers.csv"] = b"name,form,answers\nAda,A,ABCDABCDABCD\nBen,A,ABCD--------\n"
    return files


def _lines(store: str) -> bytes:
    import io

    from quizzer.store import open_store
    from quizzer.store.json_backup import write_lines

    out = io.BytesIO()
    with open_store(store) as held:
        write_lines(held._wire, out)  # noqa: SLF001 - as a server writes its backup
    return out.getvalue()


def _some(files: dict[str, bytes], *names: str) -> dict[str, bytes]:
    return {name: content for name, content in files.items() if name.startswith(names)}


def _pick(dice: Random, among: Sequence[Any]) -> Any:
    return among[int(dice.random() * len(among))]


def bank(files: dict[str, bytes], dice: Random) -> Case:
    """A bank file, its shared files or its sign-offs."""
    here = _some(files, "bank/")
    name = _pick(dice, sorted(here))
    here[name] = text_of(here[name], dice)
    args = _pick(
        dice,
        (
            ("bank", "check", name),
            ("bank", "check", "bank"),
            ("topics", "--bank", "bank"),
            ("topics", "testing", "--bank", "bank"),
            ("study", "--bank", "bank", "--count", "3", *STORE),
        ),
    )
    return Case("bank", args, here, TYPED)


def blueprint(files: dict[str, bytes], dice: Random) -> Case:
    """A blueprint."""
    here = {"blueprint.toml": text_of(files["blueprint.toml"], dice)}
    return Case("blueprint", ("paper", "blueprint", "check", "blueprint.toml"), here)


def paper(files: dict[str, bytes], dice: Random) -> Case:
    """The record of a paper."""
    change = json_of if dice.random() < 0.8 else text_of
    here = {"in/paper.json": change(files["in/paper.json"], dice), "answers.csv": files["answers.csv"]}
    args = _pick(
        dice,
        (
            ("paper", "mark", "in/paper.json", "--answers", "answers.csv", "--add", *STORE),
            ("paper", "print", "in/paper.json", "--out", "o"),
            ("sit", "in/paper.json", "--trainee", "Ada", *STORE),
        ),
    )
    return Case("paper", args, here, TYPED)


def answers(files: dict[str, bytes], dice: Random) -> Case:
    """A table of answers."""
    here = {"in/paper.json": files["in/paper.json"], "answers.csv": text_of(files["answers.csv"], dice)}
    return Case("answers", ("paper", "mark", "in/paper.json", "--answers", "answers.csv", "--add", *STORE), here)


def group(files: dict[str, bytes], dice: Random) -> Case:
    """A table of people."""
    change = text_of if dice.random() < 0.7 else bytes_of
    return Case("group", CHANGES[-1], {"people.csv": change(files["people.csv"], dice)})


def backup(files: dict[str, bytes], dice: Random) -> Case:
    """A backup, of a file or of a server."""
    name = _pick(dice, ("b.bak", "lines.bak"))
    change = text_of if name == "lines.bak" and dice.random() < 0.7 else bytes_of
    here = {name: change(files[name], dice)} | (_some(files, "s.db") if dice.random() < 0.3 else {})
    return Case("backup", ("store", "restore", name, "--yes", *STORE), here)


def store(files: dict[str, bytes], dice: Random) -> Case:
    """A store with flipped bytes."""
    return Case("store", _pick(dice, LOOKS), {"s.db": bytes_of(files["s.db"], dice), "b.bak": files["b.bak"]}, TYPED)


def around(files: dict[str, bytes], dice: Random) -> Case:
    """A sound command in odd surroundings."""
    return Case("around", _pick(dice, CHEAP), _some(files, "s.db"), TYPED, _pick(dice, AROUND))


def killed(files: dict[str, bytes], dice: Random) -> Case:
    """A command killed at any moment, then others that must find a sound store."""
    here = _some(files, "s.db", "b.bak", "people.csv")
    then = (("store", "check", *STORE), _pick(dice, CHANGES), ("store", "check", *STORE))
    return Case("killed", _pick(dice, CHANGES), here, TYPED, {}, 0.01 + dice.random() * 0.6, then)


KINDS: tuple[Callable[[dict[str, bytes], Random], Case], ...] = (
    *(bank, bank, bank, blueprint, paper, answers, group, backup, store, store, around, killed),
)
