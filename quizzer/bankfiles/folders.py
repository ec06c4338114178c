"""Bank folders that lie beside each other: which of them holds a file, and how its files are named."""

from __future__ import annotations

import os
from collections.abc import Iterator, Sequence
from contextlib import suppress
from pathlib import Path

from quizzer.errors import Refused


class Folders:
    """The folders of one or several banks, the first of them foremost."""

    def __init__(self, roots: Sequence[Path]) -> None:
        self.roots = tuple(roots)
        names = [root.name for root in roots]
        self._names = {
            root: root.name if names.count(root.name) == 1 else f"{root.parent.name}/{root.name}" for root in roots
        }

    def root_of(self, path: Path) -> Path:
        """The bank folder that a file lies in."""
        return next((root for root in self.roots[1:] if root in path.parents), self.roots[0])

    def label(self, path: Path) -> str:
        """How a file is named in complaints: `banks/testing/ring.toml`."""
        root = self.root_of(path)
        return f"{self._names[root]}/{path.relative_to(root).as_posix()}"

    def labelled(self, label: str) -> Path:
        """The file of such a name."""
        found = (root / label[len(name) + 1 :] for root, name in self._names.items() if label.startswith(f"{name}/"))
        return next(found, self.roots[0].parent / label)

    def folder_of(self, path: Path) -> str:
        """The id of a file: its path below its bank, without the ending."""
        return "/".join(path.parts[len(self.root_of(path).parts) :]).removesuffix(path.suffix)

    def there(self, name: str) -> list[Path]:
        """Every file of that path below a bank."""
        return [path for root in self.roots if (path := root / name).is_file()]

    def one(self, what: str, name: str) -> Path | None:
        """The file of that path below a bank. Raises Refused when two banks have it."""
        found = self.there(name)
        if len(found) > 1:
            raise self.twice(what, found[0], found[1])
        return found[0] if found else None

    def twice(self, what: str, one: Path, other: Path) -> Refused:
        """What is said of a thing that two banks have."""
        where = f"{self.label(one)} and in {self.label(other)}"
        return Refused(f"{what} stands in {where}", mend="give one of them another name")


def topic_files(root: str) -> Iterator[tuple[str, str]]:
    """The .toml files below each folder of a bank: that folder's name, and the file's path."""
    for topic in _entries_of(root):
        if Path(topic.path).is_dir():  # False, and no error, of a link that leads to itself
            yield from ((topic.name, path) for path in _files_below(topic.path))


def _files_below(folder: str) -> Iterator[str]:
    """Those of a folder and of the folders in it; links to folders are not followed, which could lead round."""
    for one in _entries_of(folder):
        if one.name.endswith(".toml"):
            yield one.path
        if one.is_dir(follow_symlinks=False):
            yield from _files_below(one.path)


def _entries_of(folder: str) -> list[os.DirEntry[str]]:
    """What is in a folder; nothing in one that is gone or may not be read. Patterns would take four times as long."""
    with suppress(OSError), os.scandir(folder) as found:
        return list(found)
    return []
