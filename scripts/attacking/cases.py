"""One attack: a command, the files it finds and what surrounds it; kept as a small file and run again from it."""

import base64
import hashlib
import json
import os
import zlib
from types import MappingProxyType
from typing import NamedTuple


class Case(NamedTuple):
    """A command line, the files of the folder it runs in, what is typed, and its surroundings by name.

    Names of files are relative. `kill` is the seconds after which the command is killed, 0 for never; `then` are
    commands that run afterwards in the same folder, and must be content with what they find.
    """

    kind: str
    args: tuple[str, ...]
    files: dict[str, bytes]
    typed: str = ""
    around: dict[str, str] = MappingProxyType({})  # type: ignore[assignment]
    kill: float = 0.0
    then: tuple[tuple[str, ...], ...] = ()


def to_text(case: Case, why: str) -> str:
    """The case as text, with the reason it is kept."""
    files = {name: base64.b85encode(zlib.compress(content, 9)).decode() for name, content in case.files.items()}
    return json.dumps({"why": why, **case._asdict(), "files": files, "around": dict(case.around)}, indent=1) + "\n"


def from_text(text: str) -> Case:
    """The case of a text."""
    value = json.loads(text)
    del value["why"]
    files = {name: zlib.decompress(base64.b85decode(content)) for name, content in value.pop("files").items()}
    args, then = tuple(value.pop("args")), tuple(tuple(each) for each in value.pop("then"))
    return Case(args=args, files=files, then=then, **value)


def keep(case: Case, why: str, folder: str) -> str:
    """Write the case into the folder; the path of its file."""
    text = to_text(case, why)
    path = os.path.join(folder, f"{case.kind}-{hashlib.sha256(text.encode()).hexdigest()[:12]}.json")
    os.makedirs(folder, exist_ok=True)
    with open(path, "w", encoding="utf-8") as file:
        file.write(text)
    return path


def lay_out(case: Case, folder: str) -> None:
    """Write the files of the case into an empty folder."""
    for name, content in case.files.items():
        path = os.path.join(folder, *name.split("/"))
        os.makedirs(os.path.dirname(path), exist_ok=True)
        with open(path, "wb") as file:
            file.write(content)
