"""What the pictures of circuits, switching and tests are told."""

from __future__ import annotations

from collections.abc import Mapping

from quizzer.bank.picture_arguments import Argument

WIRING: Mapping[str, Mapping[str, Argument]] = {}
