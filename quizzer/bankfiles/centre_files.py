"""The file of a centre and the logo beside it."""

from __future__ import annotations

from pathlib import Path
from typing import NamedTuple

from quizzer.bank.centres import Centre, read_centre
from quizzer.bank.fields import Notes
from quizzer.bankfiles.doors import TooLarge, read_at_most
from quizzer.bankfiles.texts import read_text
from quizzer.errors import BankError, NotFound, Refused

FILE = "centre.toml"
LARGEST_LOGO, WIDEST_LOGO = 2_000_000, 4_000  # bytes; pixels
_PNG = b"\x89PNG\r\n\x1a\n"
_PLAIN = "save it as a plain SVG, or as a PNG"


class Letterhead(NamedTuple):
    """A centre with its logo as it stands in the file; `kind` is svg or png, "" without one."""

    centre: Centre
    logo: bytes
    kind: str


def centre_of(path: Path) -> Letterhead:
    """The centre of a file. Raises NotFound; BankError with every complaint; Refused for a logo that is none."""
    centre = _centre(path)
    return _with_logo(path, centre) if centre.logo else Letterhead(centre, b"", "")


def banks_of(path: Path) -> list[Path]:
    """The bank folders that a centre's file names, from the folder it lies in. Raises NotFound or BankError."""
    return [path.parent / bank for bank in _centre(path).banks]


def _centre(path: Path) -> Centre:
    if not path.exists():
        raise NotFound(f"there is no {str(path)!r}", mend="name the centre.toml of the centre")
    notes = Notes(path.name, "")
    notes.text = read_text(path, notes)
    if notes.issues:
        raise BankError(notes.issues)
    centre = read_centre(notes)
    if notes.issues:
        raise BankError(notes.issues)
    return centre


def _with_logo(path: Path, centre: Centre) -> Letterhead:
    if Path(centre.logo).name != centre.logo:
        raise Refused(f"the logo {centre.logo!r} is no name of a file", mend=f"put the logo beside {path.name}")
    file = path.parent / centre.logo
    try:
        logo = read_at_most(file, LARGEST_LOGO)
    except OSError as error:
        raise Refused(f"the logo {str(file)!r} cannot be read ({error.strerror})", mend=_PLAIN) from None
    except TooLarge:
        raise Refused(f"the logo {str(file)!r} has more than {LARGEST_LOGO:,} bytes", mend="save it smaller") from None
    if logo.startswith(_PNG):
        sides = [int.from_bytes(logo[at : at + 4], "big") for at in (16, 20)]
        if max(sides) > WIDEST_LOGO:
            raise Refused(f"the logo {str(file)!r} is wider than {WIDEST_LOGO:,} pixels", mend="save it smaller")
        return Letterhead(centre, logo, "png")
    if b"<svg" not in logo[:4_000]:
        raise Refused(f"the logo {str(file)!r} is neither SVG nor PNG", mend=_PLAIN)
    return Letterhead(centre, logo, "svg")
