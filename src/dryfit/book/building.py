"""The pipeline from a job to its book; everything worked out on the way is kept for the next time.

A `Bench` holds what may be kept between edits. Building on the same bench after an edit gives the same
book as building anew, bit for bit; it only takes less work.
"""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import replace
from itertools import combinations
from types import MappingProxyType
from typing import Any

from ..asking import Answers, in_neither, put_to, unanswered
from ..findings import Finding, NotChecked, Severity, in_order
from ..job.model import Job
from ..joints import KINDS
from ..keeping import Keep, no_search_for_rings
from ..piece import choose, nodes
from ..piece.building import build_piece
from ..piece.clash import PARTS_OVERLAP, clashes
from ..piece.cut_findings import MOST_EASED, OF_A_PAIR
from ..piece.kinds import Kinds
from ..piece.made import state_with
from ..piece.members import finding_in_the_file
from ..piece.model import Part, Piece
from ..piece.movable import Movable, in_their_lines
from ..piece.setout import NOTHING_MADE, Made
from ..piece.solids import Solids
from ..places import Pair
from ..shop.model import Shop
from ..studies import STUDIES
from ..studies.measures.result import Measures
from ..study.base import Pace, Scene, Work
from ..study.outcome import StudyNow
from ..study.runner import Ran, Results, run
from .curing import CureTrial, StudiedTrial
from .finishing import FINISH, film_in_glue, finish_without_figures
from .model import Book

UNMADE = choose.UNMADE | nodes.UNMADE


class Kept:
    """What is kept between two builds.

    Attributes:
        keep: meetings, options, joints, parts, solids, clashes.
        results: of studies.
    """

    def __init__(self) -> None:
        self.keep = Keep()
        self.results = Results()


@no_search_for_rings()
def piece_of(job: Job, shop: Shop | None = None, made: Made | None = None, bench: Kept | None = None) -> Piece:
    """The piece with all findings that need no solids: what a drag step shows."""
    bench = bench if bench is not None else Kept()
    return build_piece(job, Kinds(KINDS), shop or Shop(), made or NOTHING_MADE, bench.keep)


def set_out_findings(
    job: Job, shop: Shop | None = None, made: Made | None = None, bench: Kept | None = None
) -> tuple[Finding, ...]:
    """What is found without any study: by setting out, and where solids overlap."""
    bench = bench if bench is not None else Kept()
    piece = piece_of(job, shop, made, bench)
    return (*piece.findings, *overlaps(piece, bench).findings)


def overlaps(piece: Piece, bench: Kept, solids: Solids | None = None) -> Answers:
    """What is said of overlaps; of a fault in that check, that it was not answered."""
    said = Answers()
    at = solids if solids is not None else Solids(bench.keep)
    said.put(PARTS_OVERLAP, lambda: _overlaps(piece, bench, at), guards=True)
    return said


def _overlaps(piece: Piece, bench: Kept, solids: Solids) -> tuple[Finding, ...]:
    """Where the solids of a piece take up the same space and nothing else says so.

    What is only spoken of (by the maker's word on a cut, by the play that is left) is what a slot can be eased by:
    where it would then be wider than any joint may be, it holds nothing, and the overlap is told all the same.
    """
    joined = frozenset(joint.key for joint in piece.joints)
    known, spoken = _unmade(piece, joined) | frozenset(map(frozenset, piece.to_suit)), _spoken_of(piece)
    found = clashes(piece.parts, solids, joined, bench.keep, known, _cut(piece))
    movable = Movable(piece.board_by_name)
    return tuple(
        in_their_lines(one, movable)
        for one in found
        if frozenset(one.where.boards) not in spoken or (one.found or 0.0) > MOST_EASED
    )


@no_search_for_rings()
def build(
    job: Job,
    shop: Shop | None = None,
    made: Made | None = None,
    *,
    bench: Kept | None = None,
    paces: Iterable[Pace] = (Pace.REST,),
    work: Work | None = None,
    told: Callable[[StudyNow], None] | None = None,
    revision: int = 0,
) -> Book:
    """Work out the whole book of a job.

    Args:
        job: as read; a design fault in it is a finding of the book, never an error.
        shop: what the maker owns; the default shop if left out.
        made: what is cut, measured and pinned already.
        bench: what may be kept from an earlier build; the book is the same with and without.
        paces: which studies to run.
        work: reports progress, and calls the work off.
        told: hears of each study; see `runner.run`.
        revision: of the text, for who is told.
    """
    results = None if bench is None else bench.results
    bench = bench if bench is not None else Kept()
    shop = shop or Shop()
    piece = piece_of(job, shop, made, bench)
    solids = Solids(bench.keep)
    said = overlaps(piece, bench, solids)
    known = (*piece.findings, *said.findings)
    _put_finish(said, job, piece)
    scene = scene_of(job, shop, piece, solids)
    ran = run(STUDIES, scene, results, paces=paces, work=work, told=told, revision=revision)
    measures = next((found for found in ran.results.values() if isinstance(found, Measures)), None)
    masses: Mapping[str, float] = dict(measures.mass_kg) if measures is not None else {}
    trial = CureTrial(job, known, lambda changed: set_out_findings(changed, shop, made, bench))
    later = (*said.findings, *ran.findings)
    untried = {code for study in STUDIES.values() for code in study.untried}
    by_studies = StudiedTrial(
        job, (*piece.findings, *later), lambda changed: _worked_out(changed, shop, made, bench, work), untried
    )
    found = in_order([*piece.findings, *(_in_the_file(found, job, piece) for found in later)])
    checked, open_ones = put_to(
        piece,
        (*piece.checked, *said.checked, *ran.checked),
        (*piece.not_checked, *said.not_checked, *ran.not_checked),
    )
    nobody = (unanswered(name, "no check answered it") for name in in_neither(piece, checked, open_ones))
    return Book(
        job=job if made is None else replace(job, state=state_with(job.state, made)),
        shop=shop,
        piece=piece,
        outcomes=MappingProxyType(dict(ran.outcomes)),
        findings=by_studies.sure(trial.sure(found)),
        solids=solids,
        mass_kg=MappingProxyType(masses),
        checked=checked,
        not_checked=(*open_ones, *nobody),
    )


def _put_finish(said: Answers, job: Job, piece: Piece) -> None:
    said.put(FINISH, lambda: [*finish_without_figures(job.finish, piece), *film_in_glue(piece)])


def _worked_out(
    job: Job, shop: Shop, made: Made | None, bench: Kept, work: Work | None
) -> tuple[Finding | NotChecked, ...]:
    """All that may stop a changed job: of setting out, solids and the studies that guard, or what these leave open.

    Work that is called off meanwhile leaves its study open, so that nothing is offered for it.
    """
    piece = piece_of(job, shop, made, bench)
    solids = Solids(bench.keep)
    said = overlaps(piece, bench, solids)
    _put_finish(said, job, piece)
    guards = [name for name, study in STUDIES.items() if study.guards]
    ran = run(STUDIES, scene_of(job, shop, piece, solids), bench.results, paces=(), asked=guards, work=work)
    return *piece.findings, *said.findings, *ran.findings, *ran.not_checked


@no_search_for_rings()
def what_if(
    job: Job,
    study: str,
    levers: Mapping[type[Any], Any],
    shop: Shop | None = None,
    made: Made | None = None,
    *,
    bench: Kept | None = None,
    work: Work | None = None,
) -> Ran:
    """What one study would find with its levers moved; no book and no paper is made of it.

    Args:
        job: as read.
        study: its name.
        levers: as they are moved, lengths in mm, by their class.
        shop: what the maker owns.
        made: what is cut, measured and pinned already.
        bench: what may be kept from before.
        work: reports progress, and calls the work off.
    """
    bench = bench if bench is not None else Kept()
    shop = shop or Shop()
    scene = scene_of(job, shop, piece_of(job, shop, made, bench), Solids(bench.keep))
    return run(STUDIES, replace(scene, levers=levers), bench.results, paces=(), asked=(study,), work=work)


def _in_the_file(finding: Finding, job: Job, piece: Piece) -> Finding:
    """A finding in the job's units, its cures in the job file's names."""
    return finding_in_the_file(finding, piece.whole)


def _unmade(piece: Piece, joined: frozenset[Pair]) -> frozenset[frozenset[str]]:
    """Pairs of boards that a stop says no joint was made for: that they overlap is no news."""
    return frozenset(
        frozenset(pair)
        for finding in piece.findings
        if finding.severity is Severity.STOP and finding.code in UNMADE
        for pair in combinations(finding.where.boards, 2)
        if pair not in joined and pair[::-1] not in joined
    )


def _spoken_of(piece: Piece) -> frozenset[frozenset[str]]:
    """Pairs of which it is said what is missing as they are cut, and that it is no stop."""
    return frozenset(
        frozenset(finding.where.boards)
        for finding in piece.findings
        if finding.code in OF_A_PAIR and finding.severity is not Severity.STOP
    )


def _cut(piece: Piece) -> frozenset[frozenset[str]]:
    """Pairs in whose joint something is cut."""
    return frozenset(frozenset(joint.key) for joint in piece.joints if any(cut.made for cut in joint.cuts))


def scene_of(job: Job, shop: Shop, piece: Piece, solids: Solids) -> Scene:
    """What studies may look at."""

    def part(name: str) -> Part:
        return piece.part_by_name[name]

    return Scene(
        job=piece.job or job,
        shop=shop,
        piece=piece,
        kinds=KINDS,
        volume_mm3=lambda name: solids.volume(part(name)),
        surface_mm2=lambda name: solids.surface(part(name)),
        centroid=lambda name: solids.centroid(part(name)),
    )
