"""Every page the program has, of an invented centre and invented papers."""

from dataclasses import replace
from datetime import UTC, date, datetime
from pathlib import Path

from quizzer.bank.exercises import EXERCISES
from quizzer.bankfiles.blueprint_files import blueprint
from quizzer.bankfiles.shelf import Shelf
from quizzer.blocks.page import Page
from quizzer.circuit.commissioning.best import played_best
from quizzer.circuit.commissioning.marking import marked
from quizzer.circuit.commissioning.state import State as Installed
from quizzer.circuit.game.actions import act
from quizzer.circuit.game.actions import name as name_fault
from quizzer.circuit.game.exercise import State
from quizzer.circuit.game.replay import ending, replayed
from quizzer.circuit.game.taking import take
from quizzer.errors import Issue, Place
from quizzer.lint.catalogue import CATALOGUE
from quizzer.pages.alone import alone_page
from quizzer.pages.assessed import set_end_page, set_start_page
from quizzer.pages.code import code_page, codes_page
from quizzer.pages.commission import details_page, job_page, notes_page, schedule_page
from quizzer.pages.commission import help_page as commission_help
from quizzer.pages.commission_end import end_page as commission_end
from quizzer.pages.commission_end import marks_page as commission_marks
from quizzer.pages.commission_end import paper_page
from quizzer.pages.commission_end import replay_page as commission_replay
from quizzer.pages.corrections import corrected_page, history_page, merges_page, ruled_page
from quizzer.pages.cues import cues_page
from quizzer.pages.diagnosis import drawing_page, help_page, start_page, tests_page
from quizzer.pages.diagnosis_end import end_page, replay_page
from quizzer.pages.feedback import feedback
from quizzer.pages.forms import forms_page
from quizzer.pages.group import group_page
from quizzer.pages.guide import guides_page
from quizzer.pages.imported import imported_page
from quizzer.pages.items import items_page
from quizzer.pages.mark import marks_page
from quizzer.pages.mistakes import mistakes_page
from quizzer.pages.person import person_page
from quizzer.pages.plan import ahead_page
from quizzer.pages.pooled import pooled_page
from quizzer.pages.question import about_page, question_page, solution
from quizzer.pages.ready import ready_group_page, ready_page
from quizzer.pages.scan import scan_page
from quizzer.pages.session import summary_page, welcome_page
from quizzer.pages.signing import disputes_page, unsigned_page, worklist_page
from quizzer.pages.sitting import handed_in_page, left, overview, place_page
from quizzer.pages.sitting import start_page as sitting_page
from quizzer.pages.store import groups_page, store_page, trainees_page
from quizzer.pages.topics import currency_page, entries_page, topics_page
from quizzer.pages.weak import weak_group_page, weak_page
from quizzer.question.making import make
from quizzer.question.replies import Reply, read_reply
from quizzer.schedule import Confidence
from quizzer.store import open_store
from quizzer.workflows.bank.guessing import cue_figures
from quizzer.workflows.bank.guides import GUIDES, guide
from quizzer.workflows.bank.importing import Imported, LeftOut
from quizzer.workflows.bank.overview import currency_lines, entry_lines
from quizzer.workflows.bank.overview import overview as bank_overview
from quizzer.workflows.bank.signing import unsigned
from quizzer.workflows.bank.worklist import worklist
from quizzer.workflows.exercises import neighbours_in, offered, question_of
from quizzer.workflows.faults.assessing import SetWishes, assessment
from quizzer.workflows.faults.commissioning import commissioned
from quizzer.workflows.faults.diagnosing import played
from quizzer.workflows.forecast.plan import plan_for, road_for
from quizzer.workflows.forecast.readiness import ready_for, ready_group
from quizzer.workflows.forecast.weakness import weak_for, weak_group
from quizzer.workflows.papers.alone import mark_own
from quizzer.workflows.papers.correcting import Saying, Wish, correct, undo
from quizzer.workflows.papers.group_result import group_report
from quizzer.workflows.papers.items_result import items_report
from quizzer.workflows.papers.marking import mark_sittings
from quizzer.workflows.papers.person_result import person_report
from quizzer.workflows.papers.pooling import pooled_papers
from quizzer.workflows.papers.reporting import sheets_of
from quizzer.workflows.papers.ruling import void
from quizzer.workflows.papers.scanning import Doubt, ScanRead, SheetRead
from quizzer.workflows.papers.sitting import sit
from quizzer.workflows.study.mistaken import waiting
from quizzer.workflows.study.person import who
from quizzer.workflows.study.session import Limits
from quizzer.workflows.study.starting import start
from quizzer.workflows.study.summary import summary
from quizzer.workflows.world import World
from scripts.demonstration import fill
from tests.banktext import CARD, ORDER, TEMPLATE, entry
from tests.exam import Room
from tests.papersat import NAMES, sat
from tests.sitting import Sitting, small_bank
from tests.stores import doubled, in_memory, peopled
from tests.stubbank import stub_bank

DAY = date(2026, 11, 25)
BANKS = Path(__file__).parents[2] / "banks"
NOON = datetime(2026, 11, 25, 12, tzinfo=UTC)
IMPORTED = Imported(
    Path("centre/ours/form.toml"),
    (("ours/form/q001", "Q001"), ("ours/form/q003", "Q003")),
    (LeftOut("items/Q002.xml", "holds a picture"), LeftOut("Q003", "taken without its rubric")),
    (Issue("Q602", Place("centre/ours/form.toml", 14), "q001.wrong", "3 wrong options", "have 4 to 7"),),
    ("3 other files (pictures, styles) are left.",),
)


def collected(folder: Path) -> dict[str, Page]:
    """The pages by name; the first word of a name is the command."""
    rooms = {"outlook": outlooks, "paper": reports, "study": studied, "sit": sat_down}
    made = [collect(folder / name) for name, collect in rooms.items()]
    return {name: page for pages in (*made, the_bank(), diagnoses()) for name, page in pages.items()}


def outlooks(folder: Path) -> dict[str, Page]:
    """The pages of weak, ready and plan."""
    shelf = Shelf(stub_bank(folder / "bank"))
    fill(folder / "demo.db", 7, DAY.isoformat(), folder / "bank")
    store = open_store(str(folder / "demo.db"))
    world = World(store, shelf, lambda: NOON, lambda: 7, lambda: "id")
    usual, everybody = blueprint(shelf, "wiring-regulations"), store.trainees()
    priya = next(one for one in everybody if one.name.startswith("Priya"))
    nobody = store.add_trainee("nobody", "Nobody", NOON)
    weak, titles = weak_for(world, priya, usual), shelf.topics()
    found = {
        "weak": weak_page(weak, None),
        "weak topic": weak_page(weak, "design"),
        "weak nobody": weak_page(weak_for(world, nobody, usual), None),
        "weak group": weak_group_page("all", [*weak_group(world, everybody, usual)], None),
        "weak group topic": weak_group_page("all", [*weak_group(world, everybody, usual, parts=True)], "locations"),
        "ready": ready_page(ready_for(world, priya, usual), titles),
        "ready safety": ready_page(ready_for(world, priya, blueprint(shelf, "safety")), titles),
        "ready nobody": ready_page(ready_for(world, nobody, usual), titles),
        "ready group": ready_group_page("all", [*ready_group(world, [*everybody, nobody], usual)], titles),
        "ready no group": ready_group_page("all", [], titles),
    }
    for day in (date(2027, 1, 6), DAY, date(2028, 11, 25)):
        plan = plan_for(world, priya, usual, day, 20.0, frozenset(range(5)), skip=True)
        found[f"plan to {day}"] = ahead_page(plan)
    for name, daily in (("no exam", False), ("no exam, daily", True)):
        found[f"plan {name}"] = ahead_page(road_for(world, priya, usual, 20.0, range(7), daily=daily))
    store.close()
    return found


def reports(folder: Path) -> dict[str, Page]:
    """The pages of a paper that was sat."""
    everybody = sat(folder / "paper")
    made = everybody.paper
    found = {
        "group": group_page(made, group_report(everybody)),
        "items": items_page(made, items_report(everybody)),
    }
    for name in NAMES:
        sheets = sheets_of(everybody, name)
        found[f"person {name}"] = person_page(made, [person_report(everybody, each) for each in sheets], sheets)
    return found


def studied(folder: Path) -> dict[str, Page]:
    """The pages of a session: questions of every kind, and what is said to right and wrong answers."""
    sitting = Sitting(small_bank(folder))
    limits = Limits(10.0, None)
    session, today = start(sitting.world, who(sitting.world, None), (), limits, 10)
    by_count, _ = start(sitting.world, who(sitting.world, None), (), Limits(None, 1), 10)
    found = {
        "study": welcome_page(today, session, DAY, ["design/loop"]),
        "study by count": welcome_page(today._replace(exam=DAY), by_count, DAY),
        "study nothing done": summary_page(summary(session), DAY),
    }
    while asked := session.next_question():
        question = asked.question
        labels = sorted(option.label for option in question.options)
        for text, sure in ((question.key, Confidence.GUESSING), ("123456", Confidence.CERTAIN)):
            reply = read_reply(question, text if question.kind == "number" or text == question.key else "".join(labels))
            reply = reply if isinstance(reply, Reply) else Reply(next(each for each in labels if each != question.key))
            result = session.answer(asked, reply, sure)
            name = f"study {question.id} {question.seed} {text == question.key}"
            found[name] = Page("After an answer", [*feedback(question, reply, sure, result, DAY)])
    found["mistakes"] = mistakes_page("Ada", waiting(sitting.world, who(sitting.world, None)))
    found["mistakes none"] = mistakes_page("Ada", [])
    found["study done"] = summary_page(summary(session), DAY, ["a note"])
    found["study then play"] = summary_page(replace(summary(session), to_play=("diagnose", "commission")), DAY)
    found |= played_for_marks(sitting.world)
    for text in (TEMPLATE, CARD, ORDER):
        question = make(entry(text), 7)
        page = question_page(question, "Topic", question.name)
        found[f"show {question.id}"] = page
        found[f"study {question.id} where from"] = about_page(question)
        found[f"show {question.id} --solution"] = page._replace(blocks=[*page.blocks, *solution(question)])
    return found


def played_for_marks(world: World) -> dict[str, Page]:
    """The pages of a set of diagnoses: before it, left at once, and with exercises that nothing in the bank asks of."""
    found = assessment(world, who(world, None), SetWishes("cooker", 1, 2, 24, 1))
    pages = {"diagnose set": set_start_page(found), "diagnose set left": set_end_page(found)}
    while found.next_exercise():
        found.end(State(stopped="a reason"))
    return pages | {"diagnose set end": set_end_page(found)}


def put_right(room: Room) -> dict[str, Page]:
    """The pages of corrections of a script and of a question, and of people made one."""
    form = room.paper.forms[0]
    read = SheetRead("Ada", 1, form, "AB?", (Doubt(3, "scan.pdf page 2", "two boxes are crossed"),), "scan.pdf page 2")
    scan = ScanRead((read,), ("scan.pdf page 5: no ring is seen",), ("scan.pdf page 1 lay upside down",), ("Ben",))
    saying, nothing = Saying("Tess", "the sheet says so"), history_page(room.paper, (), {})
    wish = Wish(question=2, to="A")
    pages = {"paper history nothing": nothing, "trainee history nothing": merges_page(())}
    pages["paper scan"] = scan_page(room.paper, scan, Path("read.csv"))
    pages["paper correct"] = corrected_page(
        room.paper, "Ada", correct(room.world, room.paper, room.making, "Ada", wish, saying)
    )
    ruled = void(room.world, room.paper, room.making, "A", 1, saying)
    pages["paper correct ruled"] = ruled_page(room.paper, ruled, "void, and not counted")
    undo(room.world, room.paper, room.making, "Ada", saying)
    pages["paper entries"] = pooled_page(pooled_papers(room.world, "cards"))
    store = doubled(peopled(in_memory()))
    names = {"t1": "Ada"}
    pages["paper history"] = history_page(room.paper, room.store.corrections.of_paper(room.paper.id), names)
    return pages | {"trainee history": merges_page(store.corrections.merges())}


def sat_down(folder: Path) -> dict[str, Page]:
    """The pages of a paper answered question by question, of its marks, and of a store's lists."""
    room = Room(folder)
    desk = sit(room.world, room.paper, room.ada, "A", 25)
    desk.answer("A")
    desk.flag()
    found = {
        "sit": sitting_page(desk, "Ada"),
        "sit question": place_page(desk),
        "sit overview": Page("Overview", [*overview(desk)]),
        "sit left": Page("Left", [*left(desk)]),
    }
    desk.hand_in()
    found |= {
        "sit handed in": handed_in_page(desk),
        "paper mark": marks_page(room.paper, mark_sittings(room.world, room.paper, room.making), ["1 begun."]),
        "paper mark nobody": marks_page(room.paper, [], ["Nobody."]),
        "store info": store_page(room.store.info()),
        "trainee list": trainees_page([(room.ada, 3), (room.ben, 0)]),
        "trainee list nobody": trainees_page([]),
        "group list nothing": groups_page([]),
    }
    room.store.groups.fill("evening", [], ["t1", "t2"], NOON)
    plan = blueprint(Shelf(BANKS), "safety")
    marked = mark_own(room.world, room.ada, plan, room.paper, desk.sitting)
    found |= put_right(room)
    return found | {"group list": groups_page(room.store.groups.every()), "sit alone": alone_page(marked)}


def the_bank() -> dict[str, Page]:
    """The pages about the shipped bank: topics, entries, sign-offs, codes and guides."""
    shelf = Shelf(BANKS)
    lines, _ = bank_overview(shelf)
    found = {
        "topics": topics_page(lines, 3),
        "topics of one": entries_page(entry_lines(shelf, ["safety"])),
        "topics unsigned": unsigned_page(*unsigned(shelf, ["testing/ring"])),
        "topics by regulation": worklist_page(worklist(unsigned(shelf, ["testing"])[0]), 200),
        "topics currency": currency_page(currency_lines(shelf)),
        "disputes": disputes_page([("2026-11-25", "a/b/c", "it is wrong", False)]),
        "disputes none": disputes_page([]),
        "import": imported_page(IMPORTED),
        "import of nothing": imported_page(IMPORTED._replace(path=None, taken=(), issues=())),
        "explain": codes_page(CATALOGUE.values()),
        "guide": guides_page(GUIDES),
        "cues": cues_page(cue_figures(shelf, [BANKS / "principles"], lambda _done, _files: None)),
    }
    summed = shelf.find("three-phase/power/star-heater-power")
    found["show forms"] = forms_page(summed.head.id, offered(shelf, summed))
    for form in EXERCISES:
        question = question_of(neighbours_in(shelf), summed, 7, form)
        found[f"show {form}"] = question_page(question, "Circuit design", question.name)
        found[f"show {form} solved"] = Page("Solved", [*solution(question)])
    for name in ("faults/diagnosis/ring-every-fault", "faults/diagnosis/intermediate-fault"):
        found[f"show {name}"] = question_page(make(shelf.find(name), 3), "Fault finding")
    found |= {f"explain {code}": code_page(page) for code, page in CATALOGUE.items()}
    return found | {f"guide {name}": guide(name) for name in GUIDES}


def diagnoses() -> dict[str, Page]:
    """The pages of diagnoses: of a light, whose switches are explained, and of a socket circuit that is tested."""
    found = {"diagnose help": help_page()}
    for shape in ("two-way", "ring"):
        play = played(shape, 1, 7)
        state = State()
        found[f"diagnose {shape}"] = start_page(play, 1, 7)
        found[f"diagnose {shape} tests"] = tests_page(play)
        found[f"diagnose {shape} drawing"] = drawing_page(play)
        for typed in ("look", "isolate", "lock", "prove indicator", "prove dead", "prove indicator", "disconnect"):
            state, _ = act(play, state, typed)
        for number in range(3):
            state, _ = take(play, state, number)
        state = act(play, name_fault(state, play.fault)[0], "repair")[0]
        todo = [n for duty in play.first_duties for n in duty.tests]
        for number in todo:
            state, _ = take(play, state, number)
        state, _ = act(play, act(play, state, "energise")[0], "certify")
        found[f"diagnose {shape} end"] = end_page(play, state, ending(play, state))
        found[f"diagnose {shape} replay"] = replay_page(replayed(play, state))
    return found | commissionings()


def commissionings() -> dict[str, Page]:
    """The pages of commissionings: at the beginning, in the midst of one, and at the end of a perfect one."""
    play = commissioned("flat", 2, 7, periodic=False)
    done = played_best(play)
    mark = marked(play, done)
    return {
        "commission": job_page(play, "level 2, seed 7"),
        "commission help": commission_help(play),
        "commission details": details_page(play),
        "commission notes": notes_page({(0, "blank"): "a blank is missing; fit it"}),
        "commission no notes": notes_page({}),
        "commission schedule": schedule_page(play, Installed(), "Schedule of test results, so far"),
        "commission end": commission_end(play, mark, late=False),
        "commission marks": commission_marks(play, marked(play, done._replace(records={}, notes=()))),
        "commission replay": commission_replay(done),
        "commission paper": paper_page(play, done, mark, "level 2, seed 7"),
    }
