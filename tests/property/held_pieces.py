"""Random pieces that stand or hang as they should, one class of construction each, and each with one fault planted.

Every scene is a job file as a maker types it. Figures are drawn so that nothing but the fault is wrong: bays of
500 to 800 between boards of 24 to 30, two screws or more a hung board, six times their diameter in a stud.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from hypothesis import strategies as st
from hypothesis.strategies import DrawFn, SearchStrategy

from tests.joints.typed import board, frame, joint, rail, table


@dataclass(frozen=True, kw_only=True)
class Scene:
    """A sound piece and its twin with a fault.

    Attributes:
        expected: codes of what holds boards up that the fault must bring, with the boards named first.
        usual: what is told of the sound twin too, and is no fault: what comes apart by design.
        cured: whether a change is offered.
    """

    sound: str
    faulty: str
    expected: frozenset[tuple[str, str]]
    usual: frozenset[str] = frozenset()
    cured: bool = False


def job(timber: int, *tables: str) -> str:
    head = table("dryfit = 1\n[job]", title="held") + table(
        f'[timber."{timber}"]', species="oak, white", form="panel", thickness=timber
    )
    return head + "".join(tables)


def hung() -> str:
    return table("[wall]", hung=True, kind="timber studs", lining=12, hollow=3)


def screws(name: str, at: list[int]) -> str:
    return table("[[fixing]]", board=name, kind="long screw", at=at, screw="wood 5x120")


@st.composite
def _sizes(draw: DrawFn) -> tuple[int, int, int, int]:
    """Thickness, bay, height, depth."""
    return (
        draw(st.sampled_from([24, 27, 30])),
        draw(st.integers(500, 800)),
        draw(st.integers(700, 1200)),
        draw(st.integers(200, 320)),
    )


def _case(t: int, bay: int, high: int, deep: int, shelf: bool = True) -> list[str]:
    """Two uprights on the floor with a shelf between them."""
    uprights = [board(name, [[x, 0], [x, high]], deep, str(t)) for name, x in (("left", 0), ("right", bay))]
    return [*uprights, board("shelf", [[0, high // 2], [bay, high // 2]], deep, str(t))] if shelf else uprights


def _shelf_on_screws(t: int, bay: int, high: int, deep: int) -> tuple[str, str]:
    shelf = board("shelf", [[0, high], [bay, high]], deep, str(t))
    return hung() + shelf, screws("shelf", [100, bay - 100])


@st.composite
def hung_by_screws(draw: DrawFn) -> Scene:
    """A shelf on screws, uprights run through it; then the screws are left out."""
    t, bay, high, deep = draw(_sizes())
    shelf, fixing = _shelf_on_screws(t, bay, high, deep)
    lean = draw(st.sampled_from([0, 0, 60, -80]))
    post = board("post", [[bay // 2 - lean, high - 300], [bay // 2 + lean, high + 300]], deep, str(t))
    text = job(t, shelf, post)
    return Scene(
        sound=text + fixing,
        faulty=text,
        expected=frozenset({("hung-without-fixing", "")}),
        usual=frozenset({"held-by-fit"}),
    )


@st.composite
def one_screw(draw: DrawFn) -> Scene:
    """A shelf on two screws; then only the one at its end."""
    t, bay, high, deep = draw(_sizes())
    shelf, fixing = _shelf_on_screws(t, bay, high, deep)
    text = job(t, shelf)
    return Scene(
        sound=text + fixing,
        faulty=text + screws("shelf", [draw(st.sampled_from([100, bay - 100]))]),
        expected=frozenset({("tips", "shelf")}),
    )


@st.composite
def over_a_rail(draw: DrawFn) -> Scene:
    """A rail that lies in the notches of two posts; then it is drawn beside them."""
    t, bay, high, deep = draw(_sizes())
    case = job(t, *_case(t, bay, high, deep))
    beside = rail("rail", [[3 * bay, high - 150], [4 * bay, high - 150]], 90, str(t))
    return Scene(
        sound=case + rail("rail", [[-100, high - 150], [bay + 100, high - 150]], 90, str(t)),
        faulty=case + beside,
        expected=frozenset({("held-by-nothing", "rail")}),
        usual=frozenset({"held-by-fit"}),
    )


@st.composite
def off_the_floor(draw: DrawFn) -> Scene:
    """A case on the floor; then all of it drawn higher up, with nothing under it."""
    t, bay, high, deep = draw(_sizes())
    up = draw(st.integers(2, 300))
    boards = [f"[measures]\nup = {lift}\n" for lift in (0, up)]
    rest = (
        board("left", [[0, "up"], [0, f"up + {high}"]], deep, str(t))
        + board("right", [[bay, "up"], [bay, f"up + {high}"]], deep, str(t))
        + board("shelf", [[0, f"up + {high // 2}"], [bay, f"up + {high // 2}"]], deep, str(t))
    )
    return Scene(
        sound=job(t, boards[0], rest), faulty=job(t, boards[1], rest), expected=frozenset({("held-by-nothing", "left")})
    )


@st.composite
def upright_taken_away(draw: DrawFn) -> Scene:
    """A shelf housed dry between two uprights; then without one of them: a housing does not hold a board out."""
    t, bay, high, deep = draw(_sizes())
    left, right, shelf = _case(t, bay, high, deep)
    head = job(t, table("[joints.housing]", glued=False))
    kept = draw(st.sampled_from([left, right]))
    return Scene(
        sound=head + left + right + shelf,
        faulty=head + kept + shelf,
        expected=frozenset({("tips", "shelf")}),
        usual=frozenset({"held-by-fit"}),
    )


@st.composite
def hanging_divider(draw: DrawFn) -> Scene:
    """A divider glued in under a shelf, free below; then it is let in dry."""
    t, bay, high, deep = draw(_sizes())
    lean = draw(st.sampled_from([0, 0, 30, -40]))
    middle = high // 2
    hangs = board("divider", [[bay // 2 + lean, middle - 200], [bay // 2, middle]], deep, str(t))
    text = job(t, *_case(t, bay, high, deep), hangs)
    return Scene(
        sound=text,
        faulty=text + joint("divider", "shelf", kind="housing", glued=False),
        expected=frozenset({("held-by-nothing", "divider")}),
        cured=True,
    )


@st.composite
def mitred_box(draw: DrawFn) -> Scene:
    """A glued box that hangs by its upper board; then its corners are left dry: what is below drops off."""
    t, bay, high, deep = draw(_sizes())
    box = frame([[0, high], [bay, high], [bay, high + 300], [0, high + 300]], str(t), deep)
    strengthen = draw(st.sampled_from(["none", "keys", "tongue"]))
    text = job(t, hung(), box, screws("box 3", [100, bay - 100]))
    dry = table("[joints.mitre]", glued=False, strengthen="tongue" if strengthen == "tongue" else "none")
    return Scene(
        sound=text + table("[joints.mitre]", strengthen=strengthen),
        faulty=text + dry,
        expected=frozenset({("held-by-nothing", "box 1")}),
    )


@st.composite
def board_on_ends(draw: DrawFn) -> Scene:
    """A board laid over the ends of two uprights, dowelled, screwed or glued; then neither."""
    t, bay, high, deep = draw(_sizes())
    text = job(
        t,
        *_case(t, bay, high, deep),
        board("top", [[-60, high], [bay + 60, high]], deep, str(t)),
        *(joint(name, "top", kind="butt", FASTEN=0) for name in ("left", "right")),
    )
    how = draw(st.sampled_from(['fasten = "dowels"', 'fasten = "screws"\nscrew = "wood 5x80"', 'fasten = "none"']))
    return Scene(
        sound=text.replace("FASTEN = 0", how),
        faulty=text.replace("FASTEN = 0", 'fasten = "none"\nglued = false'),
        expected=frozenset({("not-fastened", "left"), ("not-fastened", "right")}),
        cured=True,
    )


@st.composite
def shelf_between(draw: DrawFn) -> Scene:
    """A shelf butted between two uprights; then with neither dowels nor glue, so that nothing bears it."""
    t, bay, high, deep = draw(_sizes())
    dowels = table("[joints.butt]", glued=draw(st.booleans()))
    text = job(t, *_case(t, bay, high, deep), table("[joints]", end_on_face="butt"))
    return Scene(
        sound=text + dowels,
        faulty=text + table("[joints.butt]", fasten="none", glued=False),
        expected=frozenset({("held-by-nothing", "shelf")}),
        usual=frozenset({"held-by-fit"}),
        cured=True,
    )


@st.composite
def drawn_out(draw: DrawFn) -> Scene:
    """A grid that is glued; then it is left dry."""
    t, bay, _, deep = draw(_sizes())
    shelves = [board(f"shelf {n}", [[0, n * 300], [2 * bay, n * 300]], deep, str(t)) for n in (1, 2)]
    posts = [board(f"post {n}", [[x, 0], [x, 900]], deep, str(t)) for n, x in ((1, 150), (2, bay + 50))]
    text = job(t, *shelves, *posts)
    return Scene(
        sound=text + table('[joints."cross halving"]', glued=True),
        faulty=text,
        expected=frozenset({("held-by-fit", "post 1")}),
        cured=True,
    )


@st.composite
def away_from_the_rest(draw: DrawFn) -> Scene:
    """A divider let in between two shelves; then drawn beside the piece, in the air."""
    t, bay, high, deep = draw(_sizes())
    text = job(t, *_case(t, bay, high, deep), board("top", [[0, high - 60], [bay, high - 60]], deep, str(t)))
    foot, head = high // 2, high - 60
    return Scene(
        sound=text + board("divider", [[bay // 2, foot], [bay // 2, head]], deep, str(t)),
        faulty=text + board("divider", [[3 * bay, foot], [3 * bay, head]], deep, str(t)),
        expected=frozenset({("held-by-nothing", "divider")}),
    )


SCENES: Mapping[str, Callable[[], SearchStrategy[Scene]]] = {
    scene.__name__: scene
    for scene in (
        hung_by_screws,
        one_screw,
        over_a_rail,
        off_the_floor,
        upright_taken_away,
        hanging_divider,
        mitred_box,
        board_on_ends,
        shelf_between,
        drawn_out,
        away_from_the_rest,
    )
}
