"""What the pictures of boards, containment, zones, signs and control circuits are told."""

from __future__ import annotations

from collections.abc import Mapping

from quizzer.bank.picture_arguments import Argument

FITTING: Mapping[str, Mapping[str, Argument]] = {}
