"""Building on what was kept gives the same, to the last bit, as building anew; it only takes less work.

Sequences of edits, as a maker would make them on the page, are built on one bench and cold beside it. The
counters of the bench show how much was worked out anew: a board that moves alone has its own meetings
joined again, and only those boards' solids made again whose cuts really changed.
"""

from collections import Counter
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from dryfit.book import read_job_text
from dryfit.book.building import Kept, build
from dryfit.book.demos import demo_text, demos
from dryfit.job.model import BoardSpec, Job, JointRules, JointSpec
from dryfit.joints import KINDS
from dryfit.keeping import Keep
from dryfit.piece.building import build_piece
from dryfit.piece.clash import clashes, near_parts
from dryfit.piece.kinds import Kinds
from dryfit.piece.meetings import pair_key
from dryfit.piece.parts import stock_of
from dryfit.piece.solids import Solids
from dryfit.shop.model import Shop
from tests.fewer import counted
from tests.joints.kinds import PAIRS
from tests.property.drawn_frames import changed, furnished
from tests.strategies import drawn_the_other_way, in_file_order, lengths, pieces


def worked(job, keep):
    """All that is worked out of a job: the piece, its volumes, its clashes."""
    piece = build_piece(job, Kinds(KINDS), Shop(), keep=keep)
    solids = Solids(keep)
    volumes = {part.id: solids.volume(part) for part in piece.parts}
    found = clashes(piece.parts, solids, frozenset(joint.key for joint in piece.joints), keep)
    return piece, volumes, found


def solid_key(part):
    """What a part's solid is made from."""
    return stock_of(part), tuple(shape for cut in part.cuts for shape in cut.shapes)


def moved(spec: BoardSpec, dx: float, dy: float) -> BoardSpec:
    (x0, y0), (x1, y1) = spec.line
    return replace(spec, line=((x0 + dx, y0 + dy), (x1 + dx, y1 + dy)))


def with_board(job: Job, index: int, spec: BoardSpec) -> Job:
    return replace(job, boards=(*job.boards[:index], spec, *job.boards[index + 1 :]))


@st.composite
def edits(draw, job: Job) -> Job:
    """One change of a job."""
    index = draw(st.integers(0, len(job.boards) - 1))
    spec = job.boards[index]
    what = draw(
        st.sampled_from(
            [
                "move",
                "move",
                "head",
                "depth",
                "back",
                "timber",
                "thickness",
                "remove",
                "add",
                "options",
                "front",
                "turn",
            ]
        )
    )
    match what:
        case "move":
            return with_board(job, index, moved(spec, draw(lengths(-60, 60)), draw(lengths(-40, 40))))
        case "head":
            (start, (x, y)) = spec.line
            return with_board(job, index, replace(spec, line=(start, (x + draw(lengths(-60, 60)), y))))
        case "depth":
            return with_board(job, index, replace(spec, depth=draw(lengths(180, 360))))
        case "back":
            return with_board(job, index, replace(spec, back=draw(st.sampled_from([0.0, 7.5, 20.0]))))
        case "timber":
            return with_board(job, index, replace(spec, timber=draw(st.sampled_from(["thin", "middling", "thick"]))))
        case "thickness":
            thin = replace(job.timbers["thin"], measured=draw(st.sampled_from([None, 14.2, 17.9])))
            return replace(job, timbers={**job.timbers, "thin": thin})
        case "remove" if len(job.boards) > 2:
            return replace(job, boards=in_file_order((*job.boards[:index], *job.boards[index + 1 :])))
        case "add":
            taken = {board.name for board in job.boards}
            name = next(f"more {i}" for i in range(1, 99) if f"more {i}" not in taken)
            return replace(job, boards=in_file_order((*job.boards, replace(moved(spec, 55.0, 35.0), name=name))))
        case "options":
            rules = JointRules(
                clearance=draw(st.sampled_from([None, 0.2, 0.35])),
                kinds={"housing": {"stop": draw(st.sampled_from(["through", "front"]))}},
            )
            return replace(job, joints=rules)
        case "front":
            other = job.boards[(index + 1) % len(job.boards)]
            spec_of = JointSpec(between=(spec.name, other.name), front=spec.name)
            return replace(job, joint_specs=(spec_of,))
        case _:
            return with_board(job, index, drawn_the_other_way(spec))


@settings(max_examples=60)
@given(drawing=pieces(), data=st.data())
def test_a_kept_build_equals_a_cold_one_after_any_edits(drawing, data):
    job, kept = drawing.job, Keep()
    worked(job, kept)
    for _ in range(data.draw(st.integers(1, 6), label="edits")):
        job = data.draw(edits(job))
        warm, cold = worked(job, kept), worked(job, Keep())
        assert warm == cold
        assert repr(warm) == repr(cold), "equal, but not bit for bit"


@settings(max_examples=40)
@given(frame=furnished(), data=st.data())
def test_a_kept_build_of_a_frame_equals_a_cold_one_after_any_edits(frame, data):
    """With every kind of corner, boards that cross it or that it is notched over, and long screws."""
    kept = Keep()
    worked(read_job_text(frame.text()), kept)
    for _ in range(data.draw(st.integers(1, 4), label="edits")):
        frame = data.draw(changed(frame))
        job = read_job_text(frame.text())
        warm, cold = worked(job, kept), worked(job, Keep())
        assert warm == cold
        assert repr(warm) == repr(cold), "equal, but not bit for bit"


def test_the_frames_that_are_edited_have_every_kind_of_joint():
    tally = Counter()

    @counted(150)
    @given(frame=furnished())
    def each(frame):
        for joint in build_piece(read_job_text(frame.text()), Kinds(KINDS), Shop()).joints:
            tally[joint.kind, *(value for key, value in joint.options if key in ("strengthen", "fasten"))] += 1

    each()
    assert {kind for kind, *_ in tally} == {"butt", "cross halving", "long screw", "mitre", "notch"}
    assert len(tally) == 9, tally


@settings(max_examples=25)
@given(data=st.data())
@pytest.mark.parametrize("kind", sorted(PAIRS))
def test_one_pair_after_another_of_any_kind_is_as_if_nothing_had_been_kept(kind, data):
    """Boards of the same names and other figures: what is kept of the first may not come back in the second."""
    kept = Keep()
    for pair in data.draw(st.lists(PAIRS[kind](), min_size=2, max_size=3)):
        warm, cold = worked(pair.job(), kept), worked(pair.job(), Keep())
        assert warm == cold
        assert repr(warm) == repr(cold), "equal, but not bit for bit"


@settings(max_examples=15)
@given(drawing=pieces(), data=st.data())
def test_a_whole_book_built_on_its_bench_equals_one_built_cold(drawing, data):
    job, bench = drawing.job, Kept()
    build(job, bench=bench)
    for _ in range(3):
        job = data.draw(edits(job))
        warm, cold = build(job, bench=bench), build(job)
        assert (warm.piece, warm.findings, warm.mass_kg) == (cold.piece, cold.findings, cold.mass_kg)
        assert repr(dict(warm.studies)) == repr(dict(cold.studies))


@settings(max_examples=20)
@given(drawing=pieces(), data=st.data())
def test_going_back_to_an_earlier_state_makes_no_solid_again(drawing, data):
    kept = Keep()
    first = worked(drawing.job, kept)
    worked(data.draw(edits(drawing.job)), kept)
    before = kept.made["solid"]
    assert worked(drawing.job, kept) == first
    assert kept.made["solid"] == before


@settings(max_examples=20)
@given(drawing=pieces())
def test_building_again_with_nothing_changed_works_nothing_out(drawing):
    kept = Keep()
    piece, _, _ = worked(drawing.job, kept)
    before = kept.made.copy()
    again, _, _ = worked(drawing.job, kept)
    assert kept.made == before
    for one, other in zip((*piece.joints, *piece.parts), (*again.joints, *again.parts), strict=True):
        assert one is other


@pytest.mark.parametrize("demo", demos())
def test_a_whole_job_read_again_works_nothing_out(demo):
    """Its fixings, wall and frames with it, which drawn layouts do not have: as at a step of a drag that goes back."""
    kept = Keep()
    worked(read_job_text(demo_text(demo)), kept)
    before = kept.made.copy()
    worked(read_job_text(demo_text(demo)), kept)
    assert kept.made == before


def touched_by(before, after, name):
    """Boards that a move of `name` reaches: itself, its partners before and after, and where a hand turned over."""
    boards = {name}
    for piece, other in ((before, after), (after, before)):
        for joint in piece.joints:
            there = other.joint_by_key.get(joint.key)
            if name in joint.key or there is None or there.making != joint.making or there.meeting != joint.meeting:
                boards |= set(joint.key)
    return boards


@settings(max_examples=80)
@given(drawing=pieces(), data=st.data())
def test_a_board_that_moves_alone_repeats_only_its_own_work(drawing, data):
    job, kept = drawing.job, Keep()
    before, _, _ = worked(job, kept)
    for _ in range(3):
        index = data.draw(st.integers(0, len(job.boards) - 1))
        name = job.boards[index].name
        seen = {solid_key(part) for part in before.parts}
        step = (data.draw(lengths(1, 40)), data.draw(lengths(-20, 20)))
        job = with_board(job, index, moved(job.boards[index], *step))
        kept.made.clear()
        after, _, _ = worked(job, kept)
        _only_declared_work(kept, before, after, name, seen)
        before = after


def _only_declared_work(kept, before, after, name, seen):
    made, touched = kept.made, touched_by(before, after, name)
    assert made["board"] == 1
    new_forms = {meeting.form for meeting in after.meetings} - {meeting.form for meeting in before.meetings}
    assert made["options"] <= len(new_forms)
    own = [joint for joint in after.joints if name in joint.key]
    turned = [
        joint
        for joint in after.joints
        if name not in joint.key
        and (old := before.joint_by_key.get(joint.key)) is not None
        and (old.making != joint.making or old.meeting != joint.meeting)
    ]
    fresh = [joint for joint in after.joints if joint.key not in before.joint_by_key and name not in joint.key]
    assert made["joint"] <= len(own) + len(turned) + len(fresh)
    for part in after.parts:
        if part.id not in touched:
            assert part is before.part_by_name[part.id]
    changed = {part.id: solid_key(part) for part in after.parts if solid_key(part) not in seen}
    assert set(changed) <= touched
    assert made["solid"] <= len(set(changed.values()))
    near = [pair for pair in near_parts(after.parts, Keep()) if {pair[0].id, pair[1].id} & touched]
    assert made["clash"] <= len(near)


@settings(max_examples=40)
@given(drawing=pieces(), by=lengths(-300, 300))
def test_a_raking_board_pushed_along_the_wall_by_itself_keeps_its_solid_where_its_cuts_stay(drawing, by):
    """Moving a whole piece moves frames, not cuts: in their own frames boards are as before, to 1e-6."""
    job = drawing.job
    kept = Keep()
    piece, volumes, _ = worked(job, kept)
    everything = replace(job, boards=tuple(moved(spec, by, 0.0) for spec in job.boards))
    shifted, others, _ = worked(everything, kept)
    assert {pair_key(*joint.key) for joint in shifted.joints} == {joint.key for joint in piece.joints}
    for name, volume in volumes.items():
        assert abs(others[name] - volume) < 1e-2


RELATED = """\
dryfit = 1
[timber.oak]
species = "oak, white"
thickness = 24
[timber.beech]
species = "beech"
thickness = 20
""" + "".join(
    f'[[board]]\nname = "{name}"\ntimber = "{timber}"\nline = {line}\ndepth = 300\n'
    for name, timber, line in (
        ("shelf", "beech", """[['right("post")', 500], [900, 500]]"""),
        ("post", "oak", "[[300, 0], [300, 900]]"),
        ("far post", "beech", "[[900, 0], [900, 900]]"),
        ("far shelf", "beech", "[[900, 300], [1500, 300]]"),
    )
)  # fmt: skip


def test_a_thickness_that_moves_what_hangs_on_it_repeats_the_work_of_these_boards_only():
    """The post is thicker by 6 and the shelf's end follows it by 3: those two are set out anew, no others."""
    kept = Keep()
    worked(read_job_text(RELATED), kept)
    kept.made.clear()
    piece, _, _ = worked(read_job_text(RELATED.replace("thickness = 24", "thickness = 30")), kept)
    assert piece.board_by_name["shelf"].frame.origin[0] == 315
    assert kept.made["board"] == 2
    kept.made.clear()
    worked(read_job_text(RELATED), kept)
    assert not +kept.made, "and what was known before is known still"
