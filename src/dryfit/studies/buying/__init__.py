"""Buying: what to order for the piece, and what to have at hand before the first cut.

What it works out   Of each timber the pieces to order, with what is left at ends and edges, which edges show, how many
                    a panel gives; trial pieces for each set-up; hardware with spares, and the strips of what is made in
                    the shop; finish, abrasives and masking tape.
Assumes             The grain runs along every board. What the shop file leaves out is common practice, and said so.
                    A finish goes on all that no joint hides; what it covers is the job's figure, else the trade's.
Source              Beside each figure, in `trade/data` and in the files of this room.

Glue has a plan of its own (the study `glue_up`), and tools that are lacking stand with the set-ups.
"""

import math
from collections.abc import Iterable, Iterator

from ...findings import Finding, NotChecked, Severity, declare
from ...job.model import Timber
from ...lengths import MM2_PER_M2, MM_PER, LengthUnit
from ...piece.kinds import Kinds
from ...piece.model import Joint, Part, Piece, Side, Touch
from ...piece.operations import Dial
from ...places import Cure, Edit, Plain, Where
from ...sentences import Length, Name, Several, Voice, Words, say, told
from ...shop.model import PRACTICE, Shop
from ...shop.tools import COMMON_SAW
from ...study.base import Pace, Scene, Study, Work
from ...study.registry import register
from ...trade.finishes import figure, find_system
from ...trade.sanding import goes_into_wood
from ...trade.species import density, find_species
from ...trade.stock import is_nominal, stock_of
from ..measures.result import Measures
from ..setups.result import SetUp, SetUps
from .result import Buying, TimberOrder
from .seen import shows_of
from .supplies import finish_to_buy, supplies
from .timber import orders
from .trials import trials
from .value import BuyingValue, FinishValue, MaskValue, PartValue, SetUpValue, TimberValue, WareValue

TOO_THIN = declare(
    "stock-too-thin",
    "A timber is sold thinner than its boards must be when they come.",
    uncured="which thicknesses can be had is known to your supplier, not to the job",
)
TOO_NARROW = declare(
    "panel-too-narrow",
    "A board is wider than the panel that it is to be cut from.",
    uncured="which panels can be bought is known to the shop, not to the job",
)

SHOP_FILE = "the shop file"
IN_QUARTERS = 4  # of an inch: steps in which sawn stock is sold there (common practice)
OFF = 1.0  # what a panel may be thinner than its nominal thickness (EN 13353, from memory)


@register
class BuyingStudy(Study[BuyingValue, Buying]):
    """What to order."""

    name = "buying"
    asks = "what to order"
    codes = (TOO_THIN, TOO_NARROW)
    result = Buying
    needs = (Measures, SetUps)
    pace = Pace.REST

    def concerns(self, piece: Piece) -> bool:
        """A piece without parts asks for nothing."""
        return bool(piece.parts)

    def reads(self, scene: Scene) -> BuyingValue:
        """Copy blanks, timbers, set-ups, hardware and finish."""
        shop, piece = scene.shop, scene.piece
        joints = {joint.key: joint for joint in piece.joints}
        used = {part.board.timber for part in piece.parts}
        return BuyingValue(
            units=scene.job.units,
            trim=shop.trim,
            trim_from=_from(shop, "trim"),
            edge=shop.trim_edge,
            edge_from=_from(shop, "trim_edge"),
            spare_boards=shop.spare_boards,
            kerf=(shop.saws[0] if shop.saws else COMMON_SAW).kerf,
            parts=tuple(_part(scene, part, joints) for part in piece.parts),
            timbers=tuple(_timber(timber) for name, timber in scene.job.timbers.items() if name in used),
            setups=tuple(_setup(one, piece) for one in scene.earlier(SetUps).all),
            wares=tuple(_wares(piece.joints, scene)),
            finish=_finish(scene),
        )

    def run(self, value: BuyingValue, work: Work) -> Buying:
        """Put like pieces together and add up."""
        tried = tuple(trials(value.setups, value.parts, value.units))
        return Buying(
            timber=tuple(orders(value, tried)),
            trim=value.trim,
            trim_from=value.trim_from,
            edge_from=value.edge_from,
            trials=tried,
            hardware=tuple(supplies(value.wares, value.kerf)),
            finish=None if value.finish is None else finish_to_buy(value.finish),
        )

    def findings(self, value: BuyingValue, result: Buying) -> tuple[Finding, ...]:
        """Stock that cannot give what is to be cut from it."""
        return (*_too_thin(result.timber, value.units), *_too_narrow(result.timber))

    def not_checked(self, value: BuyingValue, result: Buying) -> tuple[NotChecked, ...]:
        """The nominal thickness of what has none."""
        return tuple(
            NotChecked(
                study=self.name,
                what=say("what thickness {} is sold by", Name(order.timber)),
                why=say("the job gives no nominal thickness that planes to {}", Length(order.planed_to[1]))
                if order.planing
                else say("{} is not a thickness that is sold, and the job gives no nominal one", Length(order.least)),
                where=Where(path=("timber", order.timber, "nominal")),
            )
            for order in result.timber
            if order.sold is None
        )


# --- what is read --------------------------------------------------------------------------------


def _from(shop: Shop, key: str) -> Words:
    return PRACTICE[key] if key in shop.assumed else SHOP_FILE


def _part(scene: Scene, part: Part, joints: dict[tuple[str, str], Joint]) -> PartValue:
    board, blank = part.board, part.blank
    sizes = [thick for _, thick in board.profile]
    return PartValue(
        name=part.id,
        timber=board.timber,
        blank=(blank.length, blank.width, blank.thickness),
        finished=(part.length, board.depth),
        thickness=(min(sizes), max(sizes)),
        shows=shows_of(part, joints, scene.job.wall, fixed=scene.piece.is_fixed),
    )


def _timber(timber: Timber) -> TimberValue:
    stock, known = stock_of(timber.form, timber.species), find_species(timber.species).found
    heavy = None if known is None else density(known, timber.thickness)
    sold = timber.nominal
    if sold is None and not timber.planing and is_nominal(timber.thickness):
        sold = timber.thickness
    waste = stock.waste
    return TimberValue(
        name=timber.name,
        species=timber.species,
        form=timber.form,
        stock=stock.name,
        sold_as=stock.form,
        sold=sold,
        measured=timber.measured is not None,
        planing=timber.planing,
        panel=timber.panel,
        longest=timber.longest,
        kg_m3=None if heavy is None else heavy.value,
        waste=None if waste is None else (waste.low or waste.value, waste.high or waste.value),
        waste_from="" if waste is None else waste.cited,
    )


def _setup(one: SetUp, piece: Piece) -> SetUpValue:
    boards = {cut.key: part.id for part in piece.parts for cut in part.cuts}
    wide, lean = one.set_to(Dial.WIDTH), one.set_to(Dial.LEAN)
    return SetUpValue(
        name=one.name,
        work=one.work,
        across=0.0 if wide is None or wide.mm is None else wide.mm,
        lean=0.0 if lean is None or lean.degrees is None else lean.degrees,
        cuts=one.cuts,
        parts=tuple(dict.fromkeys(boards[key] for key in one.cuts)),
    )


def _wares(joints: Iterable[Joint], scene: Scene) -> Iterator[WareValue]:
    voice, kinds = Voice(scene.job.units), Kinds(scene.kinds)
    for joint in joints:
        for ware in kinds[joint.kind].hardware(joint):
            yield WareValue(
                name=ware.name,
                says=ware.says,
                asks=ware.asks,
                printed=f"{told(ware.says, voice)} {told(ware.asks, voice)}",
                in_mm=ware.in_mm,
                joint=joint.key,
                count=ware.count,
                strip=ware.strip,
                diameter=ware.diameter,
            )


def _finish(scene: Scene) -> FinishValue | None:
    """The finish and where it is masked; None where the job has none."""
    finish, measures = scene.job.finish, scene.earlier(Measures)
    if not finish.system and not finish.coats:
        return None
    system = find_system(finish.system).found if finish.system else None
    known = None if system is None else figure(system, "spread")
    covers, whose = finish.coverage, "the job file"
    if covers is None and known is not None:
        covers, whose = known.value, known.cited
    return FinishValue(
        system=finish.system,
        coats=finish.coats,
        m2=measures.finished_m2 - _uncoated(scene),
        off_m2=measures.hidden_m2,
        covers=covers,
        covers_from="" if covers is None else whose,
        into_wood=goes_into_wood(finish.system),
        masks=tuple(_masks(scene)),
    )


def _uncoated(scene: Scene) -> float:
    """What is open, in m2, of boards that no finish goes on."""
    bare = {name for name, life in scene.piece.history.lives.items() if life.when == "none"}
    hidden = [area for joint in scene.piece.joints for name, area in joint.hidden_mm2 if name in bare]
    return (math.fsum(scene.surface_mm2(name) for name in bare) - math.fsum(hidden)) / MM2_PER_M2 if bare else 0.0


def _masks(scene: Scene) -> Iterator[MaskValue]:
    """Where boards that are coated before they meet others are masked."""
    contacts = scene.piece.history.contacts
    for joint in scene.piece.joints:
        met = contacts.get(joint.key)
        for side in (joint.meeting.a, joint.meeting.b) if met is not None else ():
            other = joint.meeting.other(side.body)
            if met is not None and met.of(side.body).state == "masked":
                back, front = joint.meeting.overlap
                strips, wide = _strips(side, other)
                yield MaskValue(board=side.body, strips=strips, long=max(front - back, 0.0), wide=wide)


def _strips(side: Side, other: Side) -> tuple[int, float]:
    """How many strips of tape lie across a board in a joint, and how wide what they cover is."""
    match side.touch, other.touch:
        case Touch.END, Touch.END:
            return 1, side.thickest * math.sqrt(2.0)  # the face of the mitre
        case Touch.FACE, _:
            return 1, other.thickest
        case Touch.END, _:
            return 2, 0.0  # a narrow one on either face, beside the end
    return 2, other.thickest


# --- what is found -------------------------------------------------------------------------------


def _bought_thicker(order: TimberOrder, least: float, units: LengthUnit) -> Cure:
    """The next thickness that stock may be sold by, which is enough: whether it can be had the supplier knows."""
    step = MM_PER["in"] / IN_QUARTERS if units == "in" else 1.0
    thick = math.ceil(least / step - 1e-6) * step
    written: Plain = round(thick / MM_PER[units], 6)
    edit = Edit(action="set", path=("timber", order.timber, "nominal"), value=written)
    return Cure(label=say("order {} {} thick, if it is to be had", Name(order.timber), Length(thick)), edits=(edit,))


def _too_thin(timber: Iterable[TimberOrder], units: LengthUnit) -> Iterator[Finding]:
    """What is sold too thin: sawn, to be planed; or planed, by more than it may be off."""
    for order in timber:
        least = order.least - (0.0 if order.planing else OFF)
        if order.sold is not None and order.sold < least - 1e-6:
            planed = say(" and planed to {}", Length(order.planed_to[1])) if order.planing else ""
            yield Finding(
                code=TOO_THIN,
                severity=Severity.WARN,
                where=Where(path=("timber", order.timber, "nominal")),
                says=say(
                    "{} is sold {} thick and must be {} when it comes{}",
                    Name(order.timber), Length(order.sold), Length(order.least), planed,
                ),
                remedy="order the next thickness, and say it under nominal; or plane less off, under planing",
                found=order.sold,
                limit=least,
                unit="mm",
                source="the job file" if order.planing else "EN 13353, from memory: a panel may be 1 under its name",
                cures=(_bought_thicker(order, least, units),),
            )  # fmt: skip


def _too_narrow(timber: Iterable[TimberOrder]) -> Iterator[Finding]:
    for order in timber:
        wide = [lot for lot in order.lots if order.panel is not None and lot.width > order.panel[1] + 1e-6]
        boards = tuple(name for lot in wide for name in lot.boards)
        if order.panel is not None and boards:
            most = max(lot.width for lot in wide)
            yield Finding(
                code=TOO_NARROW,
                severity=Severity.WARN,
                where=Where(boards=boards, path=("timber", order.timber, "panel")),
                says=say(
                    "{} cannot come out of a panel {} wide: {} is to be ordered",
                    Several(tuple(map(Name, boards))), Length(order.panel[1]), Length(most),
                ),
                remedy="use a wider panel, have panels glued up, or make the boards narrower",
                found=order.panel[1],
                limit=most,
                unit="mm",
                source="the job file",
            )  # fmt: skip
