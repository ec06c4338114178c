"""A small bank made of the starting files, with shared lists that hold just what they use."""

import re
from pathlib import Path

from quizzer.bankfiles.shelf import Shelf
from quizzer.lint.starts import KINDS, start
from quizzer.workflows.bank.checking import Findings, check

PLACES = {"table": "tables/sizes.toml", "blueprint": "blueprints/safety.toml"}


def place_of(kind: str) -> str:
    """Where the starting file of a kind stands in the small bank."""
    return PLACES.get(kind, f"safety/{kind}.toml")


def start_bank(root: Path) -> Path:
    """The small bank in this folder; it checks clean."""
    for kind in KINDS:
        write(root / place_of(kind), start(kind))
    write(root / "topics.toml", '[[topic]]\nid = "safety"\ntitle = "Safety"\n')
    templates = start("template") + start("verdict")
    slips = re.findall(r'\[\[template\.slip\]\]\nid = "(.+?)"', templates)
    write(root / "slips.toml", "".join(f'[[slip]]\nid = "{id}"\nsay = "…"\n' for id in sorted(set(slips))))
    named = [line for kind in KINDS for line in re.findall(r"^cautions = \[(.+?)\]", start(kind), re.MULTILINE)]
    cautions = {id for line in named for id in re.findall('"(.+?)"', line)}
    say = "Nobody touches what is disconnected."
    lines = "".join(
        f'[[caution]]\nid = "{id}"\nshow = "before"\nsay = "{say}"\ndefer = "…"\n' for id in sorted(cautions)
    )
    write(root / "cautions.toml", lines)
    write(root / "glossary.toml", '[[term]]\nterm = "RCD"\nplain = "residual current device"\nspoken = "R C D"\n')
    return root


def write(path: Path, text: str) -> None:
    """Write a file as it is, even where it is not UTF-8."""
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_bytes(text.encode("utf-8", "surrogateescape"))


def checked(root: Path, *files: str) -> Findings:
    """The findings about these files of a bank, or about all of it."""
    return check(Shelf(root), [root / file for file in files], lambda _done, _files: None)
