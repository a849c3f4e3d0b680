"""A sketch, never registered: a mitre with keys or a loose tongue, set out apart from the product's own mitre.

Case K6: a circular cutter of 100, plunged 12 from the outside arris of a right angle along the bisector, reaches
15.296 along either face and takes 134.10 mm2 of section. Case K3: at 120 the cut of 25 boards is at 60 to the
length, long point less short point 25 / tan 60 = 14.434. Pockets and grooves are prisms in frames of their own.
"""

import math
from typing import Any, Literal

import pytest
from pydantic import Field
from shapely import box

from dryfit.geometry.frames import Frame, length
from dryfit.geometry.sections import Patch, section
from dryfit.geometry.shapes import OVER, Prism, half_space, outline
from dryfit.job.options import Options, Quantity
from dryfit.joints import KINDS
from dryfit.keeping import Keep
from dryfit.piece.clash import clashes
from dryfit.piece.facts import Between, CutForm, GlueZone, Grain, Opens, Stop
from dryfit.piece.kinds import JointKind
from dryfit.piece.model import (
    DATUM_END,
    FAR_END,
    Cut,
    Figures,
    Gap,
    Hand,
    Joint,
    Judgement,
    Mating,
    Motion,
    Touch,
    Ware,
)
from dryfit.piece.operations import Operation, Way, WorkSort, sawn
from dryfit.piece.solids import Solids
from dryfit.piece.sums import Sum, Word
from dryfit.shop.tools import Process

from ..joints.going import touching_area
from ..piece.making import asked, built, coded, cut_of, job_of, joint_of, plank


def any_of(arithmetic: str) -> Any:
    """Arithmetic as a default: a length once it is worked out at the meeting."""
    return arithmetic


class MitreOptions(Options):
    strengthen: Literal["none", "keys", "tongue"] = "none"
    cutter: Quantity = Field(default=100.0)
    plunge: Quantity = Field(default=any_of("t_a / 2 - 1.5"))
    key: Quantity = Field(default=4.0)
    keys: int = 2
    tongue: Quantity = Field(default=any_of("t_a / 4"))
    tongue_wide: Quantity = Field(default=any_of("t_a * 2 / 3"))
    unit: str = "frame"


def corner(side, other):
    """In this board's plane: unit vectors along both boards away from the corner, and the bisector into it."""
    away = (-1.0, 0.0) if side.end == FAR_END else (1.0, 0.0)
    turn, sign = math.radians(side.turn), -1.0 if other.end == FAR_END else 1.0
    along = (sign * math.cos(turn), sign * math.sin(turn))
    x, y = away[0] + along[0], away[1] + along[1]
    size = math.hypot(x, y)
    return away, along, (x / size, y / size)


class StrengthenedMitre(JointKind[MitreOptions]):
    name = "sketched mitre"
    serves = frozenset({(Touch.END, Touch.END)})
    options = MitreOptions

    def judge(self, meeting, options):
        same = abs(meeting.a.thickness - meeting.b.thickness) < 1e-9
        return Judgement(possible=same, reasons=() if same else ("equal thickness only",))

    def hands(self, meeting, options):
        """With a tongue the second board leaves along the mitre's normal and no other way."""
        _, _, (x, y) = corner(meeting.b, meeting.a)
        away = corner(meeting.b, meeting.a)[0]
        normal = (-y, x) if -y * away[0] + x * away[1] > 0 else (y, -x)
        out = (
            normal[0] * meeting.frame.x[0] + normal[1] * meeting.frame.y[0],
            normal[0] * meeting.frame.x[1] + normal[1] * meeting.frame.y[1],
            0.0,
        )
        tongue = options.strengthen == "tongue"
        motions = [Motion(body=meeting.b.body, direction=out, free=options.tongue_wide / 2 if tongue else 0.0)]
        if not tongue:
            deep = meeting.overlap[1] - meeting.overlap[0]
            motions += [Motion(body=meeting.b.body, direction=(0.0, 0.0, z), free=deep) for z in (1.0, -1.0)]
        return (Hand(name=f"{meeting.a.body} and {meeting.b.body} mitred", motions=tuple(motions)),)

    def matings(self, meeting, options, hand):
        if options.strengthen != "tongue":
            return ()
        pairs = ((meeting.a, meeting.b), (meeting.b, meeting.a))
        return tuple(
            Mating(
                key=f"groove in {side.body} at {other.body}",
                cut_in=side.body,
                takes="tongue",
                normal=(*corner(side, other)[2], 0.0),
                nominal=options.tongue,
                play=0.0,
                play_from="none",
            )
            for side, other in pairs
        )

    def make(self, meeting, options, hand):
        pairs = ((meeting.a, meeting.b), (meeting.b, meeting.a))
        cuts = [self._end(meeting, side, other) for side, other in pairs]
        if options.strengthen == "keys":
            cuts += [self._pockets(meeting, side, other, options) for side, other in pairs]
        if options.strengthen == "tongue":
            cuts += [self._groove(meeting, side, other, options) for side, other in pairs]
        face = meeting.a.thickness / math.sin(self._half(meeting)) * (meeting.overlap[1] - meeting.overlap[0])
        return Joint(
            key=meeting.key,
            kind=self.name,
            meeting=meeting,
            options=options,
            hand=hand,
            cuts=tuple(cuts),
            gaps=(Gap(between=Between.MITRE, size=0.0),),
            hidden_mm2=tuple((side.body, face) for side, _ in pairs),
        )

    def _half(self, meeting):
        """Half the inside angle, radians."""
        away, along, _ = corner(meeting.a, meeting.b)
        return math.acos(away[0] * along[0] + away[1] * along[1]) / 2

    def _end(self, meeting, side, other):
        away, _, (x, y) = corner(side, other)
        normal = (-y, x) if -y * away[0] + x * away[1] < 0 else (y, -x)
        lean = 90 - math.degrees(self._half(meeting))
        return Cut(
            key=f"mitre of {side.body} at {other.body}",
            body=side.body,
            form=CutForm.END,
            word="mitre",
            joint=meeting.key,
            end=side.end,
            shapes=(half_space((side.at, 0.0), normal),),
            figures=Figures(opens=Opens.END, lean=lean),
        )

    def _own_frame(self, side, other, out):
        """X into the corner along the bisector, from a place `out` of the corner's middle; z out of the wall."""
        _, _, (x, y) = corner(side, other)
        return Frame((length(side.at - out * x), length(-out * y), 0.0), (x, y, 0.0), (-y, x, 0.0), (0.0, 0.0, 1.0))

    def _pockets(self, meeting, side, other, options):
        arris = side.thickness / 2 / math.sin(self._half(meeting))
        radius = options.cutter / 2
        frame = self._own_frame(side, other, arris + radius - options.plunge)
        ring = ((-radius, 0.0, 1.0), (radius, 0.0, 1.0))
        low, high = meeting.overlap
        step = (high - low) / options.keys
        places = [low + (number + 0.5) * step - side.back for number in range(options.keys)]
        return Cut(
            key=f"key pockets in {side.body} at {other.body}",
            body=side.body,
            form=CutForm.POCKET,
            word="key pockets",
            takes="keys",
            joint=meeting.key,
            size_is="FIT TO",
            shapes=tuple(
                Prism(outline=ring, low=z - options.key / 2, high=z + options.key / 2, frame=frame) for z in places
            ),
            figures=Figures(width=Sum.alone(options.key), depth=Sum.alone(options.plunge), opens=Opens.END),
        )

    def _groove(self, meeting, side, other, options):
        """Square to the mitre, across its middle; half the tongue in this board."""
        away, _, (x, y) = corner(side, other)
        frame = self._own_frame(side, other, 0.0)
        inward = 1.0 if -y * away[0] + x * away[1] > 0 else -1.0  # the frame's y, towards this board's wood
        half, deep = options.tongue / 2, options.tongue_wide / 2
        shape = outline((-half, -inward * OVER), (half, -inward * OVER), (half, inward * deep), (-half, inward * deep))
        return Cut(
            key=f"groove in {side.body} at {other.body}",
            body=side.body,
            form=CutForm.GROOVE,
            word="groove",
            takes="tongue",
            joint=meeting.key,
            shapes=(Prism(outline=shape, low=12.0, high=side.front - side.back - 12.0, frame=frame),),
            size_is="FIT TO",
            figures=Figures(
                width=Sum.alone(options.tongue),
                depth=Sum.alone(deep),
                opens=Opens.END,
                stops=tuple(Stop(edge=edge, size=Sum.alone(12.0, Word.STOP)) for edge in (Opens.FRONT, Opens.WALL)),
            ),
        )

    def hardware(self, joint):
        options = joint.options
        low, high = joint.meeting.overlap
        keys = Ware(what="key", says=f"{options.key:g} thick", count=options.keys)
        tongue = Ware(
            what="tongue", says=f"{options.tongue:g} x {options.tongue_wide:g} x {high - low - 24:g}", count=1
        )
        return {"keys": (keys,), "tongue": (tongue,)}.get(options.strengthen, ())

    def glue(self, joint):
        return (GlueZone(faces="both mitre faces", grain=(Grain.END, Grain.END), area_mm2=joint.hidden_mm2[0][1]),)

    def operations(self, joint, boards):
        """Keys wait for the glue; a tongue's groove does not."""
        ends = tuple(sawn([cut], boards[cut.body]) for cut in joint.cuts if cut.end)
        rest = [cut for cut in joint.cuts if not cut.end]
        keyed = any(cut.form is CutForm.POCKET for cut in rest)
        ways = (Way(process=Process.HAND, makes="strengthening", says="to its lines"),)
        after = () if keyed else (ends[0].key,)
        glued = joint.key if keyed else None
        worked = (
            Operation(key=cut.key, work=WorkSort.CORNER, cuts=(cut.key,), ways=ways, after=after, after_gluing=glued)
            for cut in rest
        )
        return (*ends, *worked)

    def notes(self, joint):
        return ("Keys go in after gluing.",) if joint.options.strengthen == "keys" else ()


SHOWN = {**KINDS, StrengthenedMitre.name: StrengthenedMitre()}


def bent(inside=90.0, thickness=27.0, kind=StrengthenedMitre.name, **own):
    """Two boards 500 long and 300 deep from a corner at (0, 0), one level, one at the inside angle to it."""
    turn = math.radians(inside)
    boards = (
        plank("A", (0, 0), (500, 0), thickness=thickness),
        plank("B", (0, 0), (500 * math.cos(turn), 500 * math.sin(turn)), thickness=thickness),
    )
    piece = built(job_of(*boards, joint_specs=(asked("A", "B", kind, **own),)), kinds=SHOWN)
    return piece, joint_of(piece, "A", "B")


def volumes(piece):
    solids = Solids()
    return {part.id: solids.volume(part) for part in piece.parts}


@pytest.mark.parametrize(("inside", "thickness", "difference"), [(120, 25, 14.434), (90, 27, 27.0), (60, 24, 41.569)])
def test_a_plain_mitre_has_the_points_of_case_k3(inside, thickness, difference):
    piece, _ = bent(inside, thickness)
    part = piece.part_by_name["A"]

    assert part.short[0] - part.long[0] == pytest.approx(difference, abs=0.001)
    assert volumes(piece) == pytest.approx({"A": 500 * thickness * 300, "B": 500 * thickness * 300}, rel=1e-6)
    assert cut_of(piece, "mitre of A at B").figures.lean == pytest.approx(90 - inside / 2)


def test_the_mitre_s_faces_touch_all_over():
    piece, joint = bent()

    assert touching_area(piece, joint) == pytest.approx(27 * math.sqrt(2) * 300, rel=1e-5)
    assert StrengthenedMitre().glue(joint)[0].area_mm2 == pytest.approx(27 * math.sqrt(2) * 300)


def test_a_pocket_takes_the_section_of_case_k6_from_the_two_boards_together():
    """Sections come from the exact arcs (chords of 0.005): half of 134.10 in either board; reach 15.296 on the face."""
    piece, _ = bent(strengthen="keys", plunge=12)
    taken = 0.0
    for name, other in (("A", "B"), ("B", "A")):
        pockets = cut_of(piece, f"key pockets in {name} at {other}")
        board = piece.board_by_name[name]
        # the wood of the board as sawn: from the mitre on, seen in the middle of the first key
        (end,) = cut_of(piece, f"mitre of {name} at {other}").shapes
        flat = Patch(
            (0.0, 0.0, pockets.shapes[0].low + 2.0), (1.0, 0.0, 0.0), (0.0, 1.0, 0.0), box(-50, -13.5, 500, 13.5)
        )
        wood = flat.region.difference(section(end, flat))
        taken += section(pockets.shapes[0], flat).intersection(wood).area
        outer = -13.5 if name == "A" else 13.5
        face = section(pockets.shapes[0], flat).intersection(box(-50, outer - 1e-6, 500, outer + 1e-6))
        assert face.bounds[2] - (-13.5) == pytest.approx(15.296, abs=0.01)
        assert board.thickest == 27

    assert taken == pytest.approx(134.10, abs=0.1)


@pytest.mark.parametrize("inside", [90, 120, 60])
def test_keys_take_as_much_from_either_board_and_from_the_product_s_own_mitre(inside):
    """Two keys of 4; the product's mitre is set out by other means, with arcs in the board's own frame."""
    plain, keyed = (volumes(bent(inside, strengthen=how, plunge=12)[0]) for how in ("none", "keys"))
    ours = {name: plain[name] - keyed[name] for name in plain}
    theirs_plain, theirs = (
        volumes(bent(inside, kind="mitre", strengthen=how, keys=2, plunge=12)[0]) for how in ("none", "keys")
    )

    assert ours["A"] == pytest.approx(ours["B"], rel=0.02)  # a solid's arcs have sides of 7.5 degrees
    assert ours == pytest.approx({name: theirs_plain[name] - theirs[name] for name in theirs}, rel=0.03)
    if inside == 90:
        assert sum(ours.values()) == pytest.approx(134.10 * 4 * 2, rel=0.03)


def test_a_tongue_s_grooves_take_half_of_it_each():
    plain, grooved = (volumes(bent(strengthen=how)[0]) for how in ("none", "tongue"))

    for name in "AB":
        assert plain[name] - grooved[name] == pytest.approx(27 / 4 * 9 * 276, rel=1e-6)


def test_with_a_tongue_it_comes_apart_along_the_mitre_s_normal_only():
    """At a right angle the second board, which stands up, leaves up and to the left: 135 degrees."""
    _, plain = bent()
    _, tongued = bent(strengthen="tongue")

    (only,) = tongued.hand.motions
    assert only.body == "B"
    assert only.direction == pytest.approx((-math.sqrt(0.5), math.sqrt(0.5), 0.0))
    assert {motion.direction[2] for motion in plain.hand.motions} == {0.0, 1.0, -1.0}


def framed(points, **own):
    """A closed frame of boards along the points, named by number, mitred at every corner."""
    count = len(points)
    boards = [plank(f"b {i + 1}", points[i], points[(i + 1) % count]) for i in range(count)]
    specs = tuple(asked(f"b {i + 1}", f"b {(i + 1) % count + 1}", StrengthenedMitre.name, **own) for i in range(count))
    return built(job_of(*boards, joint_specs=specs), kinds=SHOWN)


def leaves(piece, bodies):
    """The directions in which these boards leave the rest together, by the joints between them and it."""
    ways = None
    for joint in piece.joints:
        inside = [body for body in joint.key if body in bodies]
        if len(inside) != 1:
            continue
        out = {
            tuple(round(x if motion.body == inside[0] else -x, 6) + 0.0 for x in motion.direction)
            for motion in joint.hand.motions
        }
        ways = out if ways is None else ways & out
    return ways


RECTANGLE = ((0, 0), (900, 0), (900, 500), (0, 500))


def test_a_tongued_rectangle_closes_as_two_halves_and_never_by_its_last_board():
    piece = framed(RECTANGLE, strengthen="tongue")

    for i in range(4):
        assert leaves(piece, {f"b {i + 1}"}) == set()
    halves = [leaves(piece, {f"b {i + 1}", f"b {(i + 1) % 4 + 1}"}) for i in range(4)]
    assert [len(way) for way in halves] == [1, 1, 1, 1]


def test_a_tongued_hexagon_closes_as_two_halves_and_a_pentagon_does_not():
    def polygon(count):
        turns = [2 * math.pi * i / count for i in range(count)]
        return framed([(600 + 500 * math.cos(t), 600 + 500 * math.sin(t)) for t in turns], strengthen="tongue")

    hexagon, pentagon = polygon(6), polygon(5)
    assert leaves(hexagon, {"b 1", "b 2", "b 3"})
    pairs = [{f"b {i}", f"b {i % 5 + 1}"} for i in range(1, 6)]
    assert not any(leaves(pentagon, pair) for pair in [*pairs, *({f"b {i}"} for i in range(1, 6))])


def test_a_plain_rectangle_takes_its_last_board_from_the_front():
    assert (0.0, 0.0, 1.0) in leaves(framed(RECTANGLE), {"b 1"})


def test_keys_wait_until_their_unit_is_glued_and_grooves_do_not():
    boxed, keyed = bent(strengthen="keys", unit="glued box")
    piece, tongued = bent(strengthen="tongue")
    kind = StrengthenedMitre()
    _, _, *pockets = kind.operations(keyed, boxed.board_by_name)
    _, _, *grooves = kind.operations(tongued, piece.board_by_name)

    assert [(one.after, one.after_gluing) for one in pockets] == [((), ("A", "B"))] * 2
    assert [(one.after, one.after_gluing) for one in grooves] == [(("mitre of A at B",), None)] * 2
    assert [(item.name, item.count) for item in kind.hardware(keyed)] == [("key", 2)]
    assert [(item.name, str(item.says)) for item in kind.hardware(tongued)] == [("tongue", "6.75 x 18 x 276")]


@pytest.mark.parametrize("how", ["none", "keys", "tongue"])
def test_no_other_room_stumbles_over_it(how):
    piece = framed(RECTANGLE, strengthen=how)
    keep = Keep()

    assert clashes(piece.parts, Solids(keep), frozenset(joint.key for joint in piece.joints), keep) == ()
    assert not coded(piece.findings, "short-grain")
    assert [part.length for part in piece.parts] == pytest.approx([924, 524, 924, 524])  # case K7
    assert {part.cuts[0].end for part in piece.parts} == {DATUM_END}
