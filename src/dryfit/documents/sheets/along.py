"""What goes along to the site: hardware, bits, what the wall and the finish ask for, and what of it is not known yet.

Only what follows from the piece stands here. Level, straightedge and detector are there because the sheet of the
fixings asks for them; driver and wall bits by its screws; shims where the wall is hollow; finish by when it is coated.
"""

from collections.abc import Iterable, Iterator
from itertools import chain as joined

from ...piece.history import Stage
from ...piece.model import WALL
from ...places import Pair
from ...sentences import told
from ...studies.buying.result import Buying, Supply
from ...studies.carrying.result import Carrying
from ...studies.coating.result import Coating
from ..display import Draft
from ..lettering import printable
from ..looks import Desk
from ..naming import plural, position, ware_size
from ..pages import listed, page_of
from ..sheet import sheet
from .fixings.chain import Chain, chains, points
from .order.supplies import used_for
from .page.frame import BARS
from .page.prose import WordRun, strong
from .page.sheaf import Sheaf
from .page.table import Cell, Row, bold

TITLE = "what goes along"
HEADS = ("", "thing", "size", "for", "take")
CARRIED = "what is carried, and by how many"  # as the sheet of carrying has it


@sheet("along", paper="hanging", order=10)
def along(desk: Desk) -> Iterator[Draft]:
    """One list; none where nothing is known to go along."""
    chained = [chain for chain, _ in chains(points(desk))]
    rows = [
        ("hardware", list(_hardware(desk))),
        ("tools", [_row(*words) for words in dict.fromkeys(_tools(chained))]),
        ("at the wall, and for touching up", [_row(*words) for words in (*_shims(desk, chained), *_finish(desk))]),
    ]
    unknown = list(_unknown(desk, chained))
    if not any(some for _, some in rows):
        return
    sheaf = Sheaf(desk, letter=BARS, title=TITLE, says=(), kind="going along", number="V")
    carried = desk.book.found(Carrying)
    if carried is not None:
        loads = plural(len(carried.bodies), "load")
        sheaf.paragraphs("", [[strong(f"{loads}:"), WordRun(f"ticked off on page {page_of(listed(CARRIED))}.")]])
    for title, some in rows:
        if some:
            sheaf.table(title, HEADS, some)
    if unknown:
        sheaf.paragraphs("not known yet", [[WordRun(text)] for text in unknown])
    yield from sheaf.drafts()


def _row(thing: str, size: str, what_for: str, take: str = "") -> Row:
    return (
        Cell(tick=True),
        bold(printable(thing)),
        Cell(text=printable(size)),
        Cell(text=printable(what_for)),
        Cell(text=printable(take)),
    )


# --- hardware -------------------------------------------------------------------------------------------


def _hardware(desk: Desk) -> Iterator[Row]:
    """What is put in on the site, with its spares; of what the shop takes a part of, that only some of it goes."""
    found = desk.book.found(Buying)
    for one in () if found is None else found.hardware:
        there = [key for key in one.joints if _on_site(desk, key)]
        if there:
            take = str(one.take) if len(there) == len(one.joints) else f"what is left of {one.take}"
            made = ", made in the shop" if one.strip else ""
            yield _row(one.name, f"{_size(desk, one)}{made}", used_for(desk, one), take)


def _size(desk: Desk, one: Supply) -> str:
    return ", ".join(filter(None, (ware_size(one), told(one.asks, desk.book.voice))))


def _on_site(desk: Desk, key: Pair) -> bool:
    """Whether a joint is closed where the piece will stand."""
    contact = desk.book.piece.history.contacts.get(key)
    return WALL in key or (contact is not None and contact.stage is Stage.PUT_IN)


# --- tools ----------------------------------------------------------------------------------------------


def _tools(chained: Iterable[Chain]) -> Iterator[tuple[str, str, str]]:
    """What the screws into the wall ask for."""
    for chain in chained:
        plan = chain.plan
        if plan.deep:
            least = f"over {position(plan.reach)} long"
            yield "driver bit", least if plan.driver is None else f"{position(plan.driver)} long", chain.screw.name
        yield from _wall_bit(chain)
        yield "detector for cables and pipes", "", "before each hole"
        yield "level or line, straightedge, tape", "", "marking"


def _wall_bit(chain: Chain) -> Iterator[tuple[str, str, str]]:
    anchor = chain.plan.anchor
    if chain.pilot is not None:
        yield "pilot bit", position(chain.pilot), "studs"
    elif anchor is not None and anchor.drill:
        deep = f", {position(anchor.deep)} deep" if anchor.deep else ""
        yield "bit for the wall", f"{position(anchor.drill)}{deep}", chain.anchor


# --- the wall and the finish ------------------------------------------------------------------------------


def _shims(desk: Desk, chained: list[Chain]) -> Iterator[tuple[str, str, str, str]]:
    hollow = desk.book.job.wall.hollow
    if chained and hollow:
        yield "shims", f"up to {position(hollow)} in all", "hollows of the wall", ""


def _finish(desk: Desk) -> Iterator[tuple[str, str, str, str]]:
    coating = desk.book.found(Coating)
    if coating is None or not coating.stages:
        return
    later = [stage for stage in coating.stages if stage.when == "on site"]
    for stage in later:
        litres = "" if stage.litres is None else f"{stage.litres:.2f} l"
        yield coating.system or "finish", plural(stage.coats, "coat"), "what is coated on site", litres
    if len(later) < len(coating.stages):
        yield coating.system or "finish", "", "touching up plugs and arrises", "a little"


# --- what is not known ------------------------------------------------------------------------------------


def _unknown(desk: Desk, chained: list[Chain]) -> Iterator[str]:
    """What would have to be known to say more, and where it is written."""
    wall, piece = desk.book.job.wall, desk.book.piece
    if any(chain.plan.lining is None for chain in chained):
        yield "How thick the lining is (lining in [wall]): the screws may be too short. Take longer ones too."
    if chained and wall.hollow is None:
        yield "How hollow the wall is (hollow in [wall]): no shims are reckoned with."
    if any(chain.anchored and (chain.plan.anchor is None or not chain.plan.anchor.drill) for chain in chained):
        yield "Which bit the anchors ask for: their maker's sheet has it."
    if any(not chain.plan.into for chain in chained):
        yield "What the wall is made of (kind in [wall])."
    lives = piece.history.lives.values()
    finish = desk.book.job.finish
    if not (finish.system or finish.coats):
        yield "With what it is finished ([finish]): nothing is listed for touching up."
    elif any(life.when is None for life in lives):
        yield "When its boards are coated (when in [finish]): whether finish goes along for more than touching up."
    glued = [met.key for met in piece.history.contacts.values() if met.glued and met.stage is Stage.PUT_IN]
    if glued:
        names = ", ".join(dict.fromkeys(joined.from_iterable(glued)))
        yield printable(f"Glue is needed on the site, for {names}: how much is not worked out.")
