"""What can be typed, said on request: the keys belong to the terminal."""

from __future__ import annotations

from quizzer.render.terminal.canvas import Canvas

STUDY = (
    ("A, B, C, D", "choose an option; B1 chooses it and says how sure you are in one go"),
    ("0.94, 940 mohm", "type a number, with or without its unit; a sum such as 1.37-0.36 is worked out"),
    ("CABD", "put steps in order: type all their letters, first step first"),
    ("1, 2, 3", "how sure you are: 1 certain, 2 fairly sure, 3 guessing"),
    ("<", "in place of 1, 2 or 3: another answer, before it is marked"),
    ("g WORD, ? WORD", "what a word of the trade means"),
    ("w", "where this question comes from: source, edition, cautions in full; its picture in words"),
    ("s", "skip this question for today"),
    ("d", "I dispute this: your tutor gets your reason (while options A to D are open, type dispute)"),
    ("q", "stop; everything answered so far is kept"),
    ("?", "this help"),
)
SIT = (
    ("A, B, C, D", "choose an option; you can change it until you hand in"),
    ("Enter or n, p", "the next question, the one before"),
    ("17", "go to question 17"),
    ("f", "flag this question to come back to it, or take the flag away"),
    ("x", "take your answer back"),
    ("u", "what is unanswered and what is flagged"),
    ("t", "the time used and left"),
    ("submit", "hand in; you are asked once more"),
    ("q", "leave; everything is kept, and the time used stays used"),
    ("?", "this help"),
)


def add_help(canvas: Canvas, keys: tuple[tuple[str, str], ...]) -> None:
    """The keys with what they mean."""
    canvas.gap()
    for typed, meaning in keys:
        canvas.text(f"{typed:<15} {meaning}", indent=2, hang=18)
