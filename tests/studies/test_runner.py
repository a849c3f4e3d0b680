"""The runner of studies, with three small studies of our own in place of the product's.

`count` reads how many boards there are; `double` needs it; `names` reads something else. A study that reads the
same value gives its kept result and does no work.
"""

import pickle
from dataclasses import dataclass

import pytest

from dryfit.errors import Cancelled
from dryfit.findings import QUESTIONS, Finding, NotChecked, Severity
from dryfit.places import Where
from dryfit.shop.model import Shop
from dryfit.studies import STUDIES, register
from dryfit.study.base import Pace, Scene, Study, Work
from dryfit.study.runner import Results, in_order, key_of, run

from ..piece.making import built, job_of, plank

MANY = "laid-on"  # any code of the product's: a test declares none


@dataclass(frozen=True)
class Answer:
    number: float


class Count(Study[tuple[int, ...], Answer]):
    name = "count"
    asks = "how many boards there are"
    pace = Pace.LIVE

    def reads(self, scene, earlier):
        return (len(scene.piece.boards),)

    def run(self, value, work):
        work.step(0.5, "counting")
        work.partial(Answer(0))
        return Answer(value[0])

    def findings(self, value, result):
        if result.number <= 2:
            return ()
        return (Finding(code=MANY, severity=Severity.NOTE, where=Where(), says="many boards"),)


class Double(Study[float, Answer]):
    name = "double"
    asks = "twice as many"
    needs = ("count",)

    def reads(self, scene, earlier):
        return earlier["count"].number

    def run(self, value, work):
        return Answer(2 * value)


class Names(Study[tuple[str, ...], Answer]):
    name = "a study of names"  # sorts before the others
    asks = "names"
    pace = Pace.ASKED

    def reads(self, scene, earlier):
        return tuple(board.name for board in scene.piece.boards)

    def run(self, value, work):
        return Answer(hash(value) % 7 + work.seed)


@pytest.fixture(autouse=True)
def questions(monkeypatch):
    for study in (Count, Double, Names):
        monkeypatch.setitem(QUESTIONS, study.name, study.asks)


def studies(*some):
    return {study.name: study() for study in some}


ALL = studies(Double, Count, Names)


def scene_of(*names):
    boards = [plank(name, (0, 100 * i), (900, 100 * i)) for i, name in enumerate(names)]
    job = job_of(*boards)
    return Scene(
        job=job,
        shop=Shop(),
        piece=built(job),
        volume_mm3=lambda name: 0.0,
        surface_mm2=lambda name: 0.0,
        centroid=lambda name: (0.0, 0.0, 0.0),
    )


def test_a_study_comes_after_those_it_needs():
    assert [study.name for study in in_order(ALL)].index("count") < [study.name for study in in_order(ALL)].index(
        "double"
    )
    assert {study.name for study in in_order(STUDIES)} == set(STUDIES)


def test_needs_in_a_ring_are_refused_by_name():
    class Ringed(Count):
        needs = ("double",)

    with pytest.raises(ValueError, match="count, double"):
        in_order(studies(Ringed, Double))


def test_a_need_that_is_not_there_is_refused_by_name():
    with pytest.raises(ValueError, match="double"):
        in_order(studies(Double))


def test_two_studies_of_one_name_are_refused():
    class Measures(Count):
        name = "measures"

    with pytest.raises(ValueError, match="measures"):
        register(Measures)


def test_results_and_findings_come_back_by_name():
    ran = run(ALL, scene_of("a", "b", "c"), Results())

    assert ran.results == {"count": Answer(3), "double": Answer(6)}
    assert [finding.code for finding in ran.findings] == [MANY]
    assert ran.left_out == {"a study of names": "runs only when asked"}


@pytest.mark.parametrize(
    ("paces", "found"),
    [
        ((Pace.LIVE,), {"count"}),
        ((Pace.REST,), {"count", "double"}),
        ((Pace.LIVE, Pace.REST, Pace.ASKED), {"count", "double", "a study of names"}),
        ((), set()),
    ],
    ids=["live", "at rest, with what it needs", "all", "none"],
)
def test_only_the_studies_of_the_paces_and_what_they_need_are_run(paces, found):
    ran = run(ALL, scene_of("a"), Results(), paces=paces)

    assert set(ran.results) == found
    assert set(ran.results) | set(ran.left_out) == set(ALL)


def test_the_same_value_is_no_work_and_gives_the_same_result():
    kept = Results()
    first = run(ALL, scene_of("a", "b"), kept)
    again = run(ALL, scene_of("c", "d"), kept)

    assert kept.worked == ["count", "double"]
    assert again.results == first.results


def test_a_result_that_did_not_change_stops_the_wave():
    """`count` reads more than it uses here: its value changes, its result does not, so `double` need not work."""

    class Reading(Count):
        def reads(self, scene, earlier):
            return (len(scene.piece.boards), scene.piece.boards[0].name)

    kept = Results()
    for names in (("a", "b"), ("c", "b")):
        run(studies(Reading, Double), scene_of(*names), kept)

    assert kept.worked == ["count", "double", "count"]


def test_another_value_another_version_and_another_name_are_other_keys():
    class Newer(Count):
        version = 2

    class Other(Count):
        name = "other"

    keys = [key_of(study(), value) for study in (Count, Newer, Other) for value in ((1,), (2,))]
    assert len(set(keys)) == 6


def test_equal_values_have_one_key_whichever_of_their_parts_are_the_same_object():
    name = "long shelf"
    other = f"{name[:5]}shelf"
    assert name is not other

    assert key_of(Count(), (name, name)) == key_of(Count(), (name, other))
    assert key_of(Count(), ((1.0, 2.0), (1.0, 2.0))) == key_of(Count(), tuple((float(x), x + 1.0) for x in (1, 1)))


def test_a_changed_result_of_what_it_needs_is_work_again():
    kept = Results()
    for names in (("a",), ("a", "b"), ("a",)):
        run(ALL, scene_of(*names), kept)

    assert kept.worked == ["count", "double"] * 2


def test_kept_and_fresh_results_are_equal_bit_for_bit():
    class Sums(Count):
        def run(self, value, work):
            return Answer(sum(0.1 * n for n in range(value[0] * 7)))

    kept = Results()
    first, again, cold = (run(studies(Sums), scene_of("a", "b"), one) for one in (kept, kept, Results()))

    assert kept.worked == ["count"]
    packed = {pickle.dumps(ran.results["count"], protocol=5) for ran in (first, again, cold)}
    assert len(packed) == 1


def test_progress_is_reported_from_nought_to_one_and_a_coarser_answer_early():
    steps, partial = [], []
    work = Work(on_step=lambda done, what: steps.append((done, what)), on_partial=partial.append)

    run(ALL, scene_of("a"), Results(), work=work)

    assert steps == [(0.0, "count"), (0.5, "counting"), (1.0, "count"), (0.0, "double"), (1.0, "double")]
    assert partial == [Answer(0)]


def test_the_seed_reaches_the_study():
    seeded = run(ALL, scene_of("a"), Results(), paces=tuple(Pace), work=Work(seed=40)).results["a study of names"]
    plain = run(ALL, scene_of("a"), Results(), paces=tuple(Pace)).results["a study of names"]

    assert seeded.number == plain.number + 40


def test_a_study_called_off_has_no_result_nor_has_what_needs_it_and_the_rest_is_sane():
    class Off(Count):
        def run(self, value, work):
            raise Cancelled(self.name)

    kept = Results()
    ran = run(studies(Off, Double, Names), scene_of("a", "b", "c"), kept, paces=tuple(Pace))

    assert set(ran.results) == {"a study of names"}
    assert ran.left_out == {"count": "called off", "double": "waits for how many boards there are"}
    assert ran.findings == ()
    assert ran.checked == ("a study of names",)
    assert {(one.study, one.why, one.whole) for one in ran.not_checked} == {
        ("count", "called off", True),
        ("double", "waits for how many boards there are", True),
    }


# --- faults, and what is left open -----------------------------------------------------------------


def broken(self, *given):
    raise ZeroDivisionError("division by zero")


@pytest.mark.parametrize("method", ["reads", "run", "findings", "not_checked"])
@pytest.mark.parametrize(("guards", "severity"), [(True, Severity.STOP), (False, Severity.WARN)], ids=["guards", "not"])
def test_a_fault_takes_away_the_study_and_what_waits_for_it_and_no_other(isolated, method, guards, severity):
    faulty = type("Faulty", (Count,), {method: broken, "guards": guards})
    ran = run(studies(faulty, Double, Names), scene_of("a", "b", "c"), Results(), paces=tuple(Pace))

    assert set(ran.results) == set(ran.checked) == {"a study of names"}
    (found,) = ran.findings
    assert (found.code, found.severity) == ("study-failed", severity)
    assert "how many boards there are" in str(found.says)
    assert "ZeroDivisionError: division by zero" in str(found.says)
    assert "Traceback" not in str(found.says) + str(found.remedy)
    left = {one.study: one for one in ran.not_checked}
    assert set(left) == {"count", "double"}
    assert all(one.whole for one in left.values())
    assert left["double"].why == "waits for how many boards there are"
    assert ran.left_out["count"].startswith("it failed: ZeroDivisionError")


@pytest.mark.parametrize("method", ["reads", "run", "findings", "not_checked"])
def test_in_a_test_a_fault_is_raised(method):
    faulty = type("Faulty", (Count,), {method: broken})
    with pytest.raises(ZeroDivisionError):
        run(studies(faulty), scene_of("a"), Results())


@pytest.mark.parametrize(("whole", "answered"), [(True, set()), (False, {"count"})], ids=["all of it", "a part"])
def test_a_study_that_leaves_a_part_open_has_answered_the_rest(whole, answered):
    class Open(Count):
        def not_checked(self, value, result):
            return (NotChecked(study=self.name, what="how many drawers", why="none are known", whole=whole),)

    ran = run(studies(Open), scene_of("a"), Results())

    assert set(ran.checked) == answered
    assert [(one.what, one.why) for one in ran.not_checked] == [("how many drawers", "none are known")]


def test_a_study_of_another_pace_has_answered_nothing():
    ran = run(ALL, scene_of("a"), Results(), paces=())

    assert ran.checked == ()
    assert {one.study for one in ran.not_checked} == set(ALL)


def test_nothing_of_a_study_that_was_called_off_is_kept():
    kept = Results()
    calls = []

    def twice():
        calls.append(1)
        return len(calls) >= 2  # at the first step inside the study

    assert run(ALL, scene_of("a"), kept, work=Work(cancelled=twice)).left_out["count"] == "called off"
    assert run(ALL, scene_of("a"), kept).results == {"count": Answer(1), "double": Answer(2)}
    assert kept.worked == ["count", "count", "double"]


def test_kept_results_are_bounded_by_their_bytes_and_the_least_lately_used_goes_first():
    size = len(pickle.dumps("x" * 1000, protocol=5))
    kept = Results(limit_bytes=3 * size)
    for key in "abc":
        kept.put(key, key * 1000)
    kept.get("a")
    kept.put("d", "d" * 1000)

    assert [key for key in "abcd" if kept.get(key) is not None] == ["a", "c", "d"]


def test_the_same_key_put_twice_counts_once():
    size = len(pickle.dumps("x" * 1000, protocol=5))
    kept = Results(limit_bytes=2 * size)
    kept.put("a", "a" * 1000)
    for _ in range(5):
        kept.put("b", "b" * 1000)

    assert kept.get("a") is not None


def test_a_result_larger_than_all_the_room_is_still_given():
    kept = Results(limit_bytes=10)
    kept.put("a", "a" * 1000)

    assert kept.get("a") == "a" * 1000


def test_what_a_kept_result_holds_cannot_be_changed_by_whoever_got_it():
    class Listing(Count):
        def run(self, value, work):
            return [1, 2, 3]

        def findings(self, value, result):
            return ()

    kept = Results()
    run(studies(Listing), scene_of("a"), kept).results["count"].append(4)

    assert run(studies(Listing), scene_of("a"), kept).results["count"] == [1, 2, 3]
