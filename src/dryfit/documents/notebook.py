"""How a job and a book show themselves in a notebook: drawing, findings, boards, and of a book its first sheet.

`dryfit` imports this with `read` and `build`; nothing heavy is loaded before something is shown. What is shown is HTML,
in which every name is text, and the same in plain words for consoles.
"""

from collections.abc import Iterable, Sequence
from typing import Any

from ..book.model import Book
from ..job.model import Job

Bundle = dict[str, str]
FINDINGS = 12  # told one by one; of the rest their number
MARGIN = 40.0  # mm of wall around the piece
LETTER = 48.0  # mm in the piece, high
STYLE = "max-width:100%;height:auto;background:#fff"


def book_shown(book: Book, include: object = None, exclude: object = None) -> Bundle:
    """A book: drawing, findings, parts and its first sheet, as a notebook asks for them by type."""
    from .looks import Desk
    from .svg import svg
    from .workshop import workshop_sheets

    _, sheet = workshop_sheets(book)[0]
    own = svg(sheet, alone=True, style=STYLE)
    return _bundle(book, [_drawing(Desk(book)), _findings(book), _parts(Desk(book)), own])


def job_shown(job: Job, include: object = None, exclude: object = None) -> Bundle:
    """A job: the piece that it comes to, drawn, what was found of it, and its boards."""
    from ..book.building import build
    from .looks import Desk

    book = build(job)
    return _bundle(book, [_drawing(Desk(book)), _findings(book), _parts(Desk(book))])


def _bundle(book: Book, shown: Sequence[str]) -> Bundle:
    from .svg import escape

    title = f"{book.job.title}, state {book.job.state}"
    many = f"{len(book.piece.parts)} boards, {len(book.piece.joints)} joints"
    stops = f"{len(book.stops)} stops, {len(book.findings)} findings, {len(book.not_checked)} not checked"
    says = f"{title}: {many}; {stops}"
    return {"text/html": f"<div><p>{escape(says)}</p>{''.join(shown)}</div>", "text/plain": says}


def _drawing(desk: Any) -> str:
    """What is seen of each board from the room, with its letter, as SVG."""
    from ..geometry.sections import polygons
    from .svg import escape, number

    left, foot, right, head = desk.bounds
    box = (left - MARGIN, -head - MARGIN, right - left + 2 * MARGIN, head - foot + 2 * MARGIN)
    drawn, words = [], []
    for name, area in desk.visible.items():
        rings = [ring for piece in polygons(area) for ring in (piece.exterior, *piece.interiors)]
        path = "".join(f"M{'L'.join(f'{number(x)} {number(-y)}' for x, y in ring.coords)}Z" for ring in rings)
        mark, at = escape(desk.marks[name]), max(polygons(area), key=lambda one: one.area, default=area)
        drawn.append(f'<path d="{path}"><title>{mark} {escape(name)}</title></path>')
        if not at.is_empty:
            point = at.representative_point()
            words.append(f'<text x="{number(point.x)}" y="{number(-point.y + LETTER / 3)}">{mark}</text>')
    style = 'fill="#e8dcc4" fill-rule="evenodd" stroke="#000" stroke-width="2"'
    window = " ".join(map(number, box))
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="{window}" width="640" style="{STYLE}" role="img" '
        f'aria-label="elevation"><g {style}>{"".join(drawn)}</g>'
        f'<g font-size="{LETTER}" text-anchor="middle" fill="#000" stroke="#fff" stroke-width="8" '
        f'paint-order="stroke">{"".join(words)}</g></svg>'
    )


def _findings(book: Book) -> str:
    from ..findings import finding_told
    from .svg import escape

    told = [finding_told(one, book.voice) for one in book.findings[:FINDINGS]]
    lines = [f"<li>{escape(f'{one.severity.value}: {one.says}; {one.remedy}')}</li>" for one in told]
    more = len(book.findings) - len(told)
    lines += [f"<li>and {more} more, in book.findings</li>"] if more else []
    open_ = f"<p>{len(book.not_checked)} questions were not checked: book.not_checked says why.</p>"
    return f"<ul>{''.join(lines)}</ul>{open_ if book.not_checked else ''}"


def _parts(desk: Any) -> str:
    """The boards as they are when finished, in the job's units."""
    from .naming import position, printing_in, thickness

    with printing_in(desk.book.job.units):
        rows = [
            (part.mark, part.id, part.board.timber, position(part.length), position(part.board.depth),
             thickness(part.board.thickest), str(sum(1 for cut in part.cuts if cut.joint or not cut.end)))
            for part in desk.book.piece.parts
        ]  # fmt: skip
    units = desk.book.job.units
    return _table(("", "board", "timber", f"long, {units}", f"wide, {units}", f"thick, {units}", "cuts"), rows)


def _table(heads: Iterable[str], rows: Iterable[Iterable[str]]) -> str:
    from .svg import escape

    def row(cells: Iterable[str], tag: str) -> str:
        return f"<tr>{''.join(f'<{tag}>{escape(cell)}</{tag}>' for cell in cells)}</tr>"

    return f"<table>{row(heads, 'th')}{''.join(row(cells, 'td') for cells in rows)}</table>"


def teach() -> None:
    """Let jobs and books answer a notebook; the rooms that they are from know nothing of how they are shown."""
    for kind, shown in ((Book, book_shown), (Job, job_shown)):
        kind._repr_mimebundle_ = shown  # type: ignore[union-attr]


teach()
