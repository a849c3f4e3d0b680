"""LEFT and RIGHT of leaning walls are what is seen from the edge that the cut opens to, on every paper.

What is seen is worked out from the lines as they are drawn on the wall, with none of Dryfit's figures. Look from the
room at board A with unit vector u, crossed or entered by B with unit vector v; n is u turned a quarter to the left. The
walls of A's cut run along v. With n up, u points to the right, so a head that leans to u is on the right: it is where
v u and v n have one sign. Turning u or v round changes both signs or none. From the room it is seen so if the cut opens
to the front; from the wall the other way about.

Level A, B 9 degrees right of plumb: u = (1, 0), v = (0.156, 0.988): RIGHT from the front, LEFT from the wall. Of B's
own slot u = (0.156, 0.988), n = (-0.988, 0.156), v = (1, 0): v u = 0.156, v n = -0.988: LEFT from the front, RIGHT from
the wall, and B opens the other way than A: both have one word.
"""

import math
import re
from dataclasses import replace

from hypothesis import given, settings

from dryfit.book.demos import demo_text
from dryfit.book.model import Book
from dryfit.book.reading import read_job_text
from dryfit.documents.display import Text
from dryfit.documents.looks import Desk
from dryfit.documents.sheets.page.arranging import arranged
from dryfit.documents.sheets.part.sketches import seen_from, sketches
from dryfit.documents.sheets.part.words.cuts import rows
from dryfit.documents.sheets.part.words.setups import setups
from dryfit.geometry.views import Surface
from dryfit.joints import KINDS
from dryfit.piece import leaning
from dryfit.piece.building import build_piece
from dryfit.piece.facts import Opens
from dryfit.piece.kinds import Kinds, operations_of
from dryfit.piece.operations import Dial
from dryfit.piece.solids import Solids
from dryfit.shop.model import Shop
from dryfit.studies.setups import SetUpsStudy, SetUpsValue, cuts_of
from dryfit.study.base import Work
from dryfit.study.outcome import Done
from tests.strategies import REVERSED_LINE, drawn_the_other_way, pieces

OTHER = {"LEFT": "RIGHT", "RIGHT": "LEFT", "": ""}
LEAST = 0.025  # degrees


def book_of(job):
    """A piece with its set-ups and nothing else worked out."""
    piece = build_piece(job, Kinds(KINDS), Shop())
    value = SetUpsValue(operations=operations_of(piece, KINDS), cuts=tuple(cuts_of(piece)), shop=Shop(), units="mm")
    done = {"setups": Done(result=SetUpsStudy().run(value, Work()))}
    return Book(job=job, shop=Shop(), piece=piece, outcomes=done, findings=(), solids=Solids(), mass_kg={})


def unit(line):
    (x0, y0), (x1, y1) = line
    size = math.hypot(x1 - x0, y1 - y0)
    return (x1 - x0) / size, (y1 - y0) / size


def leaning_cuts(book):
    """Slots and housings whose walls lean."""
    wanted = (cut for part in book.piece.parts for cut in part.cuts if not cut.end and cut.takes)
    return [cut for cut in wanted if abs(cut.figures.lean) > LEAST]


def opens_to_wall_alone(cut):
    """By what is said of its depth or its stops; a housing without a stop opens to both edges."""
    if cut.figures.opens in (Opens.FRONT, Opens.WALL):
        return cut.figures.opens is Opens.WALL
    return {stop.edge for stop in cut.figures.stops} == {Opens.FRONT}


def seen(job, cut):
    """LEFT or RIGHT, from the lines of the job."""
    lines = {spec.name: spec.line for spec in job.boards}
    (ux, uy), (vx, vy) = unit(lines[cut.body]), unit(lines[cut.takes])
    along, up = vx * ux + vy * uy, -vx * uy + vy * ux
    right = (along * up > 0) != opens_to_wall_alone(cut)
    return "RIGHT" if right else "LEFT"


def heads_of(book):
    """What the set-ups say, by cut."""
    found = setups(Desk(book)).all
    return {use.key: setup.head for setup in found for use in setup.uses if setup.of.set_to(Dial.LEAN)}


@settings(max_examples=60, deadline=None)
@given(drawing=pieces())
def test_the_set_up_of_a_cut_says_what_is_seen(drawing):
    book = book_of(drawing.job)
    found = heads_of(book)

    for cut in leaning_cuts(book):
        assert found[cut.key] == seen(drawing.job, cut), cut.key


@settings(max_examples=25, deadline=None)
@given(drawing=pieces())
def test_the_part_s_row_and_its_section_say_it_with_the_same_word(drawing):
    """The word under a section with the cut's number, and that in its row, in the table of the part."""
    book = book_of(drawing.job)
    desk, wanted = Desk(book), heads_of(book)
    for cut in leaning_cuts(book):
        look = desk.looks[cut.body]
        number = str(look.numbers[cut.key])
        said = [one for one in sketches(desk, look, roomy=True) if not one.end and number in _numbers(one)]
        (sketch,) = said
        assert sketch.leans == f"head leans {wanted[cut.key]}"
        for word in re.findall(r"head leans (LEFT|RIGHT)", _row(rows(desk, look), number)):
            assert word == wanted[cut.key]


def _numbers(sketch):
    """The cuts that a section stands for: in rings, or in words."""
    rings = {item.text for item in sketch.items if isinstance(item, Text) and item.text.isdigit()}
    words = [line.removeprefix("cuts ") for line in sketch.says if line.startswith("cuts ")]
    for run in ", ".join(words).split(", "):
        first, _, last = run.partition(" to ")
        rings |= {str(n) for n in range(int(first), int(last or first) + 1)} if first.isdigit() else set()
    return rings


def _row(table, number):
    start = next(place for place, row in enumerate(table) if row[0].text == number)
    end = next((p for p in range(start + 1, len(table)) if not table[p][0].joins), len(table))
    return " ".join(cell.text for row in table[start:end] for cell in row)


def seen_by_words(look, cut):
    """Edge and face up of a cut's section, as the words over the sections have it: for all, or for these numbers."""
    first, *others = seen_from(look).split("; ")
    for words in others:
        numbers, edge, up = re.fullmatch(r"(.+) from the (\w+) edge, (\w+ face) up", words).groups()
        if look.numbers[cut.key] in spelt(numbers):
            return edge, up
    return re.fullmatch(r"seen from the (\w+) edge, (\w+ face) up", first).groups()


def spelt(runs):
    """The numbers of "1, 3 to 6"."""
    found = set()
    for run in runs.split(", "):
        first, _, last = run.partition(" to ")
        found |= set(range(int(first), int(last or first) + 1))
    return found


@settings(max_examples=25, deadline=None)
@given(drawing=pieces())
def test_a_section_is_drawn_from_the_edge_it_says_and_its_head_leans_there_as_told(drawing):
    """On paper: of the walls' ends on the two faces, the upper one lies on the side that the word has.

    The figures at the walls are the running positions, the datum end left: on the paper they grow to the right. Above
    stands that of the face that is up. So the head leans RIGHT where the upper figure is the greater one.
    """
    book = book_of(drawing.job)
    desk = Desk(book)
    for part in book.piece.parts:
        look = desk.looks[part.id]
        made = [one for one in sketches(desk, look, roomy=True) if one.leans and not one.end]
        for sketch in made:
            key = next(item.owner for item in sketch.items if getattr(item, "owner", "") in look.numbers)
            cut = next(cut for cut in part.cuts if cut.key == key)
            edge, up = seen_by_words(look, cut)
            assert edge == ("wall" if opens_to_wall_alone(cut) else "front")
            face = next(face for face in (Surface.PLUS, Surface.MINUS) if look.names.words[face] == up)
            other = Surface.MINUS if face is Surface.PLUS else Surface.PLUS
            upper, lower = look.position(cut, face), look.position(cut, other)
            if upper is not None and lower is not None:
                assert (upper > lower) == (sketch.leans == "head leans RIGHT")
        words = [item.text for item in arranged(made, 500.0, seen_from(look)).items if isinstance(item, Text)]
        assert not made or any(text.startswith("seen from") for text in words)


# ---- the same for boards drawn either way, hung, and mirrored


def all_settings(book):
    """What is set for each cut, without what set-ups are called."""
    return {
        use.key: (
            setup.does,
            setup.across,
            setup.lean.replace(setup.head, "").strip(),
            setup.head,
            setup.deep,
            setup.stop,
        )
        for setup in setups(Desk(book)).all
        for use in setup.uses
    }


def shared(book):
    """Which cuts share a set-up."""
    return {frozenset(use.key for use in setup.uses) for setup in setups(Desk(book)).all}


@settings(max_examples=40, deadline=None)
@given(drawing=pieces())
def test_a_board_drawn_from_its_other_end_changes_no_word(drawing):
    turned = replace(drawing.job, boards=tuple(drawn_the_other_way(spec) for spec in drawing.job.boards))

    assert all_settings(book_of(turned)) == all_settings(book_of(drawing.job))


@settings(max_examples=40, deadline=None)
@given(drawing=pieces())
def test_a_piece_hung_higher_changes_no_word(drawing):
    up = replace(
        drawing.job,
        boards=tuple(replace(spec, line=tuple((x, y + 700.0) for x, y in spec.line)) for spec in drawing.job.boards),
        wall=replace(drawing.job.wall, hung=True),
    )
    down = replace(up, boards=drawing.job.boards)

    assert heads_of(book_of(up)) == heads_of(book_of(down))


def mirrored(spec):
    """The board behind a looking-glass that stands on the floor, square to the wall."""
    return replace(
        spec,
        line=tuple((-x, y) for x, y in spec.line),
        line_is=REVERSED_LINE[spec.line_is],
        inside=-spec.inside,
    )


def end_or_key(key):
    """The datum end of a level board is its left one: in the mirror it is the other."""
    return re.sub("^(datum|far) end", "end", key)


def by_end(found):
    return sorted((end_or_key(key), said) for key, said in found.items())


@settings(max_examples=60, deadline=None)
@given(drawing=pieces())
def test_in_the_mirror_left_and_right_change_places_and_nothing_else(drawing):
    book = book_of(drawing.job)
    glass = book_of(replace(drawing.job, boards=tuple(map(mirrored, drawing.job.boards))))

    def swapped(one):
        return {key: (*said[:3], OTHER[said[3]], *said[4:]) for key, said in one.items()}

    assert by_end(all_settings(glass)) == by_end(swapped(all_settings(book)))
    assert {frozenset(map(end_or_key, one)) for one in shared(glass)} == {
        frozenset(map(end_or_key, one)) for one in shared(book)
    }


def test_a_rule_that_forgot_the_edge_would_be_found_out(monkeypatch):
    """The record wall's uprights rake and its shelves are slotted from the front, they from the wall."""
    job = read_job_text(demo_text("record-wall"))
    assert all(heads_of(book_of(job))[cut.key] == seen(job, cut) for cut in leaning_cuts(book_of(job)))

    monkeypatch.setattr(leaning, "from_the_wall", lambda prism, board: False)
    assert any(heads_of(book_of(job))[cut.key] != seen(job, cut) for cut in leaning_cuts(book_of(job)))
