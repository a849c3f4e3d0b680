"""The runner of studies, with three small studies of our own in place of the product's.

`count` reads how many boards there are; `double` needs it; `names` reads something else. A study that reads the
same value gives its kept result and does no work.
"""

import pickle
from dataclasses import dataclass

import pytest

from dryfit import findings
from dryfit.errors import Cancelled
from dryfit.findings import QUESTIONS, Finding, NotChecked, Severity
from dryfit.job.options import Options
from dryfit.job.tables import Many, One
from dryfit.places import Where
from dryfit.sentences import Voice
from dryfit.shop.model import Shop
from dryfit.studies import STUDIES, register
from dryfit.study.base import Pace, Scene, Study, Work
from dryfit.study.outcome import CalledOff, Done, Waits, why_none
from dryfit.study.runner import Results, in_order, key_of, run

from ..piece.making import built, job_of, plank

MANY = "laid-on"  # any code of the product's: a test declares none


@dataclass(frozen=True)
class Answer:
    number: float


class Doubled(Answer):
    pass


class Named(Answer):
    pass


class Count(Study[tuple[int, ...], Answer]):
    name = "count"
    result = Answer
    asks = "how many boards there are"

    def reads(self, scene):
        return (len(scene.piece.boards),)

    def run(self, value, work):
        work.step(0.5, "counting")
        return Answer(value[0])

    def findings(self, value, result):
        if result.number <= 2:
            return ()
        return (Finding(code=MANY, severity=Severity.NOTE, where=Where(), says="many boards"),)


class Double(Study[float, Doubled]):
    name = "double"
    result = Doubled
    asks = "twice as many"
    needs = (Answer,)

    def reads(self, scene):
        return scene.earlier(Answer).number

    def run(self, value, work):
        return Doubled(2 * value)


class Names(Study[tuple[str, ...], Named]):
    name = "a_study_of_names"  # sorts before the others
    result = Named
    asks = "names"
    pace = Pace.ASKED

    def reads(self, scene):
        return tuple(board.name for board in scene.piece.boards)

    def run(self, value, work):
        return Named(hash(value) % 7)


@pytest.fixture(autouse=True)
def questions(monkeypatch):
    for study in (Count, Double, Names):
        monkeypatch.setitem(QUESTIONS, study.name, study.asks)


def studies(*some):
    return {study.name: study() for study in some}


ALL = studies(Double, Count, Names)


def left_out(ran):
    return {name: why_none(one, Voice()) for name, one in ran.outcomes.items() if not isinstance(one, Done)}


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
        needs = (Doubled,)

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


def test_a_second_study_of_one_result_is_refused_and_a_name_that_no_program_can_use():
    class Again(Count):
        name = "again"
        result = STUDIES["order"].result

    with pytest.raises(ValueError, match="'again' gives Order, which is the result of 'order'"):
        register(Again)
    with pytest.raises(ValueError, match="no name for a study"):
        register(type("Spoken", (Count,), {"name": "how many"}))


class Colour(Options):
    """A table."""


@pytest.mark.parametrize(
    "table", [One("glue", Colour), Many("glue", Colour), Many("board", Colour), One("load", Colour)]
)
def test_a_table_that_has_an_owner_is_refused_to_a_second(monkeypatch, table):
    """`[glue]` is glue_up's, `[[board]]` the job's own; `[[load]]` is read freely and anybody may take it."""
    taking = type("Taking", (Count,), {"name": "taking", "result": Colour, "owns": (table,)})
    for held in (STUDIES, QUESTIONS):
        monkeypatch.setitem(held, "taking", None)
        del held["taking"]
    monkeypatch.setattr(findings, "CONCERNS", dict(findings.CONCERNS))

    if table.word == "load":
        assert register(taking) is taking
        return
    with pytest.raises(ValueError, match="'taking' cannot own"):
        register(taking)
    assert "taking" not in STUDIES


def test_a_study_reads_no_table_but_its_own():
    class Peeping(Count):
        def reads(self, scene):
            return (scene.one(One("glue", Colour)),)

    with pytest.raises(AssertionError, match="does not stand among what the study owns"):
        run(studies(Peeping), scene_of("a"), Results())


def test_what_a_study_did_not_say_it_needs_is_not_given_to_it():
    class Curious(Double):
        needs = ()

    with pytest.raises(AssertionError, match="Answer does not stand among what the study needs"):
        run(studies(Curious, Count), scene_of("a"), Results())


def test_results_and_findings_come_back_by_name():
    ran = run(ALL, scene_of("a", "b", "c"), Results())

    assert ran.results == {"count": Answer(3), "double": Doubled(6)}
    assert [finding.code for finding in ran.findings] == [MANY]
    assert left_out(ran) == {"a_study_of_names": "runs only when asked"}


@pytest.mark.parametrize(
    ("paces", "found"),
    [
        ((Pace.REST,), {"count", "double"}),
        ((Pace.REST, Pace.ASKED), {"count", "double", "a_study_of_names"}),
        ((), set()),
    ],
    ids=["at rest, with what it needs", "all", "none"],
)
def test_only_the_studies_of_the_paces_and_what_they_need_are_run(paces, found):
    ran = run(ALL, scene_of("a"), Results(), paces=paces)

    assert set(ran.results) == found
    assert set(ran.outcomes) == set(ALL)


def test_the_same_value_is_no_work_and_gives_the_same_result():
    kept = Results()
    first = run(ALL, scene_of("a", "b"), kept)
    again = run(ALL, scene_of("c", "d"), kept)

    assert kept.worked == ["count", "double"]
    assert again.results == first.results


def test_a_result_that_did_not_change_stops_the_wave():
    """`count` reads more than it uses here: its value changes, its result does not, so `double` need not work."""

    class Reading(Count):
        def reads(self, scene):
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


def test_progress_is_reported_from_nought_to_one():
    steps = []
    work = Work(on_step=lambda done, what: steps.append((done, what)))

    run(ALL, scene_of("a"), Results(), work=work)

    assert steps == [(0.0, "count"), (0.5, "counting"), (1.0, "count"), (0.0, "double"), (1.0, "double")]


def test_a_study_called_off_has_no_result_nor_has_what_needs_it_and_the_rest_is_sane():
    class Off(Count):
        def run(self, value, work):
            raise Cancelled(self.name)

    kept = Results()
    ran = run(studies(Off, Double, Names), scene_of("a", "b", "c"), kept, paces=tuple(Pace))

    assert set(ran.results) == {"a_study_of_names"}
    assert left_out(ran) == {"count": "called off", "double": "waits for how many boards there are"}
    assert ran.findings == ()
    assert ran.checked == ("a_study_of_names",)
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

    assert set(ran.results) == set(ran.checked) == {"a_study_of_names"}
    (found,) = ran.findings
    assert (found.code, found.severity) == ("study-failed", severity)
    assert "how many boards there are" in str(found.says)
    assert "ZeroDivisionError: division by zero" in str(found.says)
    assert "Traceback" not in str(found.says) + str(found.remedy)
    left = {one.study: one for one in ran.not_checked}
    assert set(left) == {"count", "double"}
    assert all(one.whole for one in left.values())
    assert left["double"].why == "waits for how many boards there are"
    assert left_out(ran)["count"].startswith("it failed: ZeroDivisionError")
    assert ran.outcomes["double"] == Waits(on=("count",))


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


def test_a_study_that_has_nothing_to_read_says_so_in_place_of_a_value_and_what_needs_it_waits():
    class Loads(Count):
        def reads(self, scene):
            return NotChecked(study=self.name, what="loads", why="the job has no [[load]]")

    ran = run(studies(Loads, Double), scene_of("a"), Results())

    assert ran.results == {}
    assert ran.checked == ()
    assert [(one.study, one.what, one.why, one.whole) for one in ran.not_checked] == [
        ("count", "loads", "the job has no [[load]]", True),
        ("double", "twice as many", "waits for how many boards there are", True),
    ]
    assert ran.outcomes["double"] == Waits(on=("count",))


def test_of_each_study_it_is_told_how_far_it_is_and_what_came_of_it_with_the_key_of_what_it_read():
    """An edit that leaves what a study reads as it was is told with the new revision and the old key."""
    kept, heard = Results(), []
    for revision, names in ((4, "ab"), (5, "cd")):
        run(ALL, scene_of(*names), kept, told=heard.append, revision=revision)
    first, again = ([one for one in heard if one.revision == revision] for revision in (4, 5))

    assert [(one.study, one.done, one.outcome) for one in first] == [
        ("a_study_of_names", 1.0, ran_only_when_asked()),
        ("count", 0.0, None), ("count", 0.5, None), ("count", 1.0, None), ("count", 1.0, Done(result=Answer(2))),
        ("double", 0.0, None), ("double", 1.0, None), ("double", 1.0, Done(result=Doubled(4))),
    ]  # fmt: skip
    assert [one for one in again if one.outcome is None] == []
    assert {one.study: one.key for one in again} == {one.study: one.key for one in first}


def ran_only_when_asked():
    return NotChecked(study="a_study_of_names", what="names", why="runs only when asked", whole=True)


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

    assert run(ALL, scene_of("a"), kept, work=Work(cancelled=twice)).outcomes["count"] == CalledOff()
    assert run(ALL, scene_of("a"), kept).results == {"count": Answer(1), "double": Doubled(2)}
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
