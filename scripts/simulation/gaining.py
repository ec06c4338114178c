"""What a review today is worth, for many learners and entries at once: the twin of quizzer/schedule/policy.py."""

import numpy as np

from quizzer.schedule import half_life_gain as halves
from quizzer.schedule.belief import ABILITIES, ABILITY_SHARES, DIFFICULTIES, DIFFICULTY_SHARES
from quizzer.schedule.forgetting import decay_at, failed, passed, recall_by_half_life, recall_by_strength, trace
from quizzer.schedule.gain import Course, cost
from quizzer.schedule.trace_gain import gain_by_traces, plans

NEW = tuple(zip(DIFFICULTIES, DIFFICULTY_SHARES, strict=True))


def gains(belief, model, learners, day, course, table):
    """Gains by learner and entry for the learners whose leading model this is; `table` is `halves.ahead(course)`."""
    met = belief.met[learners]
    if table is not None:
        return np.where(met, by_half_lives(model, learners, day, course, table), _new_by_half_lives(course, table))
    gift = sum(share * ability for share, ability in zip(ABILITY_SHARES, ABILITIES, strict=True))
    new = gain_by_traces(plans(course.sessions), gift, (), course)
    gained = np.full(met.shape, new)
    gained[met] = by_traces(model, learners, met, day, course)
    return gained


def _new_by_half_lives(course, table):
    return halves.gain_of_new_by_half_life(table, NEW, course)


def by_half_lives(model, learners, day, course, table):
    """`gain_by_half_life` with the means of the classes, for everything (nonsense where never met)."""
    values, shares = np.array(table), model.shares[learners]
    half_life = np.exp((shares * np.log(model.half_life[learners])).sum(-1))
    difficulty = (shares * np.array(DIFFICULTIES)).sum(-1)
    elapsed, left = day - model.last[learners], course.sessions
    best = recall_by_half_life((elapsed + left * course.step) * course.pace, half_life)
    recall, now = _worth(values, half_life, difficulty, elapsed, left, course)
    for gap in (gap for gap in halves.GAPS if gap < left):
        later = _worth(values, half_life, difficulty, elapsed + gap * course.step, left - gap, course)[1]
        best = np.maximum(best, later)
    return (now - best) / cost(recall)


def _worth(values, half_life, difficulty, elapsed, left, course):
    recall = recall_by_half_life(elapsed * course.pace, half_life)
    up = _value(values[left], passed(half_life, difficulty, recall), difficulty)
    down = _value(values[left], failed(half_life, difficulty, recall), difficulty)
    return recall, recall * up + (1 - recall) * down - course.seconds_price(left) * cost(recall)


def _value(rows, half_life, difficulty):
    x = np.clip(np.log(half_life / halves.HALF_LIVES[0]) / halves.HALF_LIFE_STEP, 0.0, len(halves.HALF_LIVES) - 1.001)
    y = np.clip((difficulty - halves.DIFFICULTIES[0]) / 2, 0.0, len(halves.DIFFICULTIES) - 1.001)
    i, j = x.astype(int), y.astype(int)
    down, across = x - i, y - j
    left = rows[i, j] * (1 - down) + rows[i + 1, j] * down
    right = rows[i, j + 1] * (1 - down) + rows[i + 1, j + 1] * down
    return left * (1 - across) + right * across


def by_traces(model, learners, met, day, course):
    """`gain_by_traces` with the means of the classes, for everything met, in one row."""
    shares = model.shares[learners][met]
    scale = np.exp((shares * np.array(ABILITIES)).sum(-1))
    values = _Plans(scale, model, learners, met, day, course, shares)
    now = wait = None
    for plan in ((), *plans(course.sessions)):
        value = values.of(plan)
        if plan and plan[0] == course.sessions:
            now = value if now is None else np.maximum(now, value)
        else:
            wait = value if wait is None else np.maximum(wait, value)
    return (now - wait) / cost(values.recall(course.sessions))


class _Plans:
    """The values of plans for many entries; what plans share is worked out once."""

    def __init__(self, scale, model, learners, met, day, course, shares):
        self.scale, self.course, self.day = scale, course, day
        self.count = model.count[learners][met]
        self.laid = model.laid[learners][met]
        self.decay = np.einsum("nc,nkc->nk", shares, model.decay[learners][met])
        self.left, self.after = {}, {(): ((), 0.0)}

    def of(self, plan):
        laid, paid = self._after(plan)
        return recall_by_strength(self._strength(0, laid)) - paid

    def recall(self, left):
        return recall_by_strength(self._strength(left, ()))

    def _after(self, plan):
        if plan not in self.after:
            laid, paid = self._after(plan[:-1])
            strength = self._strength(plan[-1], laid)
            paid = paid + self.course.seconds_price(plan[-1]) * cost(recall_by_strength(strength))
            self.after[plan] = ((*laid, (plan[-1], decay_at(strength))), paid)
        return self.after[plan]

    def _strength(self, left, laid):
        unit = self.course.step * self.course.pace
        total = self._traces(left)
        for then, decay in laid:
            total = total + trace((then - left) * unit, decay)
        return self.scale * total

    def _traces(self, left):
        if left not in self.left:
            day = self.day + (self.course.sessions - left) * self.course.step
            total = np.zeros(self.scale.shape)
            for at in range(self.laid.shape[-1]):
                live = at < self.count
                days = np.where(live, np.maximum(day - self.laid[:, at], 0.04) * self.course.pace, 1.0)
                total += np.where(live, trace(days, self.decay[:, at]), 0.0)
            self.left[left] = total
        return self.left[left]


__all__ = ["Course", "by_half_lives", "by_traces", "gains"]
