"""Pictures of circuits, switching and tests told anything that they may be told."""

from collections.abc import Callable, Mapping
from random import Random

from quizzer.blocks.pictures import Picture

MAKERS: Mapping[str, Callable[[Random], Picture]] = {}
