"""Reading a job file: from its text to a `Job`, or to every mistake in it at once.

    job = read_text(text, "wall.toml", kinds={"housing": HousingOptions}, named=("splice",))

Joint kinds and the tables of studies come in from outside, so nothing here knows one of them.
"""

import errno
import hashlib
import os
import stat
from collections.abc import Callable, Iterable, Mapping
from pathlib import Path as FilePath
from typing import Any

from pydantic import BaseModel

from ..errors import JobError, Mistake
from ..places import Path
from .anchors import read_anchors
from .boards import Ground, read_boards, thick_enough
from .frames import read_frames
from .kinds import Kinds
from .measures import read_measures
from .mistakes import Mistakes
from .model import BoardSpec, Finish, FrameSpec, Job, Timber, Wall
from .names import shown
from .options import bound
from .references import Names, read_fixings, read_joint_specs, read_loads, read_units
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
from .syntax import LARGEST, read_syntax

PLANING = 3.0  # off each face and edge, sawn to planed (common practice: 3 to 6 of thickness, 5 to 10 of width)
MOST_TABLES = 10_000  # of one kind: five times as many joints as there may be boards

FilmOf = Callable[[str], float | None]


def read_file(
    path: str | FilePath,
    *,
    kinds: Mapping[str, type[BaseModel]],
    named: Iterable[str] = (),
    tables: Mapping[str, type[BaseModel]] | None = None,
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
        remedy = "give yourself leave to read it"
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
    tables: Mapping[str, type[BaseModel]] | None = None,
    film_of: FilmOf | None = None,
) -> Job:
    """Read a job.

    Args:
        text: of the file, as it is.
        file: its name, for messages.
        kinds: options of the joint kinds that are made, by name.
        named: kinds that may be named though they are not made yet; their options are not looked at.
        tables: tables that studies own, by name, with the model of each.
        film_of: dry film of one coat of a finish on one face, None where it is not known.

    Raises:
        JobError: the text cannot be used; all its mistakes are in it.
    """
    syntax = read_syntax(text, file)
    reader = _Reader(syntax.data, Mistakes(file, syntax.text, syntax.lost), Kinds(kinds, named), tables or {})
    job = reader.job(text, film_of)
    mistakes = sorted((*syntax.mistakes, *reader.mistakes.sorted()), key=lambda mistake: mistake.line)
    if mistakes or job is None:
        raise JobError(tuple(mistakes))
    return job


class _Reader:
    def __init__(
        self, data: dict[str, Any], mistakes: Mistakes, kinds: Kinds, tables: Mapping[str, type[BaseModel]]
    ) -> None:
        self.data = data
        self.mistakes = mistakes
        self.kinds = kinds
        self.tables = tables

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
        names = Names.of(boards, frames, self.mistakes)
        rules = self.kinds.rules(self.table("joints"), measures, self.mistakes)
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
            joint_specs=read_joint_specs(self.many("joint"), names, self.kinds, rules, measures),
            finish=Finish(
                system=finish.system,
                coats=finish.coats,
                film=finish.film,
                sanded=finish.sanded,
                before_assembly=names.resolved(finish.before_assembly, ("finish", "before_assembly"), every="all"),
                joint_zones=finish.joint_zones,
            ),
            boards=boards,
            frames=frames,
            units_glued=read_units(self.many("unit"), names),
            wall=self.wall(measures),
            fixings=read_fixings(self.many("fixing"), names, self.kinds, rules, measures),
            loads=read_loads(self.data.get("load"), names, noted="load" in self.tables),
            anchors=read_anchors(self.named("anchor", AnchorTable), measures, self.mistakes),
            tables=self.study_tables(names, measures),
            dangling=tuple(names.dangling),
        )
        return None if self.mistakes else job

    def unknown_tables(self) -> None:
        known = [*CORE, *self.tables, *NAMED_TABLES]
        for word, value in self.data.items():
            if word not in known:
                called = "table" if isinstance(value, (dict, list)) else "key"
                says = f"{shown(word)} is no {called} of a job file"
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
        value = self.data.get(word, [])
        if not isinstance(value, list):
            self.mistakes.add((word,), f"there may be several {word}s", f"write [[{word}]], with two brackets", read="")
            return []
        model = MANY[word]
        found: list[tuple[Any, Path]] = []
        for at, table in enumerate(self.not_too_many(word, value)):
            path: Path = (word, at)
            if not isinstance(table, dict):
                self.mistakes.add(path, f"this is no table of a {word}", f"write [[{word}]] on a line of its own")
                continue
            read = self.mistakes.validated(model, table, path)
            if read is not None:
                self.required(model, table, path)
                found.append((read, path))
        return found

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
                self.mistakes.add(path, f"{shown(name)} is no table", f"write [{word}.{name}] on a line of its own")
                continue
            if len(name) > LONGEST_TIMBER or not name.isprintable():
                says = f"the name of {model.called} is too long, or has what cannot be printed: {shown(name)}"
                self.mistakes.add(path, says, f"keep it under {LONGEST_TIMBER} letters", read=name)
            read = self.mistakes.validated(model, table, path)
            if read is not None:
                self.required(model, table, path)
                found.append((name, read, path))
        return found

    def timber(self, name: str, read: TimberTable, path: Path, measures: Mapping[str, float]) -> Timber | None:
        sizes: list[float | None] = []
        for key, value in (("thickness", read.thickness), ("measured", read.measured)):
            place: Path = (*path, key)
            length = None if value is None else self.mistakes.length(value, place, measures)
            sizes.append(thick_enough(length, place, self.mistakes))
        thickness, measured = sizes
        longest = None if read.longest is None else self.mistakes.length(read.longest, (*path, "longest"), measures)
        longest = self.mistakes.within(bound(TimberTable, "longest"), longest, (*path, "longest"), "the stock's length")
        if read.species is None or thickness is None:
            return None
        return Timber(
            name=name,
            species=read.species,
            form=read.form,
            thickness=thickness,
            measured=measured,
            longest=longest,
            planing=self.planing(read, path, measures),
            path=path,
        )

    def planing(self, read: TimberTable, path: Path, measures: Mapping[str, float]) -> float:
        """What is to be planed off each face of a timber that is bought sawn; 0 of one that is bought planed."""
        place: Path = (*path, "planing")
        if read.planing is None:
            return 0.0 if read.planed else PLANING
        if read.planed:
            self.mistakes.add(place, '"planing" is said of a timber that is bought planed', "add planed = false")
        return self.size(read, "planing", place, measures, "what is planed off a face") or 0.0

    def finish(self, measures: Mapping[str, float], film_of: FilmOf | None) -> Finish:
        """The finish, its boards still as written."""
        read: FinishTable = self.single("finish", FinishTable)
        path: Path = ("finish",)
        film = self.size(read, "film", (*path, "film"), measures, "film on a face")
        sanded = self.size(read, "sanded", (*path, "sanded"), measures, "what is sanded off a face") or 0.0
        if read.system and "coats" not in self.table("finish"):
            self.mistakes.add(path, "the finish has no coats", "add coats = 2, or as many as there are", read="")
        if film is None:
            film = (film_of(read.system) if film_of is not None and read.system else None) or 0.0
        return Finish(
            system=read.system,
            coats=read.coats or 0,
            film=film,
            sanded=sanded,
            before_assembly=tuple(read.before_assembly),
            joint_zones=read.joint_zones,
        )

    def sanded_through(self, sanded: float, timbers: Mapping[str, Timber]) -> None:
        """Note where sanding leaves no board of a timber."""
        for timber in timbers.values():
            thickness = timber.thickness if timber.measured is None else timber.measured
            if thickness - 2 * sanded < LEAST_SIZE:
                says = f"sanded off both faces it leaves {self.mistakes.said(thickness - 2 * sanded)} of {timber.name}"
                self.mistakes.add(("finish", "sanded"), says, f"leave {self.mistakes.said(LEAST_SIZE)} or more")

    def size(self, read: TableModel, key: str, path: Path, measures: Mapping[str, float], what: str) -> float | None:
        """A length of a table within that table's bounds."""
        value = getattr(read, key)
        length = None if value is None else self.mistakes.length(value, path, measures)
        return self.mistakes.within(bound(type(read), key), length, path, what)

    def wall(self, measures: Mapping[str, float]) -> Wall:
        read: WallTable = self.single("wall", WallTable)

        def length(key: str) -> float | None:
            return self.size(read, key, ("wall", key), measures, key)

        studs = [self.mistakes.length(value, ("wall", "studs", at), measures) for at, value in enumerate(read.studs)]
        return Wall(
            kind=read.kind,
            lining=length("lining"),
            hollow=length("hollow"),
            void=length("void"),
            studs=tuple(stud for stud in studs if stud is not None),
            hung=read.hung,
            left=length("left"),
            right=length("right"),
            ceiling=length("ceiling"),
        )

    def boards(self, ground: Ground) -> tuple[tuple[BoardSpec, ...], tuple[FrameSpec, ...]]:
        boards = list(read_boards(self.many("board"), ground))
        frames = []
        for spec, sides in read_frames(self.many("frame"), ground):
            frames.append(spec)
            boards.extend(sides)
        ground.keep_for_members()
        return tuple(boards), tuple(frames)

    def study_tables(self, names: Names, measures: Mapping[str, float]) -> dict[str, object]:
        """Tables of studies, each checked by its model and kept as read."""
        found: dict[str, object] = {}
        for word in (*self.tables, *(word for word in NAMED_TABLES if word not in self.tables)):
            if word not in self.data:
                continue
            model = self.tables.get(word)
            value = found[word] = self.data[word]
            several = isinstance(value, list)
            if several and model is not None and not getattr(model, "several", False):
                self.table(word)  # says that there is only one
                continue
            for at, table in enumerate(self.not_too_many(word, value) if several else [value]):
                path: Path = (word, at) if several else (word,)
                if not isinstance(table, dict):
                    self.mistakes.add(path, f"{shown(word)} is a table", f"write [{word}] on a line of its own")
                elif model is not None:
                    self.kinds.check(model, table, path, measures, self.mistakes, called=f"[{word}]")
                    names.refer(model, table, path)
        return found
