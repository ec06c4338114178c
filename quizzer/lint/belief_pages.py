"""The pages of numbers that are not believed. Each changes what the quantities of the starting template are."""

from __future__ import annotations

from quizzer.lint.page import CodeDoc
from quizzer.lint.starts import lines

_R_1 = lines("template", "R_1 = ", "R_1 = ")
_R_2 = lines("template", "R_2 = ", "R_2 = ")
_GIVEN = lines("template", "R_1 = ", 'unit = "ohm"')


def _pair(unit: str, first: str, second: str) -> str:
    """The two elements turned into quantities of another kind, and their sum with them."""
    text = _GIVEN.replace('"ohm"', f'"{unit}"')
    return text.replace("first element", first).replace("second element", second)


PAGES = (
    CodeDoc(
        "Q811",
        "A hot joint without a word of fire",
        "A few tens of watts in one spot char insulation and start a fire. Whoever is asked for the sum alone learns "
        "to walk past it.",
        _pair("W", "power in the joint", "power of the load"),
        _GIVEN,
        "Narrow the draw, or say in a step, a reason or a caution that such a joint starts a fire and is remade.",
        warning=True,
        at="R_1 = ",
    ),
    CodeDoc(
        "Q812",
        "A drop that no run is left with",
        "A tenth of the supply lost on a lead or a run is a fault, and a trainee takes the drawn numbers for usual "
        "ones. A template that ends in a verdict may lose more where the verdict is that it is too much, and says so "
        "in its overrides.",
        _pair("V", "drop along the lead", "voltage of the load"),
        _GIVEN,
        "Draw a shorter run, a larger size or less current.",
        warning=True,
        at="R_1 = ",
    ),
    CodeDoc(
        "Q813",
        "A conductor with the resistance of a load",
        "A lead in the hand has well under 2 ohms and a conductor of an installation under 5: more is a fault, or an "
        "element with the wrong name.",
        _R_1.replace("first element", "first test lead"),
        _R_1,
        "Draw what a lead or a conductor of that length has, or call it by its name.",
        warning=True,
    ),
    CodeDoc(
        "Q814",
        "Sockets on an RCD of more than 30 mA",
        "Sockets up to 32 A need additional protection by 30 mA. Drawn without a word, a larger rating looks allowed.",
        _pair("mA", "rated residual current of the sockets", "residual current of the test"),
        _GIVEN,
        "Draw 30 mA for circuits with sockets, or say that they need it besides.",
        warning=True,
        at="R_1 = ",
    ),
    CodeDoc(
        "Q815",
        "An electrode above 200 ohms without its note",
        "Above 200 ohms an electrode may not be stable: it dries out or freezes, and the sum holds for one day.",
        _R_2.replace("second element", "electrode"),
        _R_2,
        "Draw no more than 200 ohms, or say that more may not be stable.",
        warning=True,
    ),
    CodeDoc(
        "Q816",
        "A device or a cable asked for more than its rating",
        "The design current is at most the rating of the device, and that at most what the cable carries. A final "
        "design that breaks the order teaches an overload. A template that ends in a verdict is left alone.",
        _pair("A", "rated current of the device", "design current"),
        _GIVEN,
        "Require that design current, device and cable follow in order.",
        warning=True,
        at="R_1 = ",
    ),
    CodeDoc(
        "Q817",
        "Panels and inverter that do not belong together",
        "Panels from half to one and a half times the inverter's rating are built; outside that nobody would.",
        _pair("kW", "rated power of the panels", "rating of the inverter"),
        _GIVEN,
        "Draw the two so that they belong together.",
        warning=True,
        at="R_1 = ",
    ),
)
