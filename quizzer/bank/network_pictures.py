"""What the pictures of networks, vectors and instruments are told."""

from __future__ import annotations

from collections.abc import Mapping

from quizzer.bank.picture_arguments import MAYBE, TEXT, Argument

NETWORK: Mapping[str, Mapping[str, Argument]] = {
    # `net` is written as "10 Ω + (20 Ω | R_3 30 Ω)": + one after another, | beside each other.
    "resistors": {"net": TEXT, "supply": MAYBE, "current": MAYBE},
}
