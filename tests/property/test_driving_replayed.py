"""What is told of driving, done again on the solids: the driver's line swept as a round bar, step by step.

Walls drawn at random: shelves screwed to brick, uprights plumb and raking through them, flush, set back or proud, posts
and fascias before them, each with a place on the wall. At every step at which a line is called free the bar meets
nothing that stands there then, and the hand has a side to be on; at the step after, and where a screw is said to be
driven at none, it meets something. What the note of a screw that is never driven offers, done, ends it.
The solids come from manifold, the study works on outlines and faces.
"""

from collections import Counter
from dataclasses import replace

import manifold3d as m3
from hypothesis import example, given, note, settings
from hypothesis import strategies as st

from dryfit.book import Kept, build, change_job_text, read_job_text
from dryfit.piece.solids import Solids
from dryfit.studies.driving.result import Driving
from dryfit.studies.hanging.result import Hanging
from dryfit.studies.order.result import Order
from tests.fewer import counted
from tests.joints.typed import board, job, table

WALL = table("[wall]", kind="brick", lining=0, hollow=0, hung=True)
CONTACT = 0.02
ROUND = 256
WIDE = 70.0  # across a drill
TURNS, GRIP, BEFORE_GRIP, GRIP_WIDE = 12, 200.0, 60.0, 80.0  # of the hand on it
DEEP = 260


@st.composite
def walls(draw):
    def place():
        return {"place": draw(st.sampled_from([1, 2, 3, 4, 5, "last"]))} if on_site else {}

    on_site, tables = draw(st.sampled_from([True, True, False])), []
    heights = draw(st.lists(st.integers(1, 5), min_size=1, max_size=2, unique=True))
    for number, level in enumerate(sorted(heights), 1):
        y = 200 * level
        tables.append(board(f"shelf {number}", [[0, y], [1500, y]], DEEP, "40", **place()))
        at = sorted(draw(st.lists(st.integers(8, 142), min_size=1, max_size=3, unique=True)))
        at = [10 * each for each in at if all(abs(each - other) > 5 or each == other for other in at)] or [500]
        tables.append(
            table(
                "[[fixing]]", name=f"f {number}", board=f"shelf {number}", kind="long screw", at=at,
                screw="wood 6x110, pan head", anchor="nylon plug 8x40", engagement=50,
                driver=draw(st.sampled_from([240, 300, 400])),
            )
        )  # fmt: skip
    for number in range(draw(st.integers(0, 3))):
        x, lean = 400 * number + draw(st.integers(120, 350)), draw(st.sampled_from([0, 0, 0, 150, -150]))
        deep = draw(st.sampled_from([200, 260, 280, 320]))
        tables.append(board(f"upright {number}", [[x, 0], [x + lean, 1300]], deep, "24", **place()))
    for number in range(draw(st.integers(0, 2))):
        x, off = draw(st.integers(50, 1450)), draw(st.sampled_from([100, 180, 260, 340]))
        tables.append(board(f"post {number}", [[x, 100], [x, 1250]], 40, "24", back=360 + off, **place()))
    if draw(st.booleans()):
        y, x = draw(st.integers(150, 1100)), draw(st.integers(0, 1200))
        tables.append(
            table(
                "[[board]]", name="fascia", timber="24", line=[[x, y], [x + 300, y + draw(st.sampled_from([0, 90]))]],
                lies="flat", width=90, back=draw(st.sampled_from([322, 400])),
            )
        )  # fmt: skip
    return job(WALL, *tables)


def crossed_at_a_screw(**upright):
    """A shelf 260 deep, and an upright 280 deep where its first screw is: it comes after the shelf, or with it."""
    shelf = {"place": 1} if upright else {}
    return job(
        WALL,
        board("shelf", [[0, 600], [1500, 600]], DEEP, "40", **shelf),
        table(
            "[[fixing]]", name="f", board="shelf", kind="long screw", at=[500, 1200], screw="wood 6x110, pan head",
            anchor="nylon plug 8x40", engagement=50, driver=300,
        ),
        board("upright", [[500, 0], [500, 1300]], 280, "24", **upright),
    )  # fmt: skip


def bar(screw, radius, low, high):
    """A round bar along z before a screw's mouth."""
    x, y, z = screw.mouth
    return m3.Manifold.cylinder(high - low, radius, radius, ROUND).translate((x, y, z + low))


def grip(screw, turn):
    """A drill's grip held one way round, a little slimmer than it may be: 200 off the axis, 80 across."""
    out = screw.bit - screw.deep
    low, high = out + BEFORE_GRIP + 2 * CONTACT, screw.line - 2 * CONTACT
    box = m3.Manifold.cube((GRIP - 2 * CONTACT, GRIP_WIDE - 4 * CONTACT, high - low))
    x, y, z = screw.mouth
    about = box.translate((CONTACT, -GRIP_WIDE / 2 + 2 * CONTACT, 0.0)).rotate((0.0, 0.0, 360.0 * turn / TURNS))
    return about.translate((x, y, z + low))


def meets(solid, others, least):
    """The parts that share more with a solid than so much."""
    found = []
    for name, other in others:
        common = solid ^ other
        if not common.is_empty() and common.volume() > least:
            found.append(name)
    return found


def line_of(screw, *, free):
    """The line of a driver: as slim as it may be drawn where it is to be free, else as wide."""
    radius = WIDE / 2 - 2 * CONTACT if free else WIDE / 2
    start = CONTACT if not any(one.beside for one in screw.bars) else screw.bit - screw.deep + 2 * CONTACT
    return bar(screw, radius, start, screw.line - 2 * CONTACT)


def standing(book, number):
    """The parts that stand there after so many steps, from the order itself; all that is hung at once, with its own."""
    if book.found(Hanging).way != "wall":
        return {part for step in book.found(Driving).steps[:number] for part in step.parts}
    return {part for one in book.found(Order).wall.steps[:number] for part in one.step.parts}


def replayed(book, counts):
    """One wall done again."""
    driving = book.found(Driving)
    if driving is None or not driving.steps:
        return
    solids = Solids()
    placed = {part.id: solids.placed(part) for part in book.piece.parts}
    for screw in driving.screws:
        here = standing(book, screw.here)
        assert screw.board in here - standing(book, screw.here - 1)
        if screw.until is None:
            counts["never"] += 1
            others = [(name, placed[name]) for name in here - {screw.board}]
            assert meets(line_of(screw, free=False), others, 0.0), "never driven, and nothing stands in its line"
            continue
        for step in range(screw.here, screw.until + 1):
            counts["free"] += 1
            others = [(name, placed[name]) for name in standing(book, step)]
            assert meets(line_of(screw, free=True), others, 1e-6) == []
            if step == screw.here and not any(one.beside for one in screw.bars):
                counts["held"] += 1
                assert any(meets(grip(screw, turn), others, 1e-6) == [] for turn in range(TURNS)), (
                    "no side for the hand"
                )
            bit = bar(screw, screw.counterbore / 2 - 2 * CONTACT, CONTACT, screw.line - 2 * CONTACT)
            assert meets(bit, others, 1e-6) == []
        if screw.until < len(driving.steps):
            counts["barred later"] += 1
            others = [(name, placed[name]) for name in standing(book, screw.until + 1) - {screw.board}]
            assert meets(line_of(screw, free=False), others, 0.0)
        if screw.covered is not None:
            counts["covered"] += 1
            mouth = bar(screw, screw.counterbore / 2, CONTACT, 1.1)
            assert meets(mouth, [(screw.covered.part, placed[screw.covered.part])], 0.0)


def test_a_line_called_free_is_swept_through_nothing_and_one_called_barred_through_something():
    counts = Counter()

    @settings(max_examples=100)
    @example(text=crossed_at_a_screw(place=2))  # few that are drawn have a screw that is covered, or never driven
    @example(text=crossed_at_a_screw())
    @given(text=walls())
    def drawn(text):
        note(text)
        replayed(build(replace(read_job_text(text), text="")), counts)  # cures, which a text has tried, play no part

    drawn()
    assert all(counts[what] for what in ("never", "free", "held", "barred later", "covered")), counts


@st.composite
def crowded(draw):
    """A shelf with two screws, and posts before or near their mouths, each with a place or none."""

    def place():
        given = draw(st.sampled_from(["first", 1, 2, 3, "last", None]))
        return {} if given is None else {"place": given}

    tables = [board("shelf", [[0, 600], [1500, 600]], DEEP, "40", **place())]
    for number in range(draw(st.integers(1, 3))):
        x, off = draw(st.sampled_from([300, 1100])) + draw(st.integers(-60, 60)), draw(st.sampled_from([0, 60, 230]))
        far = DEEP + off + 60 * number  # no two in one place
        tables.append(board(f"post {number}", [[x, 100], [x, 1250]], 40, "24", back=far, **place()))
    screws = table(
        "[[fixing]]", name="f", board="shelf", kind="long screw", at=[300, 1100], screw="wood 6x110, pan head",
        anchor="nylon plug 8x40", engagement=50, driver=draw(st.sampled_from([240, 400])),
    )  # fmt: skip
    return job(WALL, *tables, screws)


def test_what_is_offered_for_a_screw_that_is_never_driven_ends_the_stop_and_brings_none():
    offered = Counter()

    @counted(30)
    @given(text=crowded())
    def drawn(text):
        note(text)
        bench = Kept()
        book = build(read_job_text(text), bench=bench)
        stops = Counter((stop.code, frozenset(stop.where.boards)) for stop in book.stops)
        for finding in book.stops:
            if finding.code != "screw-not-driven":
                continue
            offered["in vain"] += len(finding.in_vain)
            for cure in finding.cures:
                offered[str(cure.label).partition(" ")[0]] += 1
                changed, _ = change_job_text(text, cure.edits)
                after = build(replace(read_job_text(changed), text=""), bench=bench)
                now = Counter((stop.code, frozenset(stop.where.boards)) for stop in after.stops)
                assert not now - stops, (cure.label, changed)
                assert (
                    now["screw-not-driven", frozenset(finding.where.boards)]
                    < stops["screw-not-driven", frozenset(finding.where.boards)]
                ), (cure.label, changed)
                assert any(screw.fixing == finding.where.fixing for screw in after.found(Driving).screws)

    drawn()
    assert all(offered[what] for what in ("put", "leave", "move", "in vain")), offered
