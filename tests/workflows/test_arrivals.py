"""What comes from a phone is marked again, kept once, and refused where it is somebody else's."""

from datetime import timedelta

import pytest

from quizzer.errors import Refused
from quizzer.question.making import make
from quizzer.schedule import Confidence, next_memory
from quizzer.workflows.study.arrivals import arrive, fingerprint
from quizzer.workflows.study.events import READERS, VERSION, UnreadableEventError, read_event
from quizzer.workflows.study.pack import SESSIONS, packed
from quizzer.workflows.study.phone_clocks import AHEAD
from tests.sitting import MORNING, Sitting, small_bank

ENTRY = "circuits/first/dead-test"


@pytest.fixture
def sitting(tmp_path):
    return Sitting(small_bank(tmp_path / "bank"))


@pytest.fixture
def asked(sitting):
    """A question as a phone has it."""
    return next(one.question for one in packed(sitting.world, sitting.trainee(), 10) if one.question.kind == "choose")


def event(sitting, question, id="answer-0001", **changes):
    """An answer to it as a phone sends it: right, an hour after the pack was made."""
    said = {
        "version": 1,
        "id": id,
        "kind": "answer",
        "entry": question.id,
        "seed": question.seed,
        "digest": question.head.digest,
        "asked": fingerprint(question),
        "reply": question.key,
        "right": True,
        "confidence": "certain",
        "at": (MORNING + timedelta(hours=1)).isoformat(),
        "issued": MORNING.isoformat(),
        "took": 12.75,
        "trainee": sitting.trainee().id,
        "device": "a-phone-of-theirs",
        "sequence": 4,
    }
    return said | changes


def test_an_answer_is_marked_again_and_kept_with_what_it_leaves(sitting, asked):
    sitting.clock.forward(hours=2)
    found = arrive(sitting.world, sitting.trainee(), [event(sitting, asked)])
    assert [(one.id, one.right, one.agreed) for one in found.accepted] == [("answer-0001", True, True)]
    assert found.rejected == ()
    (review,) = sitting.store.reviews(sitting.trainee().id)
    assert (review.reply, review.right, review.claimed, review.seconds) == (asked.key, True, True, 12)
    assert review.answered_at == MORNING + timedelta(hours=1)
    assert (review.asked, review.digest, review.device, review.sequence) == (
        *(asked.as_text, asked.head.digest),
        *("a-phone-of-theirs", 4),
    )
    critical = asked.head.safety_critical
    assert sitting.store.memory(review.trainee, asked.id) == next_memory(
        None, 5, MORNING.date(), safety_critical=critical
    )


def test_twice_is_once_and_told_as_kept(sitting, asked):
    sitting.clock.forward(hours=2)
    for _ in range(3):
        found = arrive(sitting.world, sitting.trainee(), [event(sitting, asked), event(sitting, asked)])
        assert {one.id for one in found.accepted} == {"answer-0001"}
    assert len(sitting.store.reviews(sitting.trainee().id)) == 1


def test_where_the_phone_marked_otherwise_the_program_counts_and_says_so(sitting, asked):
    wrong = next(one.label for one in asked.options if one.label != asked.key)
    found = arrive(sitting.world, sitting.trainee(), [event(sitting, asked, reply=wrong, right=True)])
    assert [(one.right, one.agreed) for one in found.accepted] == [(False, False)]
    (review,) = sitting.store.reviews(sitting.trainee().id)
    assert (review.right, review.claimed, review.quality) == (False, True, 0)


def test_an_answer_to_an_entry_that_changed_since_keeps_its_digest_and_counts(sitting, asked):
    found = arrive(sitting.world, sitting.trainee(), [event(sitting, asked, digest="older", right=False, reply="B")])
    assert [(one.right, one.agreed) for one in found.accepted] == [(False, True)]
    (review,) = sitting.store.reviews(sitting.trainee().id)
    assert (review.digest, review.right, review.asked, review.topic) == ("older", False, "", asked.topic)
    assert [(one.topic, one.wrong) for one in sitting.store.tallies(review.trainee)] == [(asked.topic, 1)]
    assert sitting.store.memory(review.trainee, asked.id) is not None


def test_so_does_one_to_an_entry_that_is_gone_and_one_that_is_made_otherwise_now(sitting, asked):
    gone = event(sitting, asked, entry="circuits/first/gone", id="answer-gone")
    otherwise = event(sitting, asked, asked="0" * 16, id="answer-other", right=False)
    found = arrive(sitting.world, sitting.trainee(), [gone, otherwise])
    assert [(one.right, one.agreed) for one in found.accepted] == [(True, True), (False, True)]


@pytest.mark.parametrize(
    ("at", "kept"),
    [
        (MORNING + timedelta(days=1), MORNING + timedelta(hours=2)),  # ahead by a day: when it came in
        (MORNING - timedelta(days=400), MORNING),  # behind: not before its question was handed out
        (MORNING + timedelta(hours=2) + AHEAD, MORNING + timedelta(hours=2) + AHEAD),
        (MORNING + timedelta(minutes=5), MORNING + timedelta(minutes=5)),
    ],
)
def test_a_clock_counts_within_what_the_server_knows(sitting, asked, at, kept):
    sitting.clock.forward(hours=2)
    arrive(sitting.world, sitting.trainee(), [event(sitting, asked, at=at.isoformat())])
    (review,) = sitting.store.reviews(sitting.trainee().id)
    assert review.answered_at == kept


def test_the_day_is_that_of_the_phones_zone(sitting, asked):
    sitting.clock.forward(hours=2)
    arrive(sitting.world, sitting.trainee(), [event(sitting, asked, at="2026-11-24T21:30:00-10:00")])
    (review,) = sitting.store.reviews(sitting.trainee().id)
    assert (review.answered_at, f"{review.day}") == (MORNING + timedelta(minutes=30), "2026-11-24")


def test_another_trainees_answers_are_refused_whole(sitting, asked):
    other = sitting.store.add_trainee("t2", "Ben", MORNING)
    batch = [event(sitting, asked), event(sitting, asked, id="answer-0002", trainee="t2")]
    for who in (other, sitting.trainee()):
        with pytest.raises(Refused, match="another trainee's"):
            arrive(sitting.world, who, batch)
        assert sitting.store.reviews(who.id) == ()


def test_an_id_of_somebody_elses_answer_is_rejected_by_name(sitting, asked):
    other = sitting.store.add_trainee("t2", "Ben", MORNING)
    arrive(sitting.world, other, [event(sitting, asked, trainee="t2")])
    found = arrive(sitting.world, sitting.trainee(), [event(sitting, asked), event(sitting, asked, id="answer-0002")])
    assert [one.id for one in found.accepted] == ["answer-0002"]
    assert [(one.id, one.reason) for one in found.rejected] == [
        ("answer-0001", "its id belongs to another question already")
    ]


def test_a_reply_that_cannot_be_read_is_told_and_the_others_are_kept(sitting, asked):
    found = arrive(
        sitting.world, sitting.trainee(), [event(sitting, asked, reply="zz"), event(sitting, asked, id="answer-0002")]
    )
    assert [one.id for one in found.accepted] == ["answer-0002"]
    assert found.rejected[0].reason.startswith("Type one of the letters")


def test_a_dispute_is_kept_for_the_tutor_once(sitting, asked):
    said = event(sitting, asked, kind="dispute", reason="the key is B")
    for _ in range(2):
        found = arrive(sitting.world, sitting.trainee(), [said])
        assert [(one.id, one.right) for one in found.accepted] == [("answer-0001", None)]
    assert [(one.entry, one.reason) for one in sitting.store.challenges()] == [(asked.id, "the key is B")]


BAD = [
    ({"version": VERSION + 1}, f"version {VERSION + 1} of answers is not known"),
    ({"version": 2, "drill": "yes"}, "does not say whether it was asked again"),
    ({"version": 2, "exercise": "missing-line:1"}, "its exercise is none of ours"),
    ({"version": 2, "drill": True, "exercise": "diagnose:2"}, "its exercise is none of ours"),
    ({"version": 2, "drill": True, "exercise": ["next-line"]}, "its exercise is none of ours"),
    ({"version": "1"}, "version 1 of answers is not known"),
    ({"version": True}, "not known"),
    ({"id": "short"}, "its id is no id"),
    ({"kind": "guess"}, "neither answer nor dispute"),
    ({"entry": ""}, "its entry is missing"),
    ({"entry": "x" * 201}, "its entry is missing or too long"),
    ({"digest": 5}, "its digest is missing"),
    ({"seed": -1}, "its seed is no whole number"),
    ({"seed": 1.5}, "its seed is no whole number"),
    ({"seed": True}, "its seed is no whole number"),
    ({"sequence": None}, "its sequence is no whole number"),
    ({"reply": None}, "its reply is missing"),
    ({"right": 1}, "does not say whether it was right"),
    ({"confidence": "sure"}, "its confidence is none of ours"),
    ({"confidence": ["certain"]}, "its confidence is none of ours"),
    ({"took": -1}, "no number of seconds"),
    ({"took": float("nan")}, "no number of seconds"),
    ({"at": "yesterday"}, "its at is no time"),
    ({"at": "2026-11-25T07:00:00"}, "its at is no time with a zone"),
    ({"issued": 5}, "its issued is no time"),
    ({"device": "x"}, "its device is no id"),
]


@pytest.mark.parametrize(("changes", "words"), BAD)
def test_what_is_no_event_is_told_in_a_sentence(sitting, asked, changes, words):
    with pytest.raises(UnreadableEventError, match=words):
        read_event(event(sitting, asked, **changes))


@pytest.mark.parametrize("data", [None, 5, [], "x", {}, {"id": "answer-0001"}])
def test_what_is_nothing_like_an_event_is_rejected(sitting, data):
    found = arrive(sitting.world, sitting.trainee(), [data])
    assert found.accepted == ()
    assert found.rejected[0].reason


def test_every_version_ever_given_out_has_a_reader_and_the_newest_is_made(sitting, asked):
    assert sorted(READERS) == list(range(1, VERSION + 1))
    found = read_event(event(sitting, asked))
    assert (found.confidence, found.took, found.sequence) == (Confidence.CERTAIN, 12.75, 4)


def test_a_pack_is_what_study_asks_and_nothing_twice(tmp_path):
    sitting = Sitting(small_bank(tmp_path / "bank"))
    trainee = sitting.trainee()
    found = list(packed(sitting.world, trainee, 30))
    entries = [one.question.id for one in found]
    assert len(entries) == len(set(entries)) == 3
    assert {one.session for one in found} <= set(range(1, SESSIONS + 1))
    other = sitting.world._replace(seed=lambda: 1)
    session = Sitting(sitting.root).session(minutes=30, count=None, fading=None)
    studied = []
    while one := session.next_question():
        studied.append(one.question.id)
    assert [one.question.id for one in packed(other, trainee, 30) if one.session == 1] == studied[: len(entries)]
    assert make(other.shelf.find(entries[0]), 1).id == entries[0]


def test_a_pack_says_when_an_entry_comes_back_by_how_well_it_was_answered(sitting):
    (first, *_) = packed(sitting.world, sitting.trainee(), 10)
    critical = first.question.head.safety_critical
    due = [next_memory(None, quality, MORNING.date(), safety_critical=critical).due for quality in range(6)]
    assert list(first.backs) == due
