"""Random trees of the language."""

from hypothesis import strategies as st

from quizzer.expression.functions import FUNCTIONS
from quizzer.expression.tree import Bin, Call, Name, Neg, Node, Num

_NAMES = ("a", "b", "Z_s", "I_n", "phi")
_ONE = sorted(name for name in FUNCTIONS if name not in ("min", "max"))

_leaves: st.SearchStrategy[Node] = st.one_of(
    st.sampled_from(_NAMES).map(Name),
    st.integers(0, 999).map(lambda n: Num(str(n))),
    st.decimals("0.001", "99", places=3).map(lambda n: Num(f"{n:f}")),
)


def _grown(inner: st.SearchStrategy[Node]) -> st.SearchStrategy[Node]:
    return st.one_of(
        inner.map(Neg),
        st.builds(Bin, st.sampled_from(["+", "-", "*", "/", "**"]), inner, inner),
        st.builds(lambda fn, arg: Call(fn, (arg,)), st.sampled_from(_ONE), inner),
        st.builds(lambda fn, one, two: Call(fn, (one, two)), st.sampled_from(["min", "max"]), inner, inner),
    )


trees = st.recursive(_leaves, _grown, max_leaves=8)
