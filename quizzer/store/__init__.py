"""Who studies, what they answered, what they remember: in SQLite or PostgreSQL, whichever the URL names.

Importing this room costs half a second; only a command that needs the store does, and inside itself.
"""

from quizzer.store.paper_values import OMITTED, Group, MarkedScript, Newcomer, Script, Sitting
from quizzer.store.place import default_url
from quizzer.store.rescue import restore_store
from quizzer.store.store import Store, open_store
from quizzer.store.values import Challenge, Counts, Erased, Info, Restored, Tally, Trainee

__all__ = [
    "OMITTED",
    "Challenge",
    "Counts",
    "Erased",
    "Group",
    "Info",
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
    "restore_store",
]
