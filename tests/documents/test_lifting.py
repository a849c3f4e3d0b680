"""How many people lift, by the guideline weights for men and the factors of teams.

One man lifts 25 kg with his hands between knuckle and elbow, 20 above that and below it, 10 above the shoulder and near
the floor (guideline weights of the British authority for health and safety, as an industrial safety sheet prints them).
Two lift 2/3 of both their figures, three 1/2 of all three (factors for teams from a rail safety page and a consultants'
page): 33.3 and 37.5 kg of 25. What is lifted is reckoned a fifth more than worked out, unless it was weighed.
"""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from dryfit.book import build, read_job_text
from dryfit.book.demos import demo_text, demos
from dryfit.documents.looks import Desk
from dryfit.documents.sheets import lifting
from dryfit.documents.sheets.booklet.pages import pages
from dryfit.documents.sheets.lifting import in_parts, said, whole
from dryfit.trade.lifting import HEAVIER, kg, lift
from tests.documents import demo_papers
from tests.studies.test_order_trade import HEAD, board

KNUCKLE, ELBOW = (900.0, 900.0), (1300.0, 1300.0)  # heights of the hands


@pytest.mark.parametrize(
    ("height", "close", "far"),
    [(1500.0, 10, 5), (1300.0, 20, 10), (900.0, 25, 15), (500.0, 20, 10), (100.0, 10, 5)],
    ids=["to the head", "to the shoulder", "to the elbow", "to the knuckle", "from the floor"],
)
def test_the_figures_are_those_of_the_chart(height, close, far):
    assert kg(height) == close
    assert kg(height, reach=401.0) == far


def test_near_a_border_a_figure_between_is_taken():
    """305 is the border of 10 and 20: a board 300 deep, held by its upper edge on the floor, is 15 kg for one."""
    assert kg(300.0) == 15.0


@pytest.mark.parametrize(
    ("reckoned", "hands", "people"),
    [
        (20.0, ELBOW, 1),
        (26.6, ELBOW, 2),
        (27.0, ELBOW, 3),
        (31.0, ELBOW, None),
        (33.3, KNUCKLE, 2),
        (34.0, KNUCKLE, 3),
        (37.5, KNUCKLE, 3),
        (38.0, KNUCKLE, None),
    ],
)
def test_two_lift_two_thirds_and_three_half_of_what_they_lift_singly(reckoned, hands, people):
    """27 kg above the elbow: 20, 26.7, 30: three. 34 to the elbow: 25, 33.3, 37.5: three. 31 above it: none of them."""
    found = lift(reckoned / HEAVIER, 1000.0, [hands])

    assert found.people == people
    assert found.better_less == (people == 3), "a third adds an eighth: better less"


@pytest.mark.parametrize(("long", "people"), [(1800.0, 1), (1801.0, 2), (3601.0, 3)])
def test_what_is_long_takes_two_or_three_however_light(long, people):
    found = lift(1.0, long, [KNUCKLE])

    assert found.people == people
    assert not found.better_less


def test_the_least_figure_on_the_way_counts():
    """From trestles, 25, to above the shoulder, 10."""
    assert lift(9.0 / HEAVIER, 500.0, [KNUCKLE, (1600.0, 1600.0)]).people == 1
    assert lift(11.0 / HEAVIER, 500.0, [KNUCKLE, (1600.0, 1600.0)]).people == 2


@given(st.floats(0.1, 200.0), st.floats(0.1, 200.0), st.floats(100.0, 5000.0))
def test_more_is_never_lifted_by_fewer_and_never_by_more_than_three(less, more, long):
    less, more = sorted((less, more))
    first, then = lift(less, long, [KNUCKLE]), lift(more, long, [KNUCKLE])

    assert first.people is None or first.people in (1, 2, 3)
    assert first.people is not None or then.people is None
    assert first.people is None or then.people is None or first.people <= then.people


# ---- the piece


@pytest.mark.parametrize("name", demos())
def test_every_sheet_that_says_how_many_lift_the_piece_says_the_same(name):
    desk = demo_papers.desk(name)
    last = pages(desk)[-1].act

    assert said(desk) in last.puts[0]
    if desk.book.job.fixings:
        fixed = " ".join(
            item.text for draft, display in demo_papers.sheets(name) if draft.kind == "fixings"
            for item in display.items if hasattr(item, "text")
        )  # fmt: skip
        assert said(desk).split(":")[0] in " ".join(fixed.split())


def test_the_record_wall_is_too_heavy_for_three_and_only_its_dry_joints_are_said_to_come_apart():
    """104 kg, reckoned as 125; 37.5 at most. Its shelves and dividers are glued: eight boards, and a box of four."""
    desk = Desk(build(read_job_text(demo_text("record-wall"))))
    found = whole(desk)

    assert found.people is None
    assert found.may == pytest.approx(37.5)
    assert sorted(map(len, in_parts(desk.book.piece))) == [1, 1, 1, 1, 1, 4, 8]
    assert "7 parts, the heaviest 59 kg, too heavy for three as well" in said(desk)


def test_a_piece_that_is_glued_all_over_is_not_said_to_come_apart():
    text = board("post", (0, 0), (0, 1900), depth=600) + board("other", (1800, 0), (1800, 1900), depth=600)
    text += "".join(board(f"shelf {n}", (0, 600 * n + 100), (1800, 600 * n + 100), depth=600) for n in range(3))
    desk = Desk(build(read_job_text(HEAD + text)))

    assert len(in_parts(desk.book.piece)) == 1
    assert whole(desk).people is None
    assert "apart" not in said(desk)
    assert "hoist" in said(desk)


def test_a_piece_of_unknown_mass_is_weighed_first(monkeypatch):
    desk = Desk(build(read_job_text(demo_text("step-shelf"))))
    monkeypatch.setattr(lifting, "known_mass", lambda desk: None)

    assert said(desk).startswith("Weigh it first")
