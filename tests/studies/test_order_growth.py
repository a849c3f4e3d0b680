"""Large pieces: what is known is looked up, not gone through; and it is what going through would find.

Counted is work, never time. The pieces are the irregular ones that are measured (`bench.layouts`): in a row of bays
every upright and shelf leans its own way, so that directions grow with boards, about four for each.
"""

import random
from collections import Counter

import numpy as np
import pytest

from bench.layouts import layout
from dryfit.book import piece_of, read_job_text
from dryfit.book.building import scene_of
from dryfit.geometry.bodies import _Cutter, _Sawing, _split
from dryfit.piece.model import Motion
from dryfit.piece.settling.apart import Shut, bits
from dryfit.piece.settling.ways import MotionGraph, parting, permits
from dryfit.piece.solids import Solids
from dryfit.shop.model import Shop
from dryfit.studies import STUDIES
from dryfit.studies.order.blocking import Blockers, PartBodies, members
from dryfit.study.base import Work


def value_of(shape, boards):
    piece = piece_of(read_job_text(layout(shape, boards).text()))
    return STUDIES["order"].reads(scene_of(piece.job, Shop(), piece, Solids()))


def counted(monkeypatch, value):
    """How often each question was put while the order was worked out."""
    asked = Counter()
    for owner, name in (
        (PartBodies, "cost"),
        (PartBodies, "clear"),
        (PartBodies, "open"),
        (Blockers, "hits"),
        (MotionGraph, "open"),
    ):
        was = getattr(owner, name)

        def told(self, *args, _was=was, _name=name):
            asked[_name] += 1
            return _was(self, *args)

        monkeypatch.setattr(owner, name, told)
    result = STUDIES["order"].run(value, Work())
    monkeypatch.undo()
    assert result.stages
    assert not result.locked
    return asked, sum(len(stage.steps) for stage in result.stages)


@pytest.mark.parametrize("shape", ["bays", "ring", "star", "lattices"])
def test_of_four_times_the_boards_about_four_times_as_much_is_asked(shape, monkeypatch):
    small, steps = counted(monkeypatch, value_of(shape, 24))
    large, more_steps = counted(monkeypatch, value_of(shape, 96))
    assert more_steps / steps == pytest.approx(4, abs=0.8)
    for question, times in large.items():
        assert times <= 2.5 * small[question] * more_steps / steps, question  # squared it would be four times


def test_what_is_open_to_a_body_is_what_none_of_the_rest_shuts():
    rng = random.Random(7)
    for _ in range(300):
        bodies, ways = rng.randint(1, 9), rng.randint(1, 80)
        shut, told = Shut(bodies, ways), set()
        for _ in range(40):
            body, other, rest = rng.randrange(bodies), rng.randrange(bodies), rng.getrandbits(bodies)
            if rng.random() < 0.5 and body != other:
                fresh = rng.getrandbits(ways) & rng.getrandbits(ways)
                shut.add(body, other, fresh)
                told |= {(way, body, other) for way in bits(fresh)}
            stands = {way: {o for w, b, o in told if (w, b) == (way, body)} for way in range(ways)}
            free = [way for way in range(ways) if not any(rest >> other & 1 for other in stands[way])]
            assert list(bits(shut.open(body, rest))) == free
            way = rng.randrange(ways)
            assert set(bits(shut.blockers(way, body))) == stands[way]


def direction(rng):
    if rng.random() < 0.3:
        return rng.choice([(0.0, 0.0, 1.0), (0.0, 0.0, -1.0), (1.0, 0.0, 0.0), (0.0, -1.0, 0.0)])
    way = np.asarray([rng.gauss(0, 1), rng.gauss(0, 1), rng.choice([0.0, rng.gauss(0, 1)])])
    return tuple((way / np.linalg.norm(way)).tolist())


def test_many_directions_at_once_part_a_joint_as_each_by_itself():
    rng = random.Random(11)
    for _ in range(200):
        ways = [direction(rng) for _ in range(rng.randint(1, 40))]
        ways += [tuple(-part for part in way) for way in ways]
        motions = [
            Motion(
                body=rng.choice("ab"),
                direction=rng.choice(ways),
                free=rng.choice([0.0, 8.0, 150.0]),
                slack=rng.choice([0.0, 0.1, 30.0]),
            )
            for _ in range(rng.randint(0, 3))
        ]
        (found,) = parting([("a", motions)], np.asarray(ways))
        for body, leaves in zip("ab", found, strict=True):
            assert [bool(leaves >> n & 1) for n in range(len(ways))] == [permits(motions, body, way) for way in ways]


@pytest.mark.parametrize("shape", ["bays", "ring", "star", "lattices"])
def test_all_lines_at_once_meet_where_each_direction_by_itself_does(shape):
    value = value_of(shape, 14)
    ground = Blockers(value.parts, value.joints)
    rng = random.Random(shape)
    for pairs in ground.touching.values():
        for offset in ((0.0, 0.0, 0.0), tuple(rng.uniform(-20, 20) for _ in range(3))):
            there, back = pairs.soonest(np.asarray(ground.directions)[::2], 0.0, offset)
            soonest = np.stack([there, back], axis=1).ravel()
            single = [pairs.hits(way, offset).min() for way in ground.directions]
            assert np.array_equal(np.isfinite(soonest), np.isfinite(single))
            assert np.allclose(soonest[np.isfinite(soonest)], np.asarray(single)[np.isfinite(single)], atol=1e-6)


def test_every_layer_of_a_board_is_split_as_one_cutter_after_the_other_would_split_it():
    rng = random.Random(3)
    for _ in range(30):
        stock = [((0.0, -12.0), (3000.0, -12.0), (3000.0, 12.0), (0.0, 12.0))]
        cutters = []
        for _ in range(rng.randint(0, 25)):
            a, lean, wide = rng.uniform(-50, 3050), rng.uniform(-6, 6), rng.uniform(5, 90)
            low, high = rng.choice([(-13.0, 13.0), (-13.0, -4.0), (4.0, 13.0)])
            cutters.append(((a - lean, low), (a - lean + wide, low), (a + lean + wide, high), (a + lean, high)))
        sawing = _Sawing(stock)
        for _ in range(6):  # a layer has some of the cutters, and is split whatever others have been split into
            layer = sorted(rng.sample(cutters, rng.randint(0, len(cutters))))
            plain = list(stock)
            for cutter in layer:
                span = [a for a, _ in cutter]
                plain = [
                    left
                    for piece in plain
                    for left in (
                        [piece]
                        if max(a for a, _ in piece) <= min(span) or min(a for a, _ in piece) >= max(span)
                        else _split(piece, cutter)
                    )
                ]
            found = sawing.without([_Cutter(outline) for outline in layer])
            assert [len(piece) for piece in found] == [len(piece) for piece in plain if len(piece) > 2]
            assert all(set(piece) <= set(other) for piece, other in zip(found, plain, strict=True))


def test_the_numbers_of_a_set_come_rising():
    rng = random.Random(5)
    for _ in range(200):
        chosen = rng.getrandbits(rng.randint(1, 200))
        assert members(chosen).tolist() == list(bits(chosen))
