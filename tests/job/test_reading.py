"""A whole job read: a wall 2600 x 1900 with four bays of 650, small enough to check in the head.

Raking board i runs from (650 i, 0) to (650 i + 1900 tan 9, 1900); 1900 tan 9 = 300.93.
"""

import pickle
from typing import Annotated

import pytest
from pydantic import Field

from dryfit.errors import JobError
from dryfit.job.model import Dangling, Job, JointRules
from dryfit.job.options import BoardName, Options, Quantity, Within
from dryfit.job.reading import read_file
from dryfit.job.tables import Many, One
from tests.job.samples import WALL, read, small, swapped


@pytest.fixture(scope="module")
def wall() -> Job:
    return read(WALL)


def board(job: Job, name: str):
    return next(board for board in job.boards if board.name == name)


def mistakes(text: str, **given):
    with pytest.raises(JobError) as caught:
        read(text, **given)
    return caught.value.mistakes


def test_the_head_of_the_job_is_read(wall):
    assert (wall.title, wall.client, wall.date, wall.units) == ("Listening wall", "demo", "2026-05-04", "mm")
    assert wall.measures == {"width": 2600.0, "height": 1900.0, "depth": 330.0, "bay": 650.0}
    assert wall.timbers["oak24"].measured == 23.8
    assert len(wall.state) == 8


def test_boards_come_in_the_order_of_the_file_with_rows_and_frames_taken_apart(wall):
    assert [board.name for board in wall.boards] == [
        "long shelf", "raking 1", "raking 2", "hanging rail", "box 1", "box 2", "box 3", "box 4",
    ]  # fmt: skip
    assert [board.path for board in wall.boards] == [
        ("board", 0), ("board", 1), ("board", 1), ("board", 2), *[("frame", 0)] * 4,
    ]  # fmt: skip
    assert [board.index for board in wall.boards] == [1, 1, 2, 1, 1, 2, 3, 4]


def test_a_board_of_a_row_has_its_number_in_its_sums(wall):
    raking = board(wall, "raking 2")

    assert raking.line[0] == (1300.0, 0.0)
    assert raking.line[1] == pytest.approx((1600.9304, 1900.0), abs=1e-4)
    assert raking.ends == ("level", "level")
    assert raking.thickness_at == ((0.0, 23.8), (1200.0, 24.1))


def test_a_board_that_lies_flat_has_its_width_for_depth(wall):
    rail = board(wall, "hanging rail")

    assert (rail.lies, rail.depth, rail.line[0]) == ("flat", 90.0, (1500.0, 543.0))
    assert board(wall, "long shelf").scribe == (0.0, 15.0)


def test_joints_units_fixings_and_the_finish_keep_what_they_say(wall):
    (joint,) = wall.joint_specs
    assert (joint.between, joint.kind, joint.front) == (("long shelf", "raking 1"), "cross halving", "long shelf")
    assert wall.joints == JointRules(clearance=0.15, kinds={"housing": {"depth": "t_b / 3"}})
    assert wall.units_glued[0].boards == ("box 1", "box 2", "box 3", "box 4")
    assert wall.fixings[0].at == (200.0, 1000.0)
    assert wall.fixings[0].options == {"screw": "wood 5x120"}
    assert (wall.finish.coats, wall.finish.when) == (2, None)
    assert [spec.name for spec in wall.boards if spec.when == "before glue"] == ["long shelf", "raking 1"]
    assert wall.wall.studs == (200.0, 600.0, 1000.0)
    assert [(load.board, load.kind) for load in wall.loads] == [("long shelf", "records")]
    assert wall.tables == {}, "no study is known here"


def test_a_job_goes_to_another_process_whole(wall):
    assert pickle.loads(pickle.dumps(wall)) == wall


def test_the_dry_film_of_a_finish_comes_from_outside_unless_it_is_written():
    films = {"varnish, polyurethane": 0.03}

    assert read(WALL, film_of=films.get).finish.film == 0.03
    assert read(swapped(WALL, "coats  = 2", "coats  = 2\nfilm = 0.05"), film_of=films.get).finish.film == 0.05
    assert read(WALL).finish.film == 0.0


def test_numbers_in_a_job_in_inches_are_inches():
    job = read(
        small(
            '[[board]]\nname = "a"\nline = [[0, 0], ["width", "1 ft"]]\ndepth = 10',
            head='[job]\nunits = "in"\n[measures]\nwidth = "23 5/8"'.replace('"23 5/8"', '"23 5/8 in"'),
        ).replace("thickness = 24", 'thickness = "24 mm"')
    )

    assert job.measures["width"] == 600.075
    assert job.boards[0].line == ((0.0, 0.0), (600.075, 304.8))
    assert (job.boards[0].depth, job.timbers["oak"].thickness) == (254.0, 24.0)


def test_the_only_timber_need_not_be_named_and_a_row_s_name_needs_no_number():
    job = read(small('[[board]]\nname = "a"\ncount = 2\nline = [["i * 100", 0], ["i * 100", 900]]\ndepth = 300'))

    assert [(board.name, board.timber) for board in job.boards] == [("a 1", "oak"), ("a 2", "oak")]


EXCEPT = """\
[[board]]
name = "a {i}"
count = 3
line = [["i * 100", 0], ["i * 100", 900]]
depth = 300
[[board.except]]
i = 2
absent = true
[[board.except]]
i = 3
line = [[500, 0], [500, 800]]
back = "i * 2"
"""


def test_single_boards_of_a_row_may_be_absent_or_otherwise():
    job = read(small(EXCEPT))

    assert [(board.name, board.index) for board in job.boards] == [("a 1", 1), ("a 3", 3)]
    assert job.boards[1].line == ((500.0, 0.0), (500.0, 800.0))
    assert (job.boards[0].back, job.boards[1].back) == (0.0, 6.0)


def test_a_smaller_count_leaves_references_that_dangle_and_no_mistake():
    job = read(
        small(
            '[[board]]\nname = "upright {i}"\ncount = 1\nline = [["i * 100", 0], ["i * 100", 900]]\ndepth = 300',
            '[[board]]\nname = "shelf"\nline = [[0, 500], [900, 500]]\ndepth = 300',
            '[[joint]]\nbetween = ["shelf", "upright 2"]\nkind = "butt"\nthrough = "upright 2"',
            '[[fixing]]\nboard = "shef"\nkind = "long screw"\nat = [100]',
            '[[unit]]\nname = "u"\nboards = ["shelf", "zzz"]',
            '[finish]\nbefore_assembly = ["upright 3"]',
        )
    )

    assert set(job.dangling) == {
        Dangling(path=("joint", 0, "between", 1), name="upright 2", nearest="upright 1"),
        Dangling(path=("joint", 0, "through"), name="upright 2", nearest="upright 1"),
        Dangling(path=("fixing", 0, "board"), name="shef", nearest="shelf"),
        Dangling(path=("unit", 0, "boards", 1), name="zzz", nearest=""),
        Dangling(path=("finish", "before_assembly", 0), name="upright 3", nearest="upright 1"),
    }
    assert job.units_glued[0].boards == ("shelf",)
    assert job.fixings[0].name == "fixing of shef"


def test_a_kind_that_is_only_named_so_far_takes_any_options():
    job = read(swapped(WALL, 'kind    = "cross halving"', 'kind    = "sliding dovetail"\ncutter = "1:8"'))

    assert job.joint_specs[0].options == {"cutter": "1:8"}


def test_a_joint_without_a_kind_takes_the_options_of_any_default_kind_and_no_others():
    joint = '[[joint]]\nbetween = ["long shelf", "raking 2"]\n{}\n'
    assert read(WALL + joint.format("depth = 5")).joint_specs[1].options == {"depth": 5}
    (mistake,) = mistakes(WALL + joint.format("dept = 5"))
    assert (mistake.remedy, mistake.line) == ("did you mean depth?", WALL.count("\n") + 3)


def test_where_a_rule_is_a_kind_only_named_so_far_any_option_may_be_its_own():
    """But for boards in line: a splice must be asked for by name, or no slip of the pen would be found."""
    joint = '[[joint]]\nbetween = ["long shelf", "raking 2"]\n{}\n'
    wall = WALL.replace("[joints]", '[joints]\nend_on_face = "sliding dovetail"')

    assert read(wall + joint.format('cutter = "1:8"')).joint_specs[1].options == {"cutter": "1:8"}


class Carried(Options):
    """A table of a study: where it stands, how far in, and what it weighs."""

    board: BoardName = ""
    beside: tuple[BoardName, ...] = ()
    at: Annotated[Quantity, Within(least=10.0, most=2000.0)] = Field(default=25.4)
    kg: Annotated[float, Field(ge=0)] = 0.0


class Van(Options):
    """A table of a study of which a job has one; its length must be given."""

    length: Annotated[Quantity, Within(above=0.0)]
    spare: Annotated[Quantity, Within(least=1.0)] = Field("length / 2")  # type: ignore[assignment]


CARRIED, VAN = Many("carried", Carried), One("van", Van)
STUDIES = (CARRIED, VAN)
END = WALL.count("\n")


def test_tables_of_studies_are_handed_over_worked_out_and_in_mm_whatever_the_units():
    """`bay` is a measure of the wall; 60 of it is 60 in where the job is in inches."""
    text = WALL + '[[carried]]\nboard = "raking 1"\nat = "bay - 60"\n[[carried]]\nkg = 3\n[van]\nlength = 60\n'
    job = read(text + "spare = 30\n", tables=STUDIES)
    one, other = job.tables["carried"]

    assert (one.board, one.at, other.at, other.kg) == ("raking 1", job.measures["bay"] - 60, 25.4, 3.0)
    assert (job.tables["van"][0].length, job.tables["van"][0].spare) == (60, 30)
    inches = read('dryfit = 1\n[job]\nunits = "in"\n[van]\nlength = 60\nspare = "30 mm"\n', tables=STUDIES)
    assert inches.tables == {"carried": (), "van": (Van.model_construct(length=1524.0, spare=30.0),)}


@pytest.mark.parametrize(
    ("written", "line", "says", "remedy"),
    [
        ("[[van]]\nlength = 9\n", 1, "there is only one [van]", "write [van] on a line of its own"),
        ("[carried]\nkg = 1\n", 1, "there may be several carrieds", "write [[carried]], with two brackets"),
        ("[van]\nlenth = 3\nlength = 3\nspare=9\n", 2, '"lenth" is not a key of [van]', "did you mean length?"),
        ("[van]\nspare = 9\n", 1, '"length" is missing', "add it"),
        ("[van]\nlength = -2\nspare = 9\n", 2, "length comes to -2 mm", "make it more than 0 mm"),
        ('[van]\nlength = "bey"\nspare = 9\n', 2, 'there is no measure "bey"', "did you mean bay?"),
        ('[van]\nlength = "t_a"\nspare = 9\n', 2, 'there is no measure "t_a"', None),
        ("[van]\nlength = 9\n", 1, 'there is no measure "length"', None),
        ("[[carried]]\nat = 3000\n", 2, "at comes to 3000 mm", "make it at most 2000 mm"),
        ("[[carried]]\n[[carried]]\nkg = -1\n", 3, '"kg" is out of range', "make it at least 0"),
        ("[[glue]]\nkind = 1\n", 1, '"glue" is not a table of a job file', None),
        ("[paint]\nshade = 1\n", 1, '"paint" is not a table of a job file', None),
    ],
    ids=["many of one", "one of many", "a key", "a missing key", "a bound", "a measure", "a name of a meeting",
         "a default that cannot be", "a bound of many", "a number's bound", "no owner, many", "no owner, one"],
)  # fmt: skip
def test_what_is_wrong_with_a_study_s_table_is_told_with_its_line(written, line, says, remedy):
    (mistake,) = mistakes(WALL + written, tables=STUDIES)

    assert (mistake.line - END, mistake.says) == (line, says)
    assert mistake.remedy == remedy or (remedy is None and mistake.remedy)


def test_a_study_s_table_that_names_a_board_which_is_not_there_is_known_to_do_so():
    job = read(WALL + '[[carried]]\nboard = "long shelve"\n', tables=STUDIES)
    assert job.dangling == (Dangling(path=("carried", 0, "board"), name="long shelve", nearest="long shelf"),)


@pytest.mark.parametrize("value", ["3", '"x"', "[1, 2]", "true"])
@pytest.mark.parametrize("word", ["van", "carried", "glue"])
def test_what_is_no_table_at_all_is_told_too(word, value):
    assert mistakes(f"{word} = {value}\n{WALL}", tables=STUDIES)


NASTY = [
    'it\'s "so"',
    "a = b",
    "..",
    "a.b",
    "# no note",
    "ébénisterie",
    "[x]",
    "back\\slash",
    "{j}",
    "long " * 15 + "name",
]


@pytest.mark.parametrize("name", NASTY, ids=range(len(NASTY)))
def test_any_printable_name_will_do(name):
    quoted = '"' + name.replace("\\", "\\\\").replace('"', '\\"') + '"'
    job = read(WALL.replace('"long shelf"', quoted))

    assert job.boards[0].name == name
    assert job.dangling == ()


def test_measures_may_stand_in_any_order():
    job = read(small(head='[measures]\na = "b * 2"\nb = "c + 1"\nc = 3'))

    assert list(job.measures.items()) == [("a", 8.0), ("b", 4.0), ("c", 3.0)]


def test_a_mark_of_byte_order_and_line_ends_of_windows_change_nothing(wall):
    other = read("\ufeff" + WALL.replace("\n", "\r\n"))

    assert (other.boards, other.measures, other.fixings) == (wall.boards, wall.measures, wall.fixings)


def test_files_that_are_no_utf8_text_are_refused_with_their_line(tmp_path):
    file = tmp_path / "wall.toml"
    for content, line, word in [
        (b"[job]\ntitle = '\xe9'\n", 2, "UTF-8"),
        (WALL.encode("utf-16"), 1, "UTF-8"),
        (b"[job]\n# \x00\n", 2, "UTF-8"),
        (b"# " + b"x" * 1_000_001, 1, "split"),
    ]:
        file.write_bytes(content)
        with pytest.raises(JobError) as caught:
            read_file(file, kinds={})
        (mistake,) = caught.value.mistakes
        assert (mistake.line, mistake.file) == (line, str(file))
        assert word in mistake.remedy


def test_a_file_that_is_not_there_is_said_so(tmp_path):
    with pytest.raises(JobError, match="cannot be opened: no such file"):
        read_file(tmp_path / "none.toml", kinds={})


def test_a_file_on_disk_reads_as_its_text(tmp_path, wall):
    file = tmp_path / "wall.toml"
    file.write_bytes(WALL.encode())

    from tests.job.samples import KINDS, NAMED

    assert read_file(file, kinds=KINDS, named=NAMED).boards == wall.boards


def test_an_empty_file_is_a_job_without_boards():
    job = read("")

    assert (job.boards, job.title) == ((), "wall")
