"""Zip files of people: what is in them, held to sizes and names before anything is unpacked."""

from __future__ import annotations

import io
import zipfile
import zlib

MOST_FILES, MOST_BYTES = 2_000, 60_000_000
_NO_DOCTYPE = (b"<!DOCTYPE", b"<!ENTITY")


class Unsafe(Exception):
    """The zip is none, or holds what nobody needs to send: why, in one sentence."""


def safe_contents(content: bytes) -> dict[str, bytes]:
    """The files of a zip by name. Raises Unsafe.

    A zip tells the size of each file before it is unpacked, and no more than that is ever unpacked. A document type in
    an XML file is refused: entities are declared there, by which a small file grows or reaches for another.
    """
    try:
        package = zipfile.ZipFile(io.BytesIO(content))
        told = [one for one in package.infolist() if not one.is_dir()]
        _hold(told)
        files = {one.filename: package.read(one) for one in told}
    except (zipfile.BadZipFile, NotImplementedError, RuntimeError, EOFError, ValueError, OSError, zlib.error):
        raise Unsafe("the zip file is damaged, or locked with a password") from None
    for name, text in files.items():
        if name.lower().endswith((".xml", ".rels", ".vml")) and declares(text):
            raise declared(name)
    return files


def declared(name: str) -> Unsafe:
    """What is said of a file that declares a document type."""
    return Unsafe(f"{name!r:.120} declares a document type, which no such file needs")


def _hold(told: list[zipfile.ZipInfo]) -> None:
    if len(told) > MOST_FILES or sum(one.file_size for one in told) > MOST_BYTES:
        raise Unsafe(f"the zip file unpacks to more than {MOST_FILES:,} files or {MOST_BYTES // 1_000_000} MB")
    names = [one.filename for one in told]
    if doubled := next((name for name in names if names.count(name) > 1), ""):
        raise Unsafe(f"the zip file holds {doubled!r:.120} twice")
    if outside := next((name for name in names if leads_out(name)), ""):
        raise Unsafe(f"the zip file holds {outside!r:.120}, a name that leads out of its folder")


def leads_out(name: str) -> bool:
    r"""Whether a name in a zip leads anywhere but down from its top.

    >>> leads_out("items/a.xml"), leads_out("../a"), leads_out("/a"), leads_out("c:a"), leads_out("a\\..\\b")
    (False, True, True, True, True)
    """
    return name.startswith("/") or "\\" in name or ":" in name or ".." in name.split("/")


def declares(text: bytes) -> bool:
    """Whether XML declares a document type, in whichever encoding: those of more bytes differ by zeros."""
    bare = text.replace(b"\x00", b"").upper()
    return any(sign in bare for sign in _NO_DOCTYPE)
