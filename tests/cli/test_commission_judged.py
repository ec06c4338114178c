"""What an assessor would not let pass in a commissioning, typed as it was tried."""

from quizzer.circuit.commissioning.job import remedies_for
from quizzer.circuit.installation.placing import KINDS, kinds_for
from quizzer.workflows.faults.commissioning import commissioned
from tests.circuit.commission_typing import lines_of
from tests.circuit.commissioners import best_commands
from tests.cli.running import ran

DEAD = "isolate; lock; prove indicator; prove dead; prove indicator"


def played(monkeypatch, size, seed, lines, *options):
    """What is shown, each run of blanks and ends of lines as one blank."""
    options = ("--size", size, "--level", "2", "--seed", str(seed), *options)
    found = ran(monkeypatch, "commission", *options, typed="".join(f"{line}\n" for line in lines))
    assert max(map(len, found.out.split("\n"))) <= 80
    return " ".join(found.out.split())


def best_lines(size, seed, *, periodic=False):
    """The best play as it is typed, without and with its end."""
    play = commissioned(size, 2, seed, periodic=periodic)
    lines = lines_of(play, best_commands(play))
    return lines[:-1], lines[-1]


def test_nothing_is_signed_or_refused_with_the_earthing_conductor_off(monkeypatch):
    lines, end = best_lines("flat", 677, periodic=True)
    typed = (*lines, DEAD, "earth off", "declare", "refuse", "earth on", end, "", "")
    shown = played(monkeypatch, "flat", 677, typed, "--periodic")
    assert shown.count("The earthing conductor goes back on first") == 2
    assert shown.index("goes back on first") < shown.index("PASSED: nothing was lost")
    lines, end = best_lines("flat", 616)
    shown = played(monkeypatch, "flat", 616, (*lines, DEAD, "earth off", end, "q", "", ""))
    assert "The earthing conductor goes back on first" in shown
    assert "NOT PASSED" in shown


def test_a_live_part_within_reach_is_told_and_made_safe_or_nothing_is_energised(monkeypatch):
    lines, end = best_lines("flat", 677, periodic=True)
    shown = played(monkeypatch, "flat", 677, (*lines, "inspect 0", end, "replay", "", "", ""), "--periodic")
    assert "the person in charge is told at once. People are kept away; a temporary blank" in shown
    assert shown.count("a blank is missing: a finger reaches a live bar") == 1
    assert "a blank is missing, made safe for now" in shown
    assert "PASSED: nothing was lost" in shown
    at = lines.index("note 0")
    shown = played(monkeypatch, "flat", 677, (*lines[:at], *lines[at + 3 :], "", "", ""), "--periodic")
    assert "STOPPED FOR SAFETY: it was energised with a live part within reach" in shown


def test_the_figures_measured_before_are_no_readings(monkeypatch):
    """Way for way as it was read, but for the two of the origin: they cost their marks, and the reason is said."""
    lines, end = best_lines("house", 633)
    old = {"record ze": "record ze 142", "record ipf": "record ipf 1496"}
    typed = [next((new for start, new in old.items() if line.startswith(start)), line) for line in lines]
    assert sum(line in old.values() for line in typed) == 2
    shown = played(monkeypatch, "house", 633, (*typed, end, "marks", "", ""))
    assert "Values as the instruments read: 89 of 91" in shown
    assert "142 Ω is what was measured before; the instrument showed 145 Ω, and that is recorded" in shown
    assert "1496 A is what was measured before; the instrument showed 1534 A" in shown


def test_a_wrong_remedy_is_carried_out_and_cures_nothing(monkeypatch):
    """Line and neutral of way 5 are exchanged; sleeves are noted first, then what is right: only that mends it."""
    lines, end = best_lines("house", 633)
    at, mends = lines.index("note 5"), lines.index("mend")
    named, right = lines[at + 1 : at + 3]
    kind = next(each for each in KINDS if each.id == "line-neutral")
    play = commissioned("house", 2, 633, periodic=False)
    answers = remedies_for(play, 5, kind, kinds_for(play.sound, 5, 2, periodic=False, seed=633))
    sleeves = 1 + next(n for n, each in enumerate(answers) if each.startswith("sleeve"))
    tried = (*lines[: at + 2], sleeves, *lines[at + 3 : mends], "mend", "r1r2 5", "", "polarity 5", "")
    shown = played(
        monkeypatch, "house", 633, (*tried, "mend", "note 5", named, right, *lines[mends:], end, "marks", "", "")
    )
    first = shown[shown.index("has it done as noted") : shown.index("There is nothing noted that the installer")]
    assert "way 5: sleeve the conductors at every termination. To be tested again: way 5." in first
    assert "own terminal" not in first
    assert "over range (open)" in first
    assert "at neutral: line" in first
    assert "has it done as noted: way 5: put each conductor on its own terminal." in shown
    assert "PASSED: nothing was lost" in shown


def test_what_is_guessed_from_the_list_is_found_without_proof(monkeypatch):
    """Every departure of it noted rightly, with nothing tested; then with all looked at, which shows two of three."""
    lines, end = best_lines("flat", 690, periodic=True)
    notes = [line for n, line in enumerate(lines) if any(x.startswith("note ") for x in lines[max(0, n - 2) : n + 1])]
    shown = played(monkeypatch, "flat", 690, (*notes, end, "marks", "", ""), "--periodic")
    assert "Departures found, none invented: 0 of 3" in shown
    assert "found without proof: nothing that was read or seen shows it" in shown
    assert "NOT PASSED" in shown
    looked = (DEAD, "inspect all", *notes, end, "", "")
    assert "Departures found, none invented: 2 of 3" in played(monkeypatch, "flat", 690, looked, "--periodic")
    assert "PASSED: nothing was lost" in played(monkeypatch, "flat", 690, (*lines, end, "", ""), "--periodic")


def test_a_high_reading_of_both_conductors_names_neither(monkeypatch):
    shown = played(monkeypatch, "flat", 616, ("note 6 loose", "", "q", "", ""))
    assert "The joint of line or protective conductor is loose at the board" in shown
    assert "The protective conductor is loose" not in shown


def test_one_field_of_a_test_is_recorded_by_its_name(monkeypatch):
    typed = ("record button 1-2 lim", "record button 3 ok", "record l-e 2 150", "record gas 0.02", "record rcd 4 28 ok",
             "record button 99 lim", "schedule", "q", "marks", "", "")  # fmt: skip
    found = ran(monkeypatch, "commission", "--size", "flat", "--level", "2", "--seed", "3",
                typed="".join(f"{line}\n" for line in typed))  # fmt: skip
    rows = [line.split() for line in found.out.split("\n") if line[:2] in {"1 ", "2 ", "3 ", "4 "} and "..." in line]
    assert [row[11] for row in rows[:4]] == ["LIM", "LIM", "ok", "ok"]
    assert [row[7] for row in rows[:4]] == ["...", "150", "...", "..."]
    assert rows[3][10] == "28"
    assert "gas 0.02" in found.out
    assert "Ways have the numbers 1 to" in found.out
    assert "rcd both RCD (its time) and button" in " ".join(found.out.split())


def test_what_is_said_of_a_missing_bond_a_tt_limit_and_the_supply_is_true(monkeypatch):
    """A bond that is not there has no size; 1667 ohms stand in no table; what the supply shows is no dead test."""
    shown = played(monkeypatch, "flat", 690, ("inspect 0", "q", "", ""), "--periodic")
    assert "Bond to gas: neither clamp nor conductor to be found." in shown
    assert "Bond to water: 10 mm², clamp tight" in shown
    shown = played(monkeypatch, "house", 633, ("details", "q", "", ""))
    assert "Zs max by the RCD, 50 V / 30 mA; R1+R2" in shown
    assert "Zs max from the table, warm" in played(monkeypatch, "flat", 677, ("details", "q", "", ""))
    lines, _ = best_lines("flat", 677, periodic=True)
    at = next(n for n, line in enumerate(lines) if line.startswith("supply"))
    shown = played(monkeypatch, "flat", 677, (*lines[:at], *lines[at + 2 :], "", ""), "--periodic")
    assert "energised before voltage and polarity of the supply were measured at the incoming terminals." in shown
    assert "dead tests" not in shown
