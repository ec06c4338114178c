"""A bank that only has names: what reports look at, and nothing that a bank's author would change under them."""

from pathlib import Path

SHARED = Path(__file__).parent.parent / "banks"
FILES = {
    "safety": ("isolation", "law", "risk"),
    "principles": ("ohm", "power", "magnetism"),
    "supply": ("earthing", "bonding", "systems"),
    "protection": ("residual-current", "overload", "surge"),
    "circuits": ("ring", "radial", "lighting"),
    "design": ("demand", "load", "loop", "thermal", "correction", "voltage-drop", "whole-circuit"),
    "locations": ("baths", "pools", "farms"),
    "testing": ("continuity", "ring", "insulation", "polarity", "loop", "rcd", "certificates"),
    "faults": ("locating", "causes", "repair"),
    "three-phase": ("loads", "machines", "control"),
    "containment": ("conduit", "trunking", "tools"),
    "low-carbon": ("vehicles", "solar", "storage"),
    "regulations": ("parts", "definitions", "influences"),
}
ENTRIES = 8
SLIPS = {
    "no-root-three": "left out the square root of three in a three-phase sum",
    "line-for-phase": "took a line value for a phase value, or the reverse",
}
SECTIONS = (
    ("Rules", ("regulations", "safety/law"), 6),
    ("Supplies", ("supply", "design/demand"), 6),
    ("Protection", ("protection", "design/loop", "design/thermal"), 15),
    ("Erection", ("containment", "circuits", "three-phase", "design/correction"), 14),
    ("Testing", ("testing",), 4),
    ("Locations", ("locations",), 7),
    ("Low-carbon", ("low-carbon",), 8),
)
CRITICAL = 'id = "critical"\ntitle = "Safety-critical"\ntopics = ["safety", "testing"]\nquestions = 8\n'


def stub_bank(root: Path) -> Path:
    """Thirteen topics of three to seven files of eight entries, two papers, two mistakes."""
    for topic, names in FILES.items():
        (root / topic).mkdir(parents=True)
        for name in names:
            entries = [f'[[card]]\nid = "entry-{n}"\n' for n in range(ENTRIES)]
            entries[0] += "safety_critical = true\n"
            (root / topic / f"{name}.toml").write_text("\n".join(entries), encoding="utf-8")
    titles = (f'[[topic]]\nid = "{topic}"\ntitle = "All about {topic}"\n' for topic in FILES)
    slips = (f'[[slip]]\nid = "{id}"\nsay = "{say}"\n' for id, say in SLIPS.items())
    (root / "topics.toml").write_text("\n".join(titles), encoding="utf-8")
    (root / "slips.toml").write_text("\n".join(slips), encoding="utf-8")
    _papers(root / "blueprints")
    return root


def _papers(folder: Path) -> None:
    folder.mkdir()
    head = 'title = "{}"\nminutes = 60\npass_mark = {}\npermitted = []\n'
    parts = [
        f'[[section]]\nid = "s-{at}"\ntitle = "{title}"\ntopics = {list(topics)}\nquestions = {questions}\n'
        for at, (title, topics, questions) in enumerate(SECTIONS)
    ]
    whole = head.format("Wiring regulations", 36) + "".join(parts).replace("'", '"')
    (folder / "wiring-regulations.toml").write_text(whole, encoding="utf-8")
    critical = head.format("Safety", 7) + f"[[section]]\n{CRITICAL}safety_critical = true\nall_right = true\n"
    (folder / "safety.toml").write_text(critical, encoding="utf-8")
