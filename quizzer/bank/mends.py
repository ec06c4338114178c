"""How to put a finding right, where several findings or their pages say the same."""

SPLIT = "split it into several files"
SAVE_AS_UTF8 = "save it as UTF-8"
TAKE_ONE_OUT = "take one of them out"
KNOWN_CAUTION = "name one of banks/cautions.toml"
REACHABLE = "write a mark that can be reached"
NO_ROW = "no row is left to draw"
AS_AN_ID = "write it like testing/ring/cross-reading"
