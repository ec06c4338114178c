"""Who studies, what they answered, what they remember: in SQLite or PostgreSQL, whichever the URL names.

Importing this room costs half a second; only a command that needs the store does, and inside itself.
"""

from quizzer.store.place import default_url
from quizzer.store.rescue import restore_store
from quizzer.store.store import Store, open_store
from quizzer.store.values import Challenge, Counts, Erased, Info, Restored, Tally, Trainee

__all__ = [
    "Challenge",
    "Counts",
    "Erased",
    "Info",
    "Restored",
    "Store",
    "Tally",
    "Trainee",
    "default_url",
    "open_store",
    "restore_store",
]
