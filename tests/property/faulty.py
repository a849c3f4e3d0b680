"""Texts of whole pieces with something wrong in them, drawn at random: what their cures and remedies are tried on.

Each family draws a sound-looking piece and plants faults: options out of what holds, boards that stand too near,
nodes that cannot be made, joints that lock, stock that is too short, rails that lie flat where no notch can be made.
Sizes are drawn in coarse steps, so that faults are common, and near their limits some of the time.
"""

from collections.abc import Callable, Mapping
from typing import Any

from hypothesis import strategies as st
from hypothesis.strategies import DrawFn, SearchStrategy

from tests.joints.typed import typed


def table(head: str, **keys: object) -> str:
    """One table, its keys that are None left out."""
    written = [f"{key} = {typed(value)}" for key, value in keys.items() if value is not None]
    return "\n".join([head, *written, ""])


def board(name: str, x0: float, y0: float, x1: float, y1: float, timber: str = "a", **keys: object) -> str:
    line = [[round(x0, 2), round(y0, 2)], [round(x1, 2), round(y1, 2)]]
    return table("[[board]]", **{"name": name, "timber": timber, "line": line, "depth": 300, **keys})


def head(draw: DrawFn, longest: float | None = None) -> str:
    """Two timbers, and the units of the job: of inches too, whose lengths are all written with their unit."""
    return "".join(
        table(f"[timber.{name}]", species="oak, white", thickness=draw(st.sampled_from(sizes)), longest=longest)
        for name, sizes in (("a", [5, 8, 12, 18, 24, 40]), ("b", [6, 18, 24.3, 27]))
    )


PLAY = st.sampled_from([None, None, 0, 0.03, 0.1, 0.26, 1.5])
RULES: SearchStrategy[dict[str, dict[str, Any]]] = st.fixed_dictionaries(
    {
        "cross halving": st.fixed_dictionaries(
            {
                "clearance": PLAY,
                "ratio": st.sampled_from([None, None, 0.051, 0.3, 0.949]),
                "end_clearance": st.sampled_from([None, 0, 40]),
                "glued": st.sampled_from([None, True]),
                "swelling": st.sampled_from([None, None, 0.2]),
            }
        ),
        "housing": st.fixed_dictionaries(
            {
                "clearance": PLAY,
                "depth": st.sampled_from([None, None, 0.5, 2, 2.95, 6, 9.04, 12.04, 20]),
                "stop": st.sampled_from([None, None, "front", "both", "one end"]),
                "raked": st.sampled_from([None, None, "floor square to walls", "shouldered"]),
            }
        ),
        "butt": st.fixed_dictionaries(
            {"fasten": st.sampled_from([None, "screws"]), "dowel": st.sampled_from([None, None, 3, 16])}
        ),
        "notch": st.fixed_dictionaries({"clearance": PLAY, "behind": st.sampled_from([None, 0, 8])}),
        "mitre": st.fixed_dictionaries(
            {
                "strengthen": st.sampled_from([None, "keys", "tongue"]),
                "plunge": st.sampled_from([None, 20, 31.3]),
                "tongue_width": st.sampled_from([None, 13, 19, 30]),
                "tongue_play": PLAY,
            }
        ),
    }
)


def rules(draw: DrawFn) -> str:
    """`[joints]` and options of the kinds."""
    own: dict[str, Any] = draw(RULES)
    kinds = "".join(table(f'[joints."{kind}"]', **options) for kind, options in own.items())
    return (
        table(
            "[joints]",
            end_on_face=draw(st.sampled_from([None, None, "butt"])),
            corner=draw(st.sampled_from([None, None, "butt"])),
            in_line=draw(st.sampled_from([None, "butt"])),
            clearance=draw(PLAY),
        )
        + kinds
        + table("[glue]", kind=draw(st.sampled_from([None, None, "PVA, D2", "Epoxy", "Hide glue", "spit"])))
    )


def near(draw: DrawFn, place: float) -> float:
    """A place, or one beside it by what makes a fault of it."""
    return place + draw(st.sampled_from([0, 0, 0, 12.5, 30, 47.3, 75.2, -1.5, -3]))


@st.composite
def shelving(draw: DrawFn) -> str:
    """Shelves with uprights that cross them or end on them, some too near, stock that may be short."""
    longest = draw(st.sampled_from([None, None, None, 700, 1100]))
    text = head(draw, longest)
    wide = draw(st.sampled_from([900, 1300]))
    levels = [300.0, near(draw, 700.0)]
    for number, y in enumerate(levels, 1):
        ends = draw(st.sampled_from([None, None, "level", "plumb"]))
        text += board(f"shelf {number}", 0, y, wide, y, ends=ends, timber=draw(st.sampled_from("ab")))
    places = [near(draw, 0.0), near(draw, 400.0), near(draw, 440.0 if draw(st.booleans()) else 800.0)]
    for number, x in enumerate(places[: draw(st.integers(1, 3))], 1):
        low = draw(st.sampled_from([0.0, levels[0], 200.0]))
        high = draw(st.sampled_from([levels[1], 1000.0, levels[1] + 2.5]))
        lean = draw(st.sampled_from([0.0, 0.0, 60.0]))
        text += board(f"post {number}", x, low, x + lean, high, timber=draw(st.sampled_from("ab")))
    other = draw(st.sampled_from([None, "post 1", "shelf 2"]))
    if other is not None:
        own = draw(st.sampled_from([{"front": "shelf 1"}, {"front": other}, {"kind": "mitre"}, {"kind": "splice"}]))
        text += table("[[joint]]", between=["shelf 1", other], **own)
    return text + rules(draw)


@st.composite
def nodes(draw: DrawFn) -> str:
    """Three boards at one point, in each of the ways that cannot be made, with a shelf beside them."""
    text = head(draw)
    kind = draw(st.sampled_from(["pass", "end", "angle"]))
    x, y = 500.0, 500.0
    if kind == "pass":
        text += board("a", 0, y, 1000, y) + board("b", x, 0, x, 1000) + board("c", 0, 150, 1000, 850)
    elif kind == "end":
        text += (
            board("a", 0, y, x, y) + board("b", x, 0, x, y) + board("c", x, y, 900, draw(st.sampled_from([900, 500])))
        )
    else:
        text += board("a", 0, y, 1000, y) + board("b", x, 0, x, 1000) + board("c", x, y, 900, 900)
    if draw(st.booleans()):
        beside = draw(st.sampled_from([560, 620, 700]))
        text += board("d", beside, 0, beside, draw(st.sampled_from([500, 1000])), timber="b")
    return text + rules(draw)


@st.composite
def locks(draw: DrawFn) -> str:
    """A grid of two by two whose slots are told how to open, and a frame glued round a divider."""
    text = head(draw)
    if draw(st.booleans()):
        names = ("low", "top"), ("left", "right")
        for name, y in zip(names[0], (300, 700), strict=True):
            text += board(name, 0, y, 1200, y)
        for name, x in zip(names[1], (300, 900), strict=True):
            text += board(name, x, 0, x, 1000)
        for one in names[0]:
            for other in names[1]:
                text += table("[[joint]]", between=[one, other], front=draw(st.sampled_from([one, other])))
        return text + rules(draw)
    points = [[0, 0], [900, 0], [900, 600], [0, 600]]
    text += table("[[frame]]", name="box", timber="a", points=points, size="centre", depth=300)
    text += board("divider", 400, 0, 400, 600) + (board("mid", 0, 300, 900, 300) if draw(st.booleans()) else "")
    if draw(st.booleans()):
        text += table("[[unit]]", name="glued", boards=["box"])
    return text + rules(draw)


@st.composite
def flat(draw: DrawFn) -> str:
    """Two rails on the wall, posts that come over them: too near, too shallow, set forward, leaning, ending on one."""
    text = head(draw, draw(st.sampled_from([None, None, 1000])))
    levels = [300.0, near(draw, draw(st.sampled_from([420.0, 700.0])))]
    for number, y in enumerate(levels, 1):
        back = draw(st.sampled_from([0, 0, 0, 100]))
        keys = {"lies": "flat", "depth": None, "width": draw(st.sampled_from([40, 90])), "back": back}
        text += board(f"rail {number}", 0, y, 1200, y, timber=draw(st.sampled_from("ab")), **keys)
    for number, x in enumerate([near(draw, 200.0), near(draw, 240.0 if draw(st.booleans()) else 900.0)], 1):
        high = levels[1] + draw(st.sampled_from([60.0, 80.0, 300.0, 0.0]))
        lean = draw(st.sampled_from([0.0, 0.0, 60.0]))
        depth = draw(st.sampled_from([260, 260, 80, 49]))
        text += board(f"post {number}", x, 0, x + lean, high, timber=draw(st.sampled_from("ab")), depth=depth)
    return text + rules(draw)


FAMILIES: Mapping[str, Callable[[], SearchStrategy[str]]] = {
    "shelving": shelving,
    "nodes": nodes,
    "locks": locks,
    "flat": flat,
}
