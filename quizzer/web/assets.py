"""Files that browsers keep: one hash over the whole tree stands in their paths, so that none is ever stale."""

from __future__ import annotations

import gzip
import hashlib
import json
import re
from collections.abc import Iterable
from pathlib import Path
from typing import NamedTuple

STATIC = Path(__file__).parent / "static"
STYLE = "css/style.css"
WORKER = "js/sw.js"
_ICONS = {"icons/icon.svg": "any", "icons/icon-192.png": "192x192", "icons/icon-512.png": "512x512"}
_MANIFEST = {
    "name": "quizzer",
    "short_name": "quizzer",
    "description": "Study for wiring regulations, without a signal too",
    "id": "/study",
    "start_url": "/study",
    "scope": "/",
    "display": "standalone",
    "background_color": "#fdfdfb",
    "theme_color": "#0b4a8f",
    "lang": "en-GB",
}
_SHEETS = ("css/tokens.css", "css/base.css", "css/phone.css", "css/paper.css")
_TYPES = {
    ".css": "text/css; charset=utf-8",
    ".js": "text/javascript; charset=utf-8",
    ".svg": "image/svg+xml",
    ".png": "image/png",
    ".woff": "font/woff",
    ".webmanifest": "application/manifest+json",
}
# As our own modules write them: no text and no pattern in them has a blank behind such a sign.
_COMMENT = re.compile(r"/\*\*? [\s\S]*?\*/|/\*\*\n[\s\S]*?\*/|^\s*// .*$|(?<=[;,{]) // .*$", re.MULTILINE)
_IMPORT = re.compile(r'from "\./([^"]+)"')
_PACKED = (".png", ".woff")  # compressed by their kind


class Asset(NamedTuple):
    """A file as it is sent: its type, its bytes, and the same compressed (b"" where that is no less)."""

    kind: str
    plain: bytes
    packed: bytes


class Assets:
    """The tree of files, read once."""

    def __init__(self, root: Path = STATIC) -> None:
        texts = {path.relative_to(root).as_posix(): _bare(path) for path in sorted(root.rglob("*")) if _sent(path)}
        sheets = [texts.pop(name) for name in _SHEETS if name in texts]
        texts[STYLE] = b"\n".join(sheets)
        self.version = _hash(texts.items())
        self._files = {name: asset(name, text) for name, text in texts.items()}

    def find(self, version: str, name: str) -> Asset | None:
        """The file of a name, where it is asked for as of this version."""
        return self._files.get(name) if version == self.version else None

    def names(self) -> tuple[str, ...]:
        """The name of every file."""
        return tuple(self._files)

    def path(self, name: str) -> str:
        """Where a file is served. Raises KeyError for one that there is not."""
        if name not in self._files:
            raise KeyError(name)
        return f"/static/{self.version}/{name}"

    def imported(self, names: Iterable[str]) -> tuple[str, ...]:
        """Every module that these import, and that those import: a browser told of them fetches all at once."""
        found = dict.fromkeys(names)
        for name in (left := [*found]):
            there = [f"js/{each}" for each in _IMPORT.findall(self._files[name].plain.decode())]
            left += [each for each in there if each not in found]
            found |= dict.fromkeys(there)
        return tuple(each for each in found if each not in names)

    def worker(self) -> str:
        """The text of the service worker: which version it is, and every file of it, before what it does."""
        told = {"version": self.version, "files": [self.path(name) for name in self._files if name != WORKER]}
        does = self._files[WORKER].plain.decode() if WORKER in self._files else ""
        return f"const SHELL = {json.dumps(told)};\n{does}"

    def manifest(self) -> str:
        """The manifest of an application that can be installed."""
        icons = [
            {"src": self.path(name), "sizes": sizes, "type": _TYPES[Path(name).suffix], "purpose": "any maskable"}
            for name, sizes in _ICONS.items()
            if name in self._files
        ]
        return json.dumps(_MANIFEST | {"icons": icons})


def asset(name: str, text: bytes) -> Asset:
    """A file made ready to be sent. Raises KeyError for a kind of file that is not sent."""
    ending = Path(name).suffix
    # No time stands in it: the same text gives the same bytes.
    packed = b"" if ending in _PACKED else gzip.compress(text, 9, mtime=0)
    return Asset(_TYPES[ending], text, packed if len(packed) < len(text) else b"")


def _bare(path: Path) -> bytes:
    """A file as it is sent: of a module the comments, a third of it, stay here."""
    if path.suffix != ".js":
        return path.read_bytes()
    code = _COMMENT.sub("", path.read_text(encoding="utf-8"))
    return "\n".join(filter(None, map(str.strip, code.splitlines()))).encode()


def _sent(path: Path) -> bool:
    return path.is_file() and path.suffix in _TYPES


def _hash(texts: Iterable[tuple[str, bytes]]) -> str:
    found = hashlib.sha256()
    for name, text in sorted(texts):
        found.update(f"{name} {len(text)} ".encode())
        found.update(text)
    return found.hexdigest()[:16]
