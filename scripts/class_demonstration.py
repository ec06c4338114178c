"""A class of forty with three forms: made, printed as one file, photographed, scanned, marked, corrected, reported.

Everything goes through the commands that a tutor types. The people, their centre and their answers are invented.
"""

from __future__ import annotations

import csv
import json
import os
import subprocess
import sys
from pathlib import Path
from random import Random

# fmt: off
NAMES = (
    "Aisha", "Ben", "Callum", "Dilys", "Efe", "Farah", "Goran", "Hana", "Idris", "Jo", "Kezia", "Liam", "Mina",
    "Noor", "Owen", "Priya", "Quinn", "Rhys", "Sadia", "Tomos", "Uma", "Viktor", "Wren", "Xenia", "Yusuf", "Zoe",
    "Anwen", "Bruno", "Chidi", "Dana", "Emrys", "Fern", "Gita", "Hugo", "Ines", "Jonas", "Kofi", "Leila", "Marek",
    "Nia",
)
# fmt: on
CENTRE = """name = "Larch House Training (invented)"
address = "9 Elm Lane, Larchford"
logo = "logo.svg"
candidate_number = 6
instructions = ["Write your candidate number on the answer sheet."]
"""
LOGO = """<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 60 30">
<rect width="60" height="30" rx="6"/><path d="M10 22 L30 6 L50 22" stroke="white" stroke-width="4" fill="none"/></svg>
"""
LARGE_PRINT, SCRIBBLED = 7, (4, 21)  # who sits there needs large print; who sits there crosses two boxes once


class Demonstration:
    """The folder of the class, and the commands run in it."""

    def __init__(self, folder: Path, blueprint: str) -> None:
        self.folder, self.blueprint = folder, blueprint
        self.store = folder / "store.db"

    def run(self, *words: str, fine: tuple[int, ...] = (0,)) -> None:
        """Run a command, its words and output shown. Ends the demonstration where it fails."""
        print(f"\n$ quizzer {' '.join(words)}", flush=True)
        checkout = str(Path(__file__).resolve().parent.parent)
        surroundings = {**os.environ, "QUIZZER_STORE": str(self.store), "PYTHONPATH": checkout}
        found = subprocess.run(
            [sys.executable, "-P", "-m", "quizzer", *words],
            cwd=self.folder,
            env=surroundings,
            stdin=subprocess.DEVNULL,
            check=False,
        )
        if found.returncode not in fine:
            sys.exit(f"demo: `quizzer {words[0]} {words[1]}` ended with {found.returncode}")

    def play(self, seed: int) -> None:
        """The whole, from the list of the class to the report."""
        self._write_lists()
        self.run("group", "import", "winter class", "people.csv", "--add")
        self.run("paper", "make", self.blueprint, "--forms", "3", "--seed", str(seed), "--out", "mock")
        self.run("paper", "print", "mock", "--class", "people.csv", "--out", "class")
        meant = self._photograph(Random(seed))
        photographs = sorted(path.name for path in self.folder.glob("photograph-*.jpg"))
        reading = ("--paper", "mock", "--class", "class/class.csv", "--out", "readings.csv")
        self.run("paper", "scan", *photographs, *reading, fine=(0, 1))
        self._decide(meant)
        self.run("paper", "mark", "mock", "--answers", "readings.csv")
        by = ("--by", "Tess", "--reason")
        self.run("paper", "correct", "mock", "--person", NAMES[3], "--question", "4", "--to", "B", *by, "looked again")
        self.run("paper", "correct", "mock", "--form", "A", "--question", "7", "--void", *by, "two meanings")
        self.run("paper", "report", "mock")
        self.run("paper", "report", "mock", "--items", "--out", "items.pdf")
        print(f"\nAll of it is in {self.folder}: class/class.pdf is what a class is handed.")

    def _write_lists(self) -> None:
        self.folder.mkdir(parents=True)
        (self.folder / "centre.toml").write_text(CENTRE, encoding="utf-8")
        (self.folder / "logo.svg").write_text(LOGO, encoding="utf-8")
        looks = ["large-print-18" if seat == LARGE_PRINT else "standard" for seat in range(1, len(NAMES) + 1)]
        rows = "".join(f"{name},{look}\n" for name, look in zip(NAMES, looks, strict=True))
        (self.folder / "people.csv").write_text(f"name,print\n{rows}", encoding="utf-8")

    def _photograph(self, dice: Random) -> dict[str, str]:
        """A photograph of every sheet, filled in; what each meant to answer, by name."""
        from tests.scan.answered import drawn_answers, photograph
        from tests.scan.pencil import Camera, Hand
        from tests.scan.simulated import printed

        print("\nForty people answer in pencil, and a phone takes a picture of each sheet.", flush=True)
        seats = self._seats()
        keys = self._keys()
        meant = {}
        for look in dict.fromkeys(seat["print"] for seat in seats):
            suffix = "" if look == "standard" else f"-{look}"
            pages = iter(printed((self.folder / "class" / f"class{suffix}.pdf").read_bytes()))
            for seat in (one for one in seats if one["print"] == look):
                number, by = int(seat["seat"]), (Hand.of(dice), Camera.of(dice))
                answers = drawn_answers(keys[seat["form"]], dice)
                meant[seat["name"]] = answers
                page = next(pages)
                done = max(question for question, _ in page.boxes)
                twice = number if number in SCRIBBLED else 0
                self._save(number, 1, photograph(page, answers, by, dice, twice=twice))
                if done < len(answers):
                    self._save(number, 2, photograph(next(pages), answers, by, dice))
        return meant

    def _save(self, seat: int, page: int, content: bytes) -> None:
        (self.folder / f"photograph-{seat:02d}-{page}.jpg").write_bytes(content)

    def _seats(self) -> list[dict[str, str]]:
        with (self.folder / "class" / "class.csv").open(encoding="utf-8-sig", newline="") as file:
            return list(csv.DictReader(file))

    def _keys(self) -> dict[str, str]:
        record = json.loads((self.folder / "mock" / "paper.json").read_text(encoding="utf-8"))
        return {form["serial"]: "".join(item["key"] for item in form["items"]) for form in record["forms"]}

    def _decide(self, meant: dict[str, str]) -> None:
        """Put what a person sees on the sheets in the place of each question mark of the table."""
        with (self.folder / "readings.csv").open(encoding="utf-8-sig", newline="") as file:
            rows = list(csv.DictReader(file))
        decided = 0
        for row in rows:
            for number, letter in enumerate(meant[row["name"]], 1):
                if row[str(number)] == "?":
                    row[str(number)] = letter
                    decided += 1
        with (self.folder / "readings.csv").open("w", encoding="utf-8-sig", newline="") as file:
            writer = csv.DictWriter(file, rows[0].keys())
            writer.writeheader()
            writer.writerows(rows)
        print(f"\nThe tutor looks at {decided} rows on the sheets and writes a letter for each question mark.")
