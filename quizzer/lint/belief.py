"""Drawn numbers that nobody who works with them would believe, or would leave without a word."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping
from itertools import product
from typing import NamedTuple

from quizzer.bank.entries import Template
from quizzer.bank.fields import Path
from quizzer.lint.ease import texts
from quizzer.lint.rule import Context, Finding, finding
from quizzer.lint.trial import TriedTemplate

# Common practice, without a source: what a joint may turn into heat before it is an emergency; what is lost on a lead
# or a run; the resistance of a lead in the hand and of a conductor in a wall; how far panels and inverter differ.
HOT_W = 30.0
LOST = 0.10
LEAD_OHM, CONDUCTOR_OHM = 2.0, 5.0
ARRAY = (0.5, 1.5)
SENSITIVE_A = 0.03  # BS 7671, regulation 411.3.3: the most of an RCD for additional protection
STEADY_OHM = 200.0  # BS 7671, the note to table 41.5: above this an electrode may not be stable
NOMINAL_V = 230.0
SLACK = 1 + 1e-9

_AMPERES, _VOLTS, _OHMS, _WATTS = ("A", "mA", "kA"), ("V", "mV", "kV"), ("ohm", "mohm"), ("W", "kW")
_JOINT = r"\b(?:joints?|terminals?|terminations?|contact)\b"
# What the words of a quantity make of it: units it has, and words that say so.
_KNOWN: dict[str, tuple[tuple[str, ...], str]] = {
    "load": (
        _AMPERES,
        r"^(?:load |design |line |running )?current\b(?!.*(?:trips|blows|leak|residual|fault))",
    ),
    "joint power": (_WATTS, _JOINT),
    "joint": (_OHMS, _JOINT),
    "volts at a joint": (_VOLTS, rf"\b(?:drop|lost)\b.*{_JOINT}"),
    "supply": (_VOLTS, r"^(?!.*\b(?:limit|lost|drop)).*\b(?:supply|nominal|voltage)\b"),
    "drop": (_VOLTS, r"^(?!.*\b(?:limit|may|less)\b).*\b(?:drops?|lost)\b"),
    "lead": (_OHMS, r"\b(?:leads?|flex|cord)\b"),
    "conductor": (_OHMS, r"^(?!.*\belectrode and\b).*\b(?:conductors?|cores?|wires?|bonds?)\b"),
    "residual": (_AMPERES, r"\bresidual\b"),
    "electrode": (_OHMS, r"\b(?:electrodes?|rods?)\b"),
    "design": (_AMPERES, r"^design current\b"),
    "device": (_AMPERES, r"\brat(?:ed current|ing) of the (?:breaker|fuse|device)\b|^next standard rating"),
    "cable": (_AMPERES, r"\b(?:rating|capacity) of the cable\b|^tabulated rating$|^its rating$"),
    "panels": (_WATTS, r"\b(?:panels|array|modules)\b"),
    "inverter": (_WATTS, r"\binverter\b"),
}
_RUN = re.compile(r"\b(?:leads?|flex|cords?|cables?|runs?|feeders?)\b", re.IGNORECASE)
# What is plugged in is on a socket, whether the stem names one or not.
_SOCKET = re.compile(r"\b(?:sockets?|plugs?|plugged|portable|appliances?|computers?|kettles?)\b", re.IGNORECASE)
_FIRE = re.compile(r"\b(?:fires?|overheat\w*|burns?|burnt|scorch\w*|chars?|charred|melts?)\b", re.IGNORECASE)
_STABLE = re.compile(r"\bstable\b", re.IGNORECASE)
_SENSITIVE = re.compile(r"\b30 mA\b")


class Quantity(NamedTuple):
    """A given or a step: its key below the entry, its name, its unit, and the words that say what it is."""

    path: Path
    name: str
    unit: str
    words: str


class Sorted(NamedTuple):
    """The quantities of a template by what they are, the givens alone, and its stems with all that may fill them."""

    all: Mapping[str, list[Quantity]]
    given: Mapping[str, list[Quantity]]
    asked: str


class Seen(NamedTuple):
    """A draw that is not believed: the quantity, how far off it is, and what it comes to in words."""

    of: Quantity
    size: float
    what: str


Values = Mapping[str, float]
Look = Callable[[Sorted, Values], Iterator[Seen]]


def _sorted(template: Template) -> Sorted:
    givens = [Quantity(("given", one.name), one.name, one.unit.word, one.say) for one in template.given]
    steps = [Quantity(("step", at, "name"), one.name, one.unit.word, one.say) for at, one in enumerate(template.steps)]
    lists = (word for listed in template.words.values() for word in listed)
    asked = " ".join((*(" ".join(ask.pieces[0::2]) for ask in template.ask), *lists))
    return Sorted(_by_kind([*givens, *steps]), _by_kind(givens), asked)


def _by_kind(quantities: list[Quantity]) -> Mapping[str, list[Quantity]]:
    return {
        kind: [one for one in quantities if one.unit in units and re.search(words, one.words, re.IGNORECASE)]
        for kind, (units, words) in _KNOWN.items()
    }


def joint_heat(found: Sorted, at: Values) -> Iterator[Seen]:
    """Heat in a joint that would set fire to what is round it."""
    most = max((at[one.name] for one in found.all["load"]), default=0.0)
    heats = [(one, at[one.name]) for one in found.all["joint power"]]
    heats += [(one, most**2 * at[one.name]) for one in found.all["joint"]]
    heats += [(one, most * abs(at[one.name])) for one in found.all["volts at a joint"]]
    for one, heat in heats:
        if heat > HOT_W:
            yield Seen(one, heat, f"up to {heat:.0f} W of heat in a joint, without a word of fire or overheating")


def lost_on_a_run(found: Sorted, at: Values) -> Iterator[Seen]:
    """A drop that no lead and no run of cable is left with."""
    supply = max((at[one.name] for one in found.given["supply"]), default=NOMINAL_V)
    for one in found.all["drop"]:
        share = abs(at[one.name]) / supply
        if share > LOST and _RUN.search(f"{one.words} {found.asked}"):
            yield Seen(one, share, f"up to {share:.0%} of the supply lost on the way")


def conductor_of_ohms(found: Sorted, at: Values) -> Iterator[Seen]:
    """A lead or a conductor with the resistance of a load."""
    for kind, most in (("lead", LEAD_OHM), ("conductor", CONDUCTOR_OHM)):
        for one in found.given[kind]:
            if (ohms := at[one.name]) > most:
                yield Seen(one, ohms, f"up to {ohms:.3g} Ω in what is called {one.words!r}")


def residual_on_sockets(found: Sorted, at: Values) -> Iterator[Seen]:
    """Sockets on an RCD that is not sensitive enough for them."""
    for one in found.given["residual"]:
        if (rating := at[one.name]) > SENSITIVE_A * SLACK and _SOCKET.search(f"{one.words} {found.asked}"):
            yield Seen(one, rating, f"sockets on an RCD of {1000 * rating:.0f} mA, without a word of 30 mA")


def unsteady_electrode(found: Sorted, at: Values) -> Iterator[Seen]:
    """An electrode that may dry out or freeze."""
    for one in found.given["electrode"]:
        if (ohms := at[one.name]) > STEADY_OHM * SLACK:
            yield Seen(one, ohms, f"an electrode of up to {ohms:.0f} Ω, without a word that it may not be stable")


def overloaded(found: Sorted, at: Values) -> Iterator[Seen]:
    """A design that asks more of a device than its rating, or lets more through than the cable carries."""
    design, device, cable = found.all["design"], found.all["device"], found.given["cable"]
    for one, other in (*product(design, device), *product(device, cable), *product(design, cable)):
        if (low := at[one.name]) > (high := at[other.name]) * SLACK:
            yield Seen(other, low / high, f"{one.name} of {low:.3g} A over {other.name} of {high:.3g} A")


def panels_and_inverter(found: Sorted, at: Values) -> Iterator[Seen]:
    """Panels that their inverter could not use, or an inverter that its panels never fill."""
    for panels, inverter in product(found.given["panels"], found.given["inverter"]):
        ratio = at[panels.name] / at[inverter.name]
        if not ARRAY[0] <= ratio <= ARRAY[1]:
            yield Seen(panels, max(ratio, 1 / ratio), f"panels of {ratio:.0%} of the rating of their inverter")


# Each kind: its code, how it looks at a draw, the words that answer it anywhere in the entry, and what to do.
_KINDS: tuple[tuple[str, Look, re.Pattern[str] | None, str], ...] = (
    ("Q811", joint_heat, _FIRE, "narrow the draw, or say that such a joint starts a fire"),
    ("Q812", lost_on_a_run, None, "draw a shorter run, a larger size or less current"),
    ("Q813", conductor_of_ohms, None, "draw what a lead or a conductor of this length has"),
    ("Q814", residual_on_sockets, _SENSITIVE, "draw 30 mA, or say that sockets need it besides"),
    ("Q815", unsteady_electrode, _STABLE, "draw no more than 200 Ω, or say that it may not be stable"),
    ("Q816", overloaded, None, "require that design current, device and cable follow in order"),
    ("Q817", panels_and_inverter, None, "draw panels and inverter that belong together"),
)


def believed(trial: TriedTemplate, context: Context) -> Iterator[Finding]:
    """The worst draw of each quantity that is not believed, unless the entry says what there is to say about it."""
    template, found = trial.template, _sorted(trial.template)
    for code, look, answer, mend in _KINDS:
        if look is overloaded and template.verdict:
            continue  # whether it carries the load is what is asked there
        worst: dict[str, Seen] = {}
        for draw in trial.draws:
            for seen in look(found, draw.values):
                worst[seen.of.name] = max(seen, worst.get(seen.of.name, seen), key=lambda each: each.size)
        if worst and not (answer and _said(template, answer)):
            for seen in worst.values():
                yield finding(template, code, seen.of.path, f"{seen.of.name}: {seen.what}", mend)


def _said(template: Template, words: re.Pattern[str]) -> bool:
    """Whether any text that a trainee reads says so: stems, steps, reasons, verdicts, cautions."""
    told = (outcome.outcome + " ".join(outcome.so.pieces[0::2]) for outcome in template.verdict)
    cautions = (caution.say for caution in template.head.cautions)
    return any(words.search(text) for text in (*(said.text for said in texts(template)), *told, *cautions))


RULES = (believed,)
