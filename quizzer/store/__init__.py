"""Who studies, what they answered, what they remember: in SQLite or PostgreSQL, whichever the URL names.

Opened only by the commands that need it. `tables.py` and `statements.py` are its source and no command opens them:
they need SQLModel, which takes a second.
"""

from quizzer.store.correction_values import Change, Correction
from quizzer.store.paper_values import ABSENT, OMITTED, Group, MarkedScript, Newcomer, Script, Sitting
from quizzer.store.place import default_url
from quizzer.store.recording import KnownBefore
from quizzer.store.store import Store, open_store
from quizzer.store.values import Answered, Challenge, Counts, Erased, Info, Restored, Tally, Trainee

__all__ = [
    "ABSENT",
    "OMITTED",
    "Answered",
    "Challenge",
    "Change",
    "Correction",
    "Counts",
    "Erased",
    "Group",
    "Info",
    "KnownBefore",
    "MarkedScript",
    "Newcomer",
    "Restored",
    "Script",
    "Sitting",
    "Store",
    "Tally",
    "Trainee",
    "default_url",
    "open_store",
]
