"""Commands in a page of documentation, and whether what they print is what the page says.

In a block fenced as `console`, a line that begins with "$ " is a command (one that ends in a backslash goes
on in the next line), and the lines below it are what it prints. A line of three dots stands for any lines
that are left out; a command with nothing below it promises nothing but its exit code.
"""

from dataclasses import dataclass

FENCE = "```"
GAP = "..."


@dataclass(frozen=True, slots=True)
class Command:
    """One command of a page, and the lines the page says it prints."""

    line: int
    text: str
    shown: tuple[str, ...]


def commands_in(page: str) -> list[Command]:
    """Every command of the page's console blocks, in order."""
    found: list[Command] = []
    for start, block in _blocks(page):
        found.extend(_commands(start, block))
    return found


def _blocks(page: str) -> list[tuple[int, list[str]]]:
    """The console blocks, each with the number of its first line inside."""
    blocks: list[tuple[int, list[str]]] = []
    fence = ""
    for number, line in enumerate(page.splitlines(), 1):
        if line.strip().startswith(FENCE):
            fence = "" if fence else line.strip()
            if fence == f"{FENCE}console":
                blocks.append((number + 1, []))
        elif fence == f"{FENCE}console":
            blocks[-1][1].append(line)
    return blocks


def _commands(start: int, block: list[str]) -> list[Command]:
    found: list[Command] = []
    going_on = False
    for number, line in enumerate(block, start):
        words = line.removeprefix("$ ").rstrip("\\").strip()
        if going_on:
            found[-1] = Command(found[-1].line, f"{found[-1].text} {words}", ())
        elif line.startswith("$ "):
            found.append(Command(number, words, ()))
        elif found:
            last = found[-1]
            found[-1] = Command(last.line, last.text, (*last.shown, line))
        else:
            raise ValueError(f"line {number}: a console block begins with a command, not with {line!r}")
        going_on = line.endswith("\\")
    return found


def first_missing(shown: tuple[str, ...], printed: str) -> str | None:
    """The first line the page shows that the command did not print in its place, None if all is there.

    Lines follow one another without a gap, except where the page has three dots. Blanks at the end of a line,
    and empty lines at both ends, do not count.
    """
    if not any(line.strip() for line in shown):
        return None
    said = [line.rstrip() for line in printed.strip("\n").splitlines()]
    place, free = 0, False
    for line in _trimmed(shown):
        if line.strip() == GAP:
            free = True
            continue
        ahead = said[place:] if free else said[place : place + 1]
        if line not in ahead:
            return line
        place += ahead.index(line) + 1
        free = False
    return None if free or place == len(said) else f"(the end, where it printed {said[place]!r})"


def _trimmed(shown: tuple[str, ...]) -> list[str]:
    return "\n".join(line.rstrip() for line in shown).strip("\n").splitlines()
