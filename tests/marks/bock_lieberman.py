"""Two published sets of answers: 1,000 people and 5 questions each, as counts of the 32 patterns 00000 to 11111.

Bock and Lieberman, Psychometrika 35 (1970) 179, sections 6 and 7 of a law school admission test. The counts are from
memory, and are proved by every published figure that they reproduce (tests/recall/published.toml).
"""

SIX = (
    3,
    6,
    2,
    11,
    1,
    1,
    3,
    4,
    1,
    8,
    0,
    16,
    0,
    3,
    2,
    15,
    10,
    29,
    14,
    81,
    3,
    28,
    15,
    80,
    16,
    56,
    21,
    173,
    11,
    61,
    28,
    298,
)
SEVEN = (
    12,
    19,
    1,
    7,
    3,
    19,
    3,
    17,
    10,
    5,
    3,
    7,
    7,
    23,
    8,
    28,
    7,
    39,
    11,
    34,
    14,
    51,
    15,
    90,
    6,
    25,
    7,
    35,
    18,
    136,
    32,
    308,
)


def marks(counts: tuple[int, ...]) -> list[list[int]]:
    """A row a person, 1 for right; the last question is the last figure of the pattern."""
    return [[int(one) for one in f"{pattern:05b}"] for pattern, count in enumerate(counts) for _ in range(count)]


A, B = marks(SIX), marks(SEVEN)
