"""Bank folders that lie beside each other: which of them holds a file, and how its files are named."""

from __future__ import annotations

from collections.abc import Sequence
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
        return path.relative_to(self.root_of(path)).with_suffix("").as_posix()

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
