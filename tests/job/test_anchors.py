"""`[anchor.NAME]`: an anchor as its maker's sheet describes it, and what is wrong with such a table."""

import pytest

from dryfit.book import read_job_text
from dryfit.errors import JobError

HEAD = 'dryfit = 1\n[job]\nunits = "UNITS"\n[measures]\nplug = 2\n[timber.oak]\nspecies = "oak"\nthickness = 1\n'
FULL = """[anchor."demo plug"]
type = "nylon plug"
drill = 10
deep = 70
clamps = [0, "3 in"]
void = "plug * 2"
screw = "wood 6"
length = 50
apart = 60
pull_n = 300
shear_n = 800
strength = "characteristic"
source = "invented sheet, page 3"
"""


def anchor(text, units="mm"):
    (found,) = read_job_text(HEAD.replace("UNITS", units) + text).anchors.values()
    return found


def refused(text):
    with pytest.raises(JobError) as error:
        read_job_text(HEAD.replace("UNITS", "mm") + text)
    (mistake,) = error.value.mistakes
    return mistake


def test_all_that_a_sheet_says_is_read():
    found = anchor(FULL)
    assert (found.name, found.type.id, found.described) == ("demo plug", "nylon_plug", True)
    assert (found.drill, found.deep, found.length, found.apart) == (10.0, 70.0, 50.0, 60.0)
    assert (found.clamps, found.void) == ((0.0, pytest.approx(76.2)), 4.0)
    assert (found.screw, found.takes) == ("wood", (6.0, 6.0))
    assert (found.pull_n, found.shear_n, found.strength) == (300.0, 800.0, "characteristic")
    assert found.source == "invented sheet, page 3"


def test_its_lengths_are_in_the_jobs_units_and_its_screw_is_as_sold():
    found = anchor('[anchor.plug]\ntype = "nylon plug"\ndrill = 0.5\nscrew = "wood 5"\n', units="in")
    assert (found.drill, found.takes) == (pytest.approx(12.7), (5.0, 5.0))


def test_what_a_sheet_does_not_say_is_not_known_rather_than_0():
    found = anchor('[anchor.plug]\ntype = "spring toggle"\n')
    assert (found.drill, found.deep, found.clamps, found.void, found.length, found.pull_n) == (None,) * 6
    assert found.screw == "machine"  # as toggles take


@pytest.mark.parametrize(
    ("text", "line", "says"),
    [
        ('[anchor.a]\ntype = "bent nail"\n', 10, '"bent nail" is not a type of anchor'),
        ("[anchor.a]\ndrill = 8\n", 9, 'an anchor has no "type"'),
        ('[anchor.a]\ntype = "sleeve"\npull_n = 300\n', 9, "gives a capacity without its source"),
        ('[anchor.a]\ntype = "sleeve"\nclamps = [16, 3]\n', 11, "it clamps from 16 mm to 3 mm"),
        ('[anchor.a]\ntype = "sleeve"\nscrew = "nail"\n', 11, '"nail" is not a screw for an anchor'),
        ('[anchor.a]\ntype = "sleeve"\ndril = 8\n', 11, "dril"),
        ('[anchor.a]\ntype = "sleeve"\nlength = -8\n', 11, "length comes to -8 mm"),
        ("[anchor]\nplug = 3\n", 10, '"plug" is not a table'),
        ('[[anchor]]\ntype = "sleeve"\n', 9, "anchor"),
    ],
)
def test_what_is_wrong_is_told_with_its_line(text, line, says):
    mistake = refused(text)
    assert says in mistake.says
    assert mistake.line == line
    assert mistake.remedy
