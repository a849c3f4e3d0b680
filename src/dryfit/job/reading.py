"""Reading a job file: from its text to a `Job`, or to every mistake in it at once.

    job = read_text(text, "wall.toml", kinds={"housing": HousingOptions}, named=("splice",))

Joint kinds and the tables of studies come in from outside, so nothing here knows one of them.
"""

import errno
import hashlib
import os
import stat
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import replace
from pathlib import Path as FilePath
from typing import Any

from pydantic import BaseModel

from ..errors import JobError, Mistake
from ..places import Path
from ..sentences import plural
from .anchors import read_anchors
from .arithmetic import ArithmeticMistake
from .boards import Ground, read_boards
from .frames import read_frames
from .kinds import KindOptions
from .measures import read_measures
from .mistakes import Mistakes
from .model import BoardSpec, Finish, FrameSpec, Job, Timber, Wall
from .names import shown
from .options import worked_out
from .references import BoardNames, read_fixings, read_joint_specs, read_loads, read_units
from .relations import Relations
from .schema import (
    CORE,
    LEAST_SIZE,
    LONGEST_TIMBER,
    MANY,
    NAMED_TABLES,
    AnchorTable,
    FinishTable,
    JobTable,
    TableModel,
    TimberTable,
    WallTable,
)
from .sizes import Sizes
from .staging import EVERY, said_twice, staged
from .syntax import LARGEST, read_syntax
from .tables import Many, Owned

PLANING = 3.0  # off each face and edge, sawn to planed (common practice: 3 to 6 of thickness, 5 to 10 of width)
MOST_TABLES = 10_000  # of one kind: five times as many joints as there may be boards

FilmOf = Callable[[str], float | None]


def read_file(
    path: str | FilePath,
    *,
    kinds: Mapping[str, type[BaseModel]],
    named: Iterable[str] = (),
    tables: Iterable[Owned] = (),
    film_of: FilmOf | None = None,
) -> Job:
    """Read a job file from disk; see `read_text`."""
    name = str(path)
    try:
        data = file_bytes(path)
    except OSError as error:
        raise JobError((not_opened(name, "cannot be opened", error),)) from None
    return read_text(decoded(data, name), name, kinds=kinds, named=named, tables=tables, film_of=film_of)


def file_bytes(path: str | FilePath) -> bytes:
    """What stands in a file, cut off where it is seen to be too large.

    Raises:
        OSError: it cannot be opened, or is no file: a pipe would be waited for, and a device has no end.
    """
    kind = os.stat(path).st_mode
    if not (stat.S_ISREG(kind) or stat.S_ISDIR(kind)):  # a folder is told apart by `open`
        raise OSError(errno.EINVAL, "it is a pipe or a device")
    with FilePath(path).open("rb") as file:
        return file.read(LARGEST + 2)


def not_opened(name: str, says: str, error: OSError) -> Mistake:
    """Why a file cannot be opened, and what to do about it."""
    remedy = "check its name"
    if isinstance(error, PermissionError):
        remedy = "change its permissions so that you can read it"
    elif isinstance(error, IsADirectoryError):
        remedy = "name a file in it"
    elif error.errno == errno.EINVAL:
        remedy = "name a file"
    reason = (error.strerror or "it cannot be read").lower()
    return Mistake(file=name, line=0, says=f"{says}: {reason}", remedy=remedy)


def decoded(data: bytes, name: str) -> str:
    """A file's text.

    Raises:
        JobError: it is not UTF-8.
    """
    try:
        return data[: LARGEST + 1].decode("utf-8") if len(data) <= LARGEST else data.decode("utf-8", "replace")
    except UnicodeDecodeError as error:
        line = data.count(b"\n", 0, error.start) + 1
        says = "the file is not saved as UTF-8 text"
        mistake = Mistake(file=name, line=line, says=says, remedy="save it as UTF-8 in your editor")
        raise JobError((mistake,)) from None


def read_text(
    text: str,
    file: str,
    *,
    kinds: Mapping[str, type[BaseModel]],
    named: Iterable[str] = (),
    tables: Iterable[Owned] = (),
    film_of: FilmOf | None = None,
) -> Job:
    """Read a job.

    Args:
        text: of the file, as it is.
        file: its name, for messages.
        kinds: options of the joint kinds that are made, by name.
        named: kinds that may be named though they are not made yet; their options are not looked at.
        tables: tables that studies own.
        film_of: dry film of one coat of a finish on one face, None where it is not known.

    Raises:
        JobError: the text cannot be used; all its mistakes are in it.
    """
    syntax = read_syntax(text, file)
    reader = _Reader(syntax.data, Mistakes(file, syntax.text, syntax.lost), KindOptions(kinds, named), tables)
    job = reader.job(text, film_of)
    mistakes = sorted((*syntax.mistakes, *reader.mistakes.sorted()), key=lambda mistake: mistake.line)
    if mistakes or job is None:
        raise JobError(tuple(mistakes))
    return job


class _Reader:
    def __init__(self, data: dict[str, Any], mistakes: Mistakes, kinds: KindOptions, tables: Iterable[Owned]) -> None:
        self.data = data
        self.mistakes = mistakes
        self.kinds = kinds
        self.tables = {table.word: table for table in tables}
        self.before_assembly: list[str] = []

    def job(self, text: str, film_of: FilmOf | None) -> Job | None:
        """The whole job; None where mistakes leave none."""
        self.unknown_tables()
        head = self.single("job", JobTable)
        self.mistakes.units = head.units
        measures = read_measures(self.table("measures"), self.mistakes)
        timbers, known = self.timbers(measures)
        finish = self.finish(measures, film_of)
        self.sanded_through(finish.sanded, timbers)
        ground = Ground(self.mistakes, measures, timbers, known, sanded=finish.sanded)
        boards, frames = self.boards(ground)
        names = BoardNames.of(boards, frames, self.mistakes)
        rules = self.kinds.rules(self.table("joints"), measures, self.mistakes)
        joint_specs = read_joint_specs(self.many("joint"), names, self.kinds, rules, measures)
        said_twice(self.data, self.mistakes)
        early = names.resolved(self.before_assembly, ("finish", "before_assembly"), every=EVERY)
        tables = self.many("unit")
        units = read_units(tables, names)
        whens = {table.name: table.when for table, _ in tables if table.name and table.when}
        job = Job(
            file=self.mistakes.file,
            text=text,
            state=hashlib.sha256(text.encode("utf-8", "surrogatepass")).hexdigest()[:8],
            title=head.title or FilePath(self.mistakes.file).stem,
            client=head.client,
            date=head.date,
            units=head.units,
            measures=measures,
            timbers=timbers,
            joints=rules,
            joint_specs=joint_specs,
            finish=replace(finish, when="before glue") if EVERY in early else finish,
            boards=staged(boards, units, whens, early, self.mistakes),
            frames=frames,
            units_glued=units,
            wall=self.wall(measures),
            fixings=read_fixings(self.many("fixing"), names, self.kinds, rules, measures),
            loads=read_loads(self.free("load"), names, noted="load" in self.tables),
            anchors=read_anchors(self.named("anchor", AnchorTable), measures, self.mistakes),
            tables={word: self.owned(table, names, measures) for word, table in self.tables.items()},
            dangling=tuple(names.dangling),
        )
        return None if self.mistakes else job

    def unknown_tables(self) -> None:
        known = [*CORE, *self.tables, *NAMED_TABLES]
        for word, value in self.data.items():
            if word not in known:
                called = "table" if isinstance(value, (dict, list)) else "key"
                says = f"{shown(word)} is not a {called} of a job file"
                self.mistakes.unknown((word,), says, word, known, read=word)
        version = self.data.get("dryfit", 1)
        if version != 1 or isinstance(version, bool):
            self.mistakes.add(("dryfit",), "this version of the file format is not known", "write dryfit = 1")

    def table(self, word: str) -> dict[str, Any]:
        value = self.data.get(word, {})
        if isinstance(value, dict):
            return value
        several = isinstance(value, list) and value and isinstance(value[0], dict)
        says = f"there is only one [{word}]" if several else f"{shown(word)} is a table"
        self.mistakes.add((word,), says, f"write [{word}] on a line of its own", read=None if not several else "")
        return {}

    def single(self, word: str, model: type[TableModel]) -> Any:
        return self.mistakes.validated(model, self.table(word), (word,)) or model()

    def many(self, word: str) -> list[tuple[Any, Path]]:
        """The tables of a list that could be read, with their paths."""
        model = MANY[word]
        found: list[tuple[Any, Path]] = []
        for table, path in self.rows(word):
            read = self.mistakes.validated(model, table, path)
            if read is not None:
                self.required(model, table, path)
                found.append((read, path))
        return found

    def rows(self, word: str) -> Iterator[tuple[dict[str, Any], Path]]:
        """The tables of a list as the file has them, with their paths."""
        value = self.data.get(word, [])
        if not isinstance(value, list):
            says = f"there may be several {plural(word)}"
            self.mistakes.add((word,), says, f"write [[{word}]], with two brackets", read="")
            return
        for at, table in enumerate(self.not_too_many(word, value)):
            if isinstance(table, dict):
                yield table, (word, at)
            else:
                says = f"this is not a table of a {word}"
                self.mistakes.add((word, at), says, f"write [[{word}]] on a line of its own")

    def not_too_many(self, word: str, tables: list[Any]) -> list[Any]:
        """The tables of one kind; of far too many none is read, and that there are so many is the one mistake."""
        if len(tables) <= MOST_TABLES:
            return tables
        says = f"the file has {len(tables):,} tables [[{word}]]"
        self.mistakes.add((word, 0), says, f"keep a job within {MOST_TABLES:,} of a kind", read="")
        return []

    def required(self, model: type[TableModel], table: Mapping[str, Any], path: Path) -> None:
        for key in model.required:
            if key not in table:
                self.mistakes.add(path, f'{model.called} has no "{key}"', f"add {key} = ...", read="")

    def timbers(self, measures: Mapping[str, float]) -> tuple[dict[str, Timber], frozenset[str]]:
        """The sound timbers, and the names of all that stand in the file."""
        found = {}
        for name, read, path in self.named("timber", TimberTable):
            timber = self.timber(name, read, path, measures)
            if timber is not None:
                found[name] = timber
        return found, frozenset(self.table("timber"))

    def named(self, word: str, model: type[TableModel]) -> list[tuple[str, Any, Path]]:
        """The tables `[word.NAME]` that could be read, with their names and paths."""
        found: list[tuple[str, Any, Path]] = []
        for name, table in self.table(word).items():
            path: Path = (word, name)
            if not isinstance(table, dict):
                self.mistakes.add(path, f"{shown(name)} is not a table", f"write [{word}.{name}] on a line of its own")
                continue
            if len(name) > LONGEST_TIMBER or not name.isprintable():
                says = (
                    f"the name of {model.called} is too long, or has characters that cannot be printed: {shown(name)}"
                )
                self.mistakes.add(path, says, f"keep it under {LONGEST_TIMBER} letters", read=name)
            read = self.mistakes.validated(model, table, path)
            if read is not None:
                self.required(model, table, path)
                found.append((name, read, path))
        return found

    def timber(self, name: str, read: TimberTable, path: Path, measures: Mapping[str, float]) -> Timber | None:
        sizes = Sizes(read, path, measures, self.mistakes)
        thickness, measured, longest = (sizes.of(key) for key in ("thickness", "measured", "longest"))
        nominal, sides = sizes.of("nominal"), sizes.of("panel")
        panel = None if sides is None or None in sides else (sides[0], sides[1])
        if read.species is None or thickness is None:
            return None
        return Timber(
            name=name,
            species=read.species,
            form=read.form,
            thickness=thickness,
            measured=measured,
            nominal=nominal,
            panel=panel,
            longest=panel[0] if longest is None and panel is not None else longest,
            planing=self.planing(read, path, sizes),
            path=path,
        )

    def planing(self, read: TimberTable, path: Path, sizes: Sizes) -> float:
        """What is to be planed off each face of a timber that is bought sawn; 0 of one that is bought planed."""
        if read.planing is None:
            return 0.0 if read.planed else PLANING
        if read.planed:
            self.mistakes.add(
                (*path, "planing"), '"planing" is given for a timber that is bought planed', "add planed = false"
            )
        return sizes.of("planing") or 0.0

    def finish(self, measures: Mapping[str, float], film_of: FilmOf | None) -> Finish:
        """The finish, but for boards that the old word names."""
        read: FinishTable = self.single("finish", FinishTable)
        self.before_assembly = read.before_assembly
        path: Path = ("finish",)
        sizes = Sizes(read, path, measures, self.mistakes)
        film = sizes.of("film")
        if read.system and "coats" not in self.table("finish"):
            self.mistakes.add(path, "the finish has no coats", "add coats = 2, or as many as there are", read="")
        if read.coats_before is not None and read.coats_before > (read.coats or 0):
            says = f"{read.coats_before} coats before glue are more than there are: {read.coats or 0}"
            self.mistakes.add((*path, "coats_before"), says, "give as many as coats has, or fewer")
        if film is None:
            film = (film_of(read.system) if film_of is not None and read.system else None) or 0.0
        return Finish(
            system=read.system,
            coats=read.coats or 0,
            film=film,
            sanded=sizes.of("sanded") or 0.0,
            when=read.when,
            coats_before=read.coats_before,
            joint_zones=read.joint_zones,
            coverage=read.coverage,
        )

    def sanded_through(self, sanded: float, timbers: Mapping[str, Timber]) -> None:
        """Note where sanding leaves no board of a timber."""
        for timber in timbers.values():
            thickness = timber.thickness if timber.measured is None else timber.measured
            if thickness - 2 * sanded < LEAST_SIZE:
                says = (
                    f"sanded off both faces, this leaves {self.mistakes.said(thickness - 2 * sanded)} of {timber.name}"
                )
                self.mistakes.add(("finish", "sanded"), says, f"leave {self.mistakes.said(LEAST_SIZE)} or more")

    def wall(self, measures: Mapping[str, float]) -> Wall:
        read: WallTable = self.single("wall", WallTable)
        sizes = Sizes(read, ("wall",), measures, self.mistakes)
        return Wall(
            kind=read.kind,
            lining=sizes.of("lining"),
            hollow=sizes.of("hollow"),
            void=sizes.of("void"),
            studs=tuple(stud for stud in sizes.of("studs") if stud is not None),
            hung=read.hung,
            left=sizes.of("left"),
            right=sizes.of("right"),
            ceiling=sizes.of("ceiling"),
        )

    def boards(self, ground: Ground) -> tuple[tuple[BoardSpec, ...], tuple[FrameSpec, ...]]:
        drafted = list(read_boards(self.many("board"), ground))
        framed = list(read_frames(self.many("frame"), ground))
        named = [*(board.named for board in drafted), *(frame.boards for frame in framed)]
        relations = Relations(
            self.mistakes,
            {name: board for boards in named for name, board in boards.items()},
            claimed=ground.names,
            rows=ground.rows,
            frames={frame.name: [side.name for side in frame.sides or ()] for frame in framed},
        )
        for points in (*(board.points for board in drafted), *(frame.points for frame in framed)):
            if points is not None:
                relations.work_out(points)
        boards = [spec for board in drafted if (spec := board.board()) is not None]
        frames = []
        for frame in framed:
            found = frame.drawn()
            if found is not None:
                frames.append(found[0])
                boards.extend(found[1])
        ground.keep_for_members()
        return tuple(boards), tuple(frames)

    def free(self, word: str) -> object:
        """What stands under a word whose tables are read freely: a table, or a list of them, of any keys."""
        value = self.data.get(word)
        several = isinstance(value, list)
        tables = self.not_too_many(word, value) if isinstance(value, list) else [] if value is None else [value]
        for at, table in enumerate(tables):
            if not isinstance(table, dict):
                path: Path = (word, at) if several else (word,)
                self.mistakes.add(path, f"{shown(word)} is a table", f"write [{word}] on a line of its own")
        return tables if several else value

    def owned(self, owned: Owned, names: BoardNames, measures: Mapping[str, float]) -> tuple[Any, ...]:
        """The tables of a study, checked by their model, their lengths worked out."""
        word = owned.word
        if word not in self.data:
            return ()
        rows = self.rows(word) if isinstance(owned, Many) else self.only(word)
        return tuple(self.owned_table(owned, table, path, names, measures) for table, path in rows)

    def only(self, word: str) -> Iterator[tuple[dict[str, Any], Path]]:
        """The one table of a word, where it is one."""
        table = self.table(word)
        if isinstance(self.data[word], dict):
            yield table, (word,)

    def owned_table(
        self, owned: Owned, table: dict[str, Any], path: Path, names: BoardNames, measures: Mapping[str, float]
    ) -> Any:
        called = owned.heading
        read = self.kinds.check(owned.model, table, path, measures, self.mistakes, called=called, meeting=False)
        names.refer(owned.model, table, path)
        if read is None or self.mistakes:
            return None  # there will be no job
        try:
            return worked_out(read, measures, self.mistakes.units)
        except ArithmeticMistake as mistake:  # in what is left out
            self.mistakes.add(path, mistake.says, mistake.remedy, read="")
            return None
