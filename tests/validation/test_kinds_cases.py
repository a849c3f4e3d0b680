"""Worked cases of the kinds of joint, from the file's text on.

"D" cases were computed by plane geometry and with a solid model, apart from this project; each test names its own.
Lengths within 0.01, volumes within 1 in 100 000, unless the case says otherwise.
"""

import pytest

from dryfit.geometry.shapes import Bore
from tests.joints.typed import board, found, job, joint_of, table


def near(value, within=0.01):
    return pytest.approx(value, abs=within)


# ---- a mitre with plugged screws


def screwed(thick, inward):
    """A corner of 90, the screw along B through A, a counterbore 10 x 8, 60 long from its floor."""
    options = {"strengthen": "screws", "screw": "wood 4x60, pan head", "counterbore": 8, "screw_in": inward}
    return job(
        table("[joints.mitre]", through="A", **options),
        board("A", [[0, 0], [600, 0]], 280, thick),
        board("B", [[0, 0], [0, 500]], 280, thick),
    )


@pytest.mark.parametrize(
    ("thick", "inward", "along", "under", "corner", "in_b", "inside"),
    [("27", 16, 16.0, 8.0, 3.0, 52.0, 11.0), ("24", 14, 14.0, 6.0, 1.0, 54.0, 10.0)],
    ids=["27", "24"],
)
def test_d17_the_wood_about_a_screw_across_a_mitre(thick, inward, along, under, corner, in_b, inside):
    text = screwed(thick, inward)
    holes = [cut for cut in joint_of(text, "A", "B").cuts if isinstance(cut.shapes[0], Bore)]
    bores = {cut.body: cut.shapes[0] for cut in holes}
    (mouth, wide), (floor, _), (out, _) = bores["A"].profile
    assert (mouth, wide, floor, out) == (0.0, 10.0, 8.0, near(along))
    assert out - floor == near(under)
    assert bores["A"].start[0] == near(inward - float(thick) / 2)  # from the outside of B; A's datum end is the corner
    assert bores["B"].profile[-1][0] == near(in_b)
    assert float(thick) / 2 - abs(bores["B"].start[1]) == near(min(inside, float(thick) - inside))
    findings = found(text, "plug-near-mitre")
    assert [finding.found for finding in findings] == [near(corner)] * (corner < 3.0)
    assert [finding.severity.value for finding in findings] == ["stop"] * (corner < 3.0)
