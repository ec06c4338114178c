"""The linear programme behind the forms: who may stand where, solved by HiGHS."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any

from quizzer.bank.blueprints import Blueprint
from quizzer.paper.enemies import limits
from quizzer.paper.pool import Candidate

Pairs = frozenset[tuple[int, int]]
Dice = Callable[[], float]
SECONDS = 20.0
_USED = 50.0  # what it costs to take a question that was in one of the last two papers
_ANOTHER = 1.0  # and a case of a family beside the one whose turn it is in a form: more than any entry by itself


class Programme:
    """Columns are (candidate, section, form); rows are counts with their least and greatest value."""

    def __init__(self, blueprint: Blueprint, pool: Sequence[Candidate], pairs: Pairs, forms: int) -> None:
        self.blueprint, self.pool, self.forms = blueprint, pool, forms
        self.columns = [
            (at, section, form)
            for at, one in enumerate(pool)
            for section, plan in enumerate(blueprint.sections)
            if plan.wants(one.id, one.safety_critical, one.exercises)
            for form in range(forms)
        ]
        self.rows: list[tuple[list[int], float, float]] = []
        by_place: dict[tuple[int, int], list[int]] = {}
        by_candidate: dict[int, list[int]] = {}
        by_form: dict[tuple[int, int], list[int]] = {}
        for column, (at, section, form) in enumerate(self.columns):
            by_place.setdefault((section, form), []).append(column)
            by_candidate.setdefault(at, []).append(column)
            by_form.setdefault((at, form), []).append(column)
        for (section, _), columns in self._places(by_place):
            self._count(section, columns)
        self.rows += [(columns, 0, 1) for columns in by_candidate.values() if len(columns) > 1]
        for one, other in pairs:
            for form in range(forms):
                both = by_form.get((one, form), []) + by_form.get((other, form), [])
                self.rows.append((both, 0, 1))
        for limit in limits(pool):
            for form in range(forms):
                inside = [column for at in sorted(limit.places) for column in by_form.get((at, form), [])]
                self.rows.append((inside, 0, limit.most))

    def _places(self, by_place: dict[tuple[int, int], list[int]]) -> list[tuple[tuple[int, int], list[int]]]:
        sections = range(len(self.blueprint.sections))
        return [((s, f), by_place.get((s, f), [])) for s in sections for f in range(self.forms)]

    def _count(self, section: int, columns: list[int]) -> None:
        plan = self.blueprint.sections[section]
        self.rows.append((columns, plan.questions, plan.questions))
        for level, fewest in plan.levels.items():
            of_level = [column for column in columns if self.pool[self.columns[column][0]].level == level]
            self.rows.append((of_level, fewest, plan.questions))
        fewest, most = plan.calculations
        calculations = [column for column in columns if self.pool[self.columns[column][0]].calculation]
        self.rows.append((calculations, fewest, most))

    def _even(self) -> list[tuple[list[int], float]]:
        """What each form has as often as one of all forms, or so much oftener: its columns, by kind and form.

        Pictures make questions easier, and calculations take longer, so that only forms with as many are as hard.
        """
        pictured = [column for column, (at, _, _) in enumerate(self.columns) if self.pool[at].pictured]
        calculations = [column for column, (at, _, _) in enumerate(self.columns) if self.pool[at].calculation]
        return [
            ([column for column in columns if self.columns[column][2] == form], more)
            for columns, more in ((pictured, 1.0), (calculations, 0.0))
            for form in range(self.forms)
        ]

    def solve(self, costs: Sequence[float], slack: bool) -> Any:
        """HiGHS's solution: which columns are taken; with `slack` each count may fall short, at a price.

        None when there is no solution.
        """
        import highspy  # 0.1 s, and only papers need it
        import numpy as np

        short = [at for at, (_, least, _) in enumerate(self.rows) if least > 0] if slack else []
        even = [] if slack else self._even()
        # the columns that say how many pictures, and how many calculations, each form has at the least
        shares = range(len(self.columns) + len(short), len(self.columns) + len(short) + len(even) // self.forms)
        model = highspy.HighsLp()
        model.num_col_, model.num_row_ = len(self.columns) + len(short) + len(shares), len(self.rows) + len(even)
        model.col_cost_ = np.array([*costs, *([1e4] * len(short)), *([0.0] * len(shares))])
        model.col_lower_ = np.zeros(model.num_col_)
        model.col_upper_ = np.array([1.0] * len(self.columns) + [1e6] * (len(short) + len(shares)))
        whole, any_share = highspy.HighsVarType.kInteger, highspy.HighsVarType.kContinuous
        model.integrality_ = [whole] * len(self.columns) + [any_share] * (len(short) + len(shares))
        model.row_lower_ = np.array([float(least) for _, least, _ in self.rows] + [0.0] * len(even))
        model.row_upper_ = np.array([float(most) for _, _, most in self.rows] + [more for _, more in even])
        extra = {row: len(self.columns) + at for at, row in enumerate(short)}
        rows = [[*columns, *([extra[at]] if at in extra else [])] for at, (columns, _, _) in enumerate(self.rows)]
        rows += [[*columns, shares[at // self.forms]] for at, (columns, _) in enumerate(even)]
        model.a_matrix_.format_ = highspy.MatrixFormat.kRowwise
        model.a_matrix_.start_ = np.cumsum([0, *map(len, rows)]).astype(np.int32)
        index = np.array([column for row in rows for column in row], dtype=np.int32)
        model.a_matrix_.index_, model.a_matrix_.value_ = index, np.where(np.isin(index, shares), -1.0, 1.0)
        found = _solution(highspy, model)
        return None if found is None else found[: len(self.columns)]


def _solution(highspy: Any, model: Any) -> Any:
    class Quiet(highspy.Highs):  # type: ignore[misc]
        """The solver without callbacks: setting them up prints a banner, before any option can forbid it."""

        def enableCallbacks(self) -> None:  # noqa: N802  the library's name
            """None are wanted."""

    solver = Quiet()
    solver.setOptionValue("output_flag", False)
    solver.setOptionValue("time_limit", SECONDS)
    solver.setOptionValue("mip_rel_gap", 1.0)  # any set of forms will do: the swaps even them out
    solver.setOptionValue("threads", 1)
    solver.setOptionValue("random_seed", 0)
    solver.passModel(model)
    if solver.run() == highspy.HighsStatus.kError:
        raise RuntimeError("HiGHS did not run: nothing is known of the bank")
    values = solver.getSolution().col_value
    found = solver.getInfo().primal_solution_status == highspy.SolutionStatus.kSolutionStatusFeasible
    return list(values) if found and len(values) else None


def first_forms(
    blueprint: Blueprint, pool: Sequence[Candidate], pairs: Pairs, forms: int, dice: Dice
) -> list[list[tuple[int, int]]] | None:
    """Forms that meet the blueprint, as (place in the pool, section) in the order of sections; None when none exist."""
    programme = Programme(blueprint, pool, pairs, forms)
    prices = _prices(pool, forms, dice)
    taken = programme.solve([prices[at, form] for at, _, form in programme.columns], slack=False)
    if taken is None:
        return None
    found: list[list[tuple[int, int]]] = [[] for _ in range(forms)]
    for (at, section, form), value in zip(programme.columns, taken, strict=True):
        if value > 0.5:
            found[form].append((at, section))
    return [sorted(form, key=lambda place: (place[1], place[0])) for form in found]


def _prices(pool: Sequence[Candidate], forms: int, dice: Dice) -> dict[tuple[int, int], float]:
    """What each candidate costs in each form: a random price of its entry, which makes another seed another paper.

    A family is no likelier to be taken than an entry by itself: in each form one of its cases, in turn, has the price.
    """
    by_entry: dict[str, list[tuple[bool, float, int]]] = {}
    for at, one in enumerate(pool):
        by_entry.setdefault(one.id, []).append((one.used, dice(), at))
    prices = {}
    for cases in by_entry.values():
        for form in range(forms):
            price = dice()
            for turn, (used, _, at) in enumerate(sorted(cases)):
                more = 0.0 if turn == form % len(cases) else _ANOTHER
                prices[at, form] = price + more + (_USED if used else 0.0)
    return prices


def short_section(blueprint: Blueprint, pool: Sequence[Candidate], pairs: Pairs, forms: int) -> str:
    """A sentence on the sections that the bank cannot fill, proven by letting each count fall short at a price."""
    programme = Programme(blueprint, pool, pairs, forms)
    taken = programme.solve([0.0] * len(programme.columns), slack=True)
    short = []
    for section, plan in enumerate(blueprint.sections):
        can = sum(plan.wants(one.id, one.safety_critical, one.exercises) for one in pool)
        got = sum(v > 0.5 for (_, s, _), v in zip(programme.columns, taken or [], strict=False) if s == section)
        wanted = plan.questions * forms
        if got < wanted:
            short.append(f"{plan.title} wants {wanted} for {forms} forms, {can if can < wanted else got} are there")
    return "; ".join(short) or "levels or calculations of the blueprint cannot be met by this bank"
