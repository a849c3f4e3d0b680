"""The whole job as the page shows it, and what does not change while the server runs."""

from collections import Counter
from collections.abc import Iterator

from .. import __version__
from ..asking import in_neither
from ..book import job_schema, models
from ..documents.elevation import nothing_drawn
from ..documents.marks import marks
from ..editing import answers
from ..editing.drag import AXES
from ..editing.drawn import Drawn
from ..editing.refusals import mistaken
from ..editing.walling import wall_shown
from ..findings import QUESTIONS
from ..job.arithmetic import ArithmeticMistake, parse
from ..job.edits import sheet_of
from ..job.standing import AXIS_OF
from ..job.tokens import PLACE_WORDS
from ..joints import KINDS, NAMED
from ..piece.made import state_with
from ..sentences import Voice, told
from ..studies import STUDIES
from ..trade.finishes import all_systems
from ..trade.species import all_species
from .notes import decided, notes
from .store.jobfile import for_browser, line_ends
from .store.session import Session
from .worker.slow import Slow


def state_of(session: Session, slow: Slow) -> answers.State:
    """The job as it stands: text, drawing, notes, what undo and redo would do, how far the slow work is."""
    drawn, undo = session.drawn, session.row.undo
    late, old = slow.findings()
    checked, left = looked_at(drawn, slow)
    redo = session.history.row(session.row.redo) if session.row.redo is not None else None
    return answers.State(
        revision=session.revision,
        file=session.file.name,
        text=for_browser(session.text),
        line_ends=line_ends(session.text),
        saved=_saved(session),
        stale=session.stale,
        drawn=session.drawn_at,
        mistakes=mistaken(session.text, session.mistakes),
        job=None if drawn is None else _head(drawn),
        wall=None if drawn is None else wall_shown(drawn),
        drawing=nothing_drawn() if drawn is None else drawn.elevation,
        frames=() if drawn is None else _frames(drawn),
        measures=() if drawn is None else tuple(_measures(drawn)),
        notes=() if drawn is None else notes(session.draughtsman.sure(drawn), late, stale=old),
        checked=checked,
        not_checked=left,
        decisions=() if drawn is None else tuple(decided(one, drawn.voice) for one in drawn.piece.decisions),
        undo=session.row.did if undo is not None else None,
        redo=redo.did if redo is not None else None,
        last=session.row.says,
        rest=slow.stands,
        studies=slow.studies(),
    )


def looked_at(drawn: Drawn | None, slow: Slow) -> tuple[tuple[answers.Question, ...], tuple[answers.LeftOpen, ...]]:
    """What was answered for the drawing shown, and what was not: every question to it, those that wait among them."""
    checked, left = slow.looked_at() or ((drawn.piece.checked, drawn.piece.not_checked) if drawn else ((), ()))
    rest = slow.stands
    waits = rest.stands == "working" and drawn is not None
    why = "it is being worked out" if waits else rest.says or "there is no drawing yet"
    unsaid = QUESTIONS if drawn is None else in_neither(drawn.piece, checked, left)
    waiting = (answers.LeftOpen(study=name, what=QUESTIONS[name], why=why, waits=waits) for name in unsaid)
    voice = drawn.voice if drawn else Voice()
    left_open = (
        answers.LeftOpen(
            study=one.study,
            what=told(one.what, voice),
            why=told(one.why, voice),
            boards=tuple(drawn.members(one.where.boards)) if drawn else one.where.boards,
        )
        for one in left
    )
    return tuple(answers.Question(study=name, asks=QUESTIONS[name]) for name in checked), (*left_open, *waiting)


def _saved(session: Session) -> answers.Saved:
    word = session.journal.wait_word()
    says = session.trouble or word or session.file.network_word()
    state = session.drawn.job.state if session.drawn and not session.stale else session.row.hash[:8]
    state = state_with(state, session.draughtsman.made)
    return answers.Saved(at=session.row.at, state=state, writable=not word, says=says)


def _head(drawn: Drawn) -> answers.JobHead:
    job = drawn.job
    return answers.JobHead(title=job.title, client=job.client, date=job.date, units=job.units)


def _frames(drawn: Drawn) -> tuple[answers.FrameShown, ...]:
    return tuple(
        answers.FrameShown(
            name=frame.name, boards=frame.boards, points=frame.points, closed=frame.closed, path=frame.path
        )
        for frame in drawn.job.frames
    )


def _measures(drawn: Drawn) -> Iterator[answers.Measure]:
    sheet = sheet_of(drawn.text)
    uses = Counter(name for _, text, role in models().texts(sheet.data) if role == "length" for name in _names(text))
    for name, value in drawn.job.measures.items():
        yield answers.Measure(
            name=name,
            written=sheet.spans.written(("measures", name)),
            value=round(value, 6) + 0.0,
            users=uses[name],
        )


def _names(text: str) -> tuple[str, ...]:
    try:
        return parse(text).names
    except ArithmeticMistake:
        return ()


def schema_of_job() -> answers.Schema:
    """The job file's schema, the joint kinds with their options, the trade's words, the joint marks."""
    return answers.Schema(
        version=__version__,
        job_file=job_schema(),
        kinds={name: kind.options.model_json_schema() for name, kind in KINDS.items()},
        levers={
            name: {lever.__name__: lever.model_json_schema() for lever in study.levers}
            for name, study in STUDIES.items()
            if study.levers
        },
        named=tuple(name for name in NAMED if name not in KINDS),
        species=tuple(species.name for species in all_species()),
        finishes=tuple(system.name for system in all_systems()),
        places={word: AXES[AXIS_OF[word]] if word in AXIS_OF else "" for word in PLACE_WORDS},
        marks=tuple(
            answers.Mark(
                word=word,
                lines=glyph.lines,
                solid=glyph.solid,
                heavy=glyph.heavy,
                rings=glyph.rings,
                discs=glyph.discs,
                size=glyph.size,
                ground=glyph.ground,
            )
            for word, glyph in marks().items()
        ),
    )
