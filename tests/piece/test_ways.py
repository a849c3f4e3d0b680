"""Ways apart of faces that must not be pressed together, all at once: laps, rebates, fingers.

A motion that is kept within several faces parts in the directions that lead away from all of them. What one motion
permits, what many directions at once permit, and what solids do when they are moved, is the same.
"""

import itertools
import math

import numpy as np
import pytest

from dryfit.geometry.shapes import OVER, Prism, half_space, outline
from dryfit.job.options import Options
from dryfit.joints import KINDS
from dryfit.piece.facts import Between, CutForm, Opens
from dryfit.piece.kinds import JointKind
from dryfit.piece.model import Cut, Figures, Gap, Joint, Judgement, Making, Motion, Touch
from dryfit.piece.settling.ways import free_after, parting, permits

from ..joints.going import CONTACT, overlap_when_moved
from .making import asked, built, job_of, joint_of, plank

X, Y, Z = (1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0)
DOWN = (0.0, 0.0, -1.0)
STEP = 0.5  # mm


def sphere(count=200):
    """So many directions, spread evenly (a spiral), and those along the axes and halfway between them."""
    turn = math.pi * (3 - math.sqrt(5))
    found = []
    for number in range(count):
        z = 1 - 2 * (number + 0.5) / count
        flat = math.sqrt(1 - z * z)
        found.append((flat * math.cos(turn * number), flat * math.sin(turn * number), z))
    for way in itertools.product((-1, 0, 1), repeat=3):
        if any(way):
            size = math.sqrt(sum(abs(one) for one in way))
            found.append((way[0] / size, way[1] / size, way[2] / size))
    return found


HALF = math.sqrt(0.5)
FINGERS = Motion(body="A", direction=(HALF, HALF, 0.0), free=0.0, within=(X, Y, Z, DOWN))
REBATE = Motion(body="B", direction=(-1.0, 0.0, 0.0), free=0.0, within=((0.0, -1.0, 0.0),))


@pytest.mark.parametrize("motion", [FINGERS, REBATE], ids=["fingers", "rebate"])
def test_one_direction_and_many_at_once_say_the_same(motion):
    ways = sphere()
    ((leaves, left),) = parting([("A", (motion,))], np.asarray(ways))

    assert [bool(leaves >> n & 1) for n in range(len(ways))] == [permits((motion,), "A", way) for way in ways]
    assert [bool(left >> n & 1) for n in range(len(ways))] == [permits((motion,), "B", way) for way in ways]


def test_fingers_part_two_ways_and_in_every_way_between_and_in_no_other():
    """D11: free +x, +y and all between; not -x, -y, +z, -z."""
    for way in sphere():
        assert permits((FINGERS,), "A", way) is (way[0] >= -1e-6 and way[1] >= -1e-6 and abs(way[2]) <= 1e-6)
    assert free_after((FINGERS,), "A", X) == 0.0
    assert free_after((FINGERS,), "A", Z) is None


def test_only_faces_can_be_kept_within():
    with pytest.raises(AssertionError):
        Motion(body="A", direction=X, free=10.0, within=(Y,))


# ---- against solids


class Lap(JointKind[Options]):
    """Two ends in line, the lower half of b's left standing under the upper half of a's, 160 long."""

    name = "test lap"
    serves = frozenset({(Touch.END, Touch.END)})
    options = Options

    def judge(self, meeting, options):
        return Judgement(possible=meeting.form == "in line")

    def makings(self, meeting, options):
        """B, which goes on to +x with its lap below, is pressed against a's cheek by +y and its shoulder by -x."""
        down = (0.0, -1.0, 0.0)
        return (Making(name="lapped", motions=(Motion(body=meeting.b.body, direction=down, free=0.0, within=(X,)),)),)

    def matings(self, meeting, options, making):
        return ()

    def make(self, meeting, options, making):
        cuts = []
        for side, sign in ((meeting.a, 1.0), (meeting.b, -1.0)):
            end, off = side.at + sign * 80.0, side.at - sign * 80.0
            low, high = (-side.thickness / 2 - OVER, 0.0) if sign > 0 else (0.0, side.thickness / 2 + OVER)
            corners = ((off, low), (end + sign, low), (end + sign, high), (off, high))
            shapes = (half_space((end, 0.0), (sign, 0.0)), Prism(outline=outline(*corners), low=-1.0, high=301.0))
            figures = Figures(opens=Opens.END)
            cuts.append(
                Cut(
                    key=f"lap of {side.body}",
                    body=side.body,
                    form=CutForm.END,
                    word="lap",
                    joint=meeting.key,
                    end=side.end,
                    shapes=shapes,
                    figures=figures,
                )
            )
        return Joint(
            key=meeting.key,
            kind=self.name,
            meeting=meeting,
            options=options,
            making=making,
            cuts=tuple(cuts),
            gaps=(Gap(between=Between.CHEEK, size=0.0),),
        )

    def operations(self, joint, boards):
        return ()


def agree(piece, joint, body):
    """Whether the motions permit what the solids do, half a millimetre in 200 directions and along the axes."""
    found = {way: overlap_when_moved(piece, joint, body, tuple(STEP * one for one in way)) for way in sphere()}
    said = {way: permits(joint.making.motions, body, way) for way in found}
    return [way for way, overlap in found.items() if (overlap <= CONTACT) is not said[way]]


def test_a_lap_parts_as_its_solids_do():
    """D13: b is free +x, -y, +z, -z and between; not -x, not +y."""
    boards = (plank("a", (0, 100), (400, 100)), plank("b", (400, 100), (800, 100)))
    job = job_of(*boards, joint_specs=(asked("a", "b", Lap.name),))
    piece = built(job, kinds={**KINDS, Lap.name: Lap()})
    joint = joint_of(piece, "a", "b")

    assert agree(piece, joint, "b") == []
    assert not [finding for finding in piece.findings if finding.code == "locked"]


def test_two_ends_that_are_glued_alone_part_as_their_solids_do():
    """They were said to part sideways whatever else: into the other end too."""
    boards = (plank("a", (0, 100), (400, 100)), plank("b", (400, 100), (800, 100)))
    piece = built(job_of(*boards, joint_specs=(asked("a", "b", "butt", fasten="none"),)))

    assert agree(piece, joint_of(piece, "a", "b"), "b") == []
