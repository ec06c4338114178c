"""Pages of what is found while a file is read: the file itself and its keys (Q1xx)."""

from __future__ import annotations

from quizzer.bank.mends import SAVE_AS_UTF8, SPLIT
from quizzer.blocks.words import capital
from quizzer.lint.page import CodeDoc

_LEVEL = 'level = "apply"  # recall, apply or analyse'

PAGES = (
    CodeDoc(
        "Q101",
        "Not TOML",
        "Nothing of the file can be used, because the reader does not know where a text or a list ends.",
        "level = apply",
        _LEVEL,
        "Mend the line named. Texts stand in double quotes, lists in square brackets.",
    ),
    CodeDoc(
        "Q102",
        "Not UTF-8",
        "The file was saved in another encoding, so Ω, ² and ° would come out as other signs.",
        'source = "Ohm\'s law, caf\udce9 edition"',
        'source = "Ohm\'s law"',
        f"{capital(SAVE_AS_UTF8)}.",
        at=".",
    ),
    CodeDoc(
        "Q103",
        "Too large, or not readable",
        "A bank file holds one sub-topic and has some kilobytes; one of more than 2 MB is something else. Or the "
        "system refuses "
        "to open it.",
        "# a line of a very long note\n" * 80_000 + _LEVEL,
        _LEVEL,
        f"{capital(SPLIT)}; or check its permissions.",
        at=".",
    ),
    CodeDoc(
        "Q104",
        "Unknown key",
        "A misspelt key would be left out without a word, and with it a requirement or a caution.",
        'colour = "red"\n' + _LEVEL,
        _LEVEL,
        "Correct its spelling, or take it out.",
    ),
    CodeDoc(
        "Q105",
        "A value of the wrong kind",
        "A number in quotes is a text; true is no number.",
        'places = "two"',
        "places = 2",
        "Write what is wanted: a text in quotes, a bare number, a list, a table.",
    ),
    CodeDoc(
        "Q106",
        "A key is missing or empty",
        "Every entry says what it asks, where its facts come from and how far they can be trusted.",
        "",
        'source = "Ohm\'s law"\n',
        "Add it.",
        at="[[template]]",
    ),
    CodeDoc(
        "Q107",
        "A value that is not allowed",
        "Some keys take one word of a list, and some a number in a range.",
        'level = "aply"',
        _LEVEL,
        "Write one of the words, or a number in the range, that the finding names.",
    ),
    CodeDoc(
        "Q108",
        "A name that is there already",
        "Two entries of one id, two slips or cautions of one name, a step with the name of a given: one would hide "
        "the other.",
        'say = "In series the resistances add."\n[[template.step]]\nname = "U"\nunit = "V"\nexpr = "U / 2"',
        'say = "In series the resistances add."',
        "Give one of them a name of its own.",
        at='name = "U"',
    ),
    CodeDoc(
        "Q109",
        "Not an id",
        "The id is part of a path, and is typed by people.",
        'id = "Divider One"',
        'id = "divider"',
        "Use lower-case letters and digits, with single hyphens between words.",
    ),
    CodeDoc(
        "Q113",
        "More than a bank file holds",
        "A text of pages, a list of thousands or tables in tables in tables are no question. They can also be made to "
        "keep a program busy for hours, so a file that holds them is not read any further.",
        'source = """\n' + "Ohm's law\n" * 700 + '"""',
        'source = "Ohm\'s law"',
        "Say it shorter, or split the file. Texts have 5,000 characters at most, lists 2,000 items.",
    ),
    CodeDoc(
        "Q114",
        "A character that steers a screen",
        "Control characters and marks that turn the direction of writing do not show. They can clear a screen, or "
        "make a text look like another one.",
        'source = "Ohm\\u202es law"',
        'source = "Ohm\'s law"',
        "Take it out, or write the sign that was meant.",
    ),
)
