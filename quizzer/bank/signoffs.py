"""What tutors have said about entries: signed off against an edition, disputed, or settled. A file beside the bank."""

from __future__ import annotations

from datetime import UTC, date, datetime

from quizzer.bank.bounds import said
from quizzer.bank.entries import Entry
from quizzer.bank.fields import Fields, Notes
from quizzer.bank.file_reading import parse
from quizzer.bank.head import Head
from quizzer.bank.head_reading import ID
from quizzer.bank.mends import AS_AN_ID
from quizzer.values import NamedTuple

FILE = "signoffs.toml"
HEADING = "# What tutors have said about entries. A sign-off falls away by itself when its entry changes.\n"


class SignOff(NamedTuple):
    """A tutor has checked the entry, as it stood, against an edition."""

    entry: str
    by: str
    edition: str
    day: str
    digest: str
    at: str = ""


class Dispute(NamedTuple):
    """Somebody does not believe the entry as it stood."""

    entry: str
    reason: str
    day: str
    digest: str
    at: str = ""


class Settlement(NamedTuple):
    """The disputes of an entry that were raised until then are settled, and why."""

    entry: str
    reason: str
    day: str
    at: str = ""


Record = SignOff | Dispute | Settlement
KINDS: dict[type[Record], str] = {SignOff: "signoff", Dispute: "dispute", Settlement: "settlement"}


class Ledger(NamedTuple):
    """Every sign-off, dispute and settlement, in the order they were made.

    `day` of each is that of who made it, `at` the instant (UTC), "" where none was kept.
    """

    signoffs: tuple[SignOff, ...] = ()
    disputes: tuple[Dispute, ...] = ()
    settlements: tuple[Settlement, ...] = ()

    def signed(self, entry: Entry) -> SignOff | None:
        """The latest sign-off of the entry as it stands now; None when there is none, or its text has changed."""
        return self.signed_text(entry.head)

    def signed_text(self, head: Head) -> SignOff | None:
        """The latest sign-off of the entry with the text that this head is of; None when there is none."""
        if not any(each.entry == head.id for each in self.signoffs):
            return None  # most entries: a fingerprint takes time
        found = [each for each in self.signoffs if (each.entry, each.digest) == (head.id, head.digest)]
        return found[-1] if found else None

    def disputed(self, entry: Entry) -> tuple[Dispute, ...]:
        """The disputes of the entry as it stands now that nothing has settled since."""
        return tuple(
            each
            for each in self.disputes
            if (each.entry, each.digest) == (entry.head.id, entry.head.digest) and not self.settled(each)
        )

    def settled(self, dispute: Dispute) -> bool:
        """Whether the entry was signed off after the dispute, as it then stood, or the dispute settled by name."""
        records: tuple[SignOff | Settlement, ...] = (*self.signoffs, *self.settlements)
        return any(each.entry == dispute.entry and _later(each, dispute) for each in records)


def _later(one: SignOff | Settlement, dispute: Dispute) -> bool:
    """Whether it came after; the same day counts where no instant was kept."""
    return one.at >= dispute.at if one.at and dispute.at else one.day >= dispute.day


def read_ledger(notes: Notes) -> Ledger:
    """The ledger of a file's text; complaints go to its list."""
    top = Fields(parse(notes), (), notes)
    signoffs = tuple(
        SignOff(_entry(each), each.text("by"), each.text("edition"), _day(each), each.text("digest"), _instant(each))
        for each in top.array("signoff")
    )
    disputes = tuple(
        Dispute(_entry(each), each.text("reason"), _day(each), each.text("digest"), _instant(each))
        for each in top.array("dispute")
    )
    settlements = tuple(
        Settlement(_entry(each), each.text("reason"), _day(each), _instant(each)) for each in top.array("settlement")
    )
    top.done()
    return Ledger(signoffs, disputes, settlements)


def _entry(fields: Fields) -> str:
    found = fields.text("entry")
    if found and not all(ID.fullmatch(part) for part in found.split("/")):
        fields.complain("Q109", "entry", f"{said(found)} is no entry", AS_AN_ID)
    return found


def _day(fields: Fields) -> str:
    found = fields.text("day")
    try:
        date.fromisoformat(found)
    except ValueError:
        if found:
            fields.complain("Q107", "day", f"day is {said(found)}", "write it like 2026-11-25")
    return found


def _instant(fields: Fields) -> str:
    found = fields.text("at", "")
    try:
        return found and instant_text(datetime.fromisoformat(found))
    except ValueError:
        fields.complain("Q107", "at", f"at is {said(found)}", "write it like 2026-11-25T10:30:00+00:00")
        return ""


def instant_text(instant: datetime) -> str:
    """An instant as it is kept: such texts sort as the instants do. Raises ValueError for one without a zone.

    >>> instant_text(datetime.fromisoformat("2026-11-25T11:30:00+01:00"))
    '2026-11-25T10:30:00.000000+00:00'
    """
    if instant.tzinfo is None:
        raise ValueError(instant)
    return instant.astimezone(UTC).isoformat(timespec="microseconds")


def written(record: Record) -> str:
    """The block of TOML that reads back as the record."""
    import json  # here, not above: every question looks for sign-offs, and few commands write one

    kind = KINDS[type(record)]
    # A JSON string is a TOML string too, whatever it holds, once the delete character is gone.
    lines = [
        f"{key} = {json.dumps(value.replace(chr(127), ''), ensure_ascii=False)}"
        for key, value in record._asdict().items()
        if value or key != "at"
    ]
    return "\n".join(["", f"[[{kind}]]", *lines, ""])
