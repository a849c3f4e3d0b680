"""A board may be called anything: no other word changes with it, on paper, in the terminal or in book.json.

The boards of each demo are called twice anew: by words of the program's own sentences ("left", "slot", "to" ...),
and by the same letters in an order that means nothing ("lfte", "solt", "ot" ...). So a name is as wide on paper as
its twin, stands where its twin stands in every list, and the sheets are laid out alike. With the twins' names put
back, all that is told is the same to the letter.
"""

import json
import re

import pytest

from bench.told import differences, told_of
from dryfit.book import read_job_text
from dryfit.book.demos import demo_text, demos
from tests.web.served import Window

NAMES = {  # of a board or of a row, as the demos have them
    "record-wall": (
        "shelf {i}", "top shelf", "left upright", "middle upright", "right upright", "raking {i}", "divider {i}",
        "stopped divider", "slanting divider", "box",
    ),
    "sample-grid": ("upright {i}", "shelf {i}"),
    "step-shelf": ("lower shelf", "upper shelf", "left side", "leaning side", "divider"),
}  # fmt: skip
SMALL = "step-shelf"
OURS = {
    "left": "lfte", "slot": "solt", "bottom": "bmotto", "end": "edn", "housing": "hoisung", "wall": "wlal",
    "through": "thruogh", "front": "frnot", "datum": "dautm", "mitre": "mtire",
}  # fmt: skip
MORE = {
    "upper": "uprep", "joint": "jonit", "above": "avobe", "right": "rihgt", "glue": "gule", "plumb": "plmub",
    "near": "naer", "clearance": "clearacne", "edge": "egde", "shoulder": "shuolder",
}  # fmt: skip
SHORT = {"to": "ot", "bore": "broe", "deep": "dpee", "face": "fcae", "not": "nto"}
NASTY = {
    "(left)": "(tfel)", "1/2": "12/", "x{}y": "x}{y", "\\d+": "\\+d", "&amp;": "&pam;", "{0}": "{}0", "<i>": "<>i",
    "%s d": "%d s", "$1 to": "$1 ot", "7×2": "72×",
}  # fmt: skip


def called(text, demo, names):
    """The demo with its boards and rows of boards called by these names, in order."""
    for old, new in zip(NAMES[demo], names, strict=False):
        base, _, _ = old.partition(" {i}")
        numbers = r" (?:\{i\}|\d+)" if " {i}" in old or old == "box" else r"()"
        pattern = rf'"{re.escape(base)}(?P<number>{numbers})"' if old != "box" else r'"box(?P<number> \d+|)"'
        text = re.sub(pattern, lambda found, new=new: json.dumps(new + found["number"], ensure_ascii=False), text)
    return text


def told(text):
    """All that is told of it but pictures, the job's own state put out."""
    state = read_job_text(text).state
    found = json.dumps(told_of(text, drawn=False), ensure_ascii=False).replace(state, "STATE")
    return json.loads(re.sub(r"dryfit-set:\w+", "SET", found))


def put_back(told_twice, twins):
    """The same with every twin as the name whose letters it has, at the head of a sentence too."""
    own = {}
    for name, twin in twins.items():
        for written, wanted in ((twin, name), (twin[:1].upper() + twin[1:], name[:1].upper() + name[1:])):
            quoted, put = (json.dumps(word, ensure_ascii=False)[1:-1] for word in (written, wanted))
            own.setdefault(quoted, put)
    pattern = re.compile(rf"(?<!\w)(?:{'|'.join(map(re.escape, own))})(?!\w)")
    return json.loads(pattern.sub(lambda met: own[met[0]], json.dumps(told_twice, ensure_ascii=False)))


@pytest.mark.parametrize(
    "names",
    [OURS, pytest.param(MORE, marks=pytest.mark.slow), pytest.param(SHORT, marks=pytest.mark.slow), NASTY],
    ids=["ours", "more of ours", "short ones", "nasty ones"],
)
@pytest.mark.parametrize(
    "demo", [name if name == SMALL else pytest.param(name, marks=pytest.mark.slow) for name in demos()]
)
def test_what_a_board_is_called_changes_no_other_word(demo, names):
    if len(names) < len(NAMES[demo]):
        pytest.skip("more boards than names")
    text = demo_text(demo)
    ours, twins = called(text, demo, names), called(text, demo, names.values())
    assert ours != twins
    changed = list(differences(put_back(told(twins), names), told(ours)))
    assert changed == []


def on_the_page(text, folder):
    """What the page is answered: the drawing, the decisions, and the cards of all boards and joints."""
    folder.mkdir()
    path = folder / "piece.toml"
    path.write_text(text, encoding="utf-8")
    window = Window(path)
    try:
        with window.client:
            state = window.state()
            drawn = state["drawing"]
            asked = [{"board": board["name"]} for board in drawn["boards"]]
            asked += [{"joint": joint["boards"]} for joint in drawn["joints"]]
            cards = [window.client.get("/api/card", params=of).raise_for_status().json() for of in asked]
            return {"drawing": drawn, "decisions": state["decisions"], "cards": cards}
    finally:
        window.session.close()


@pytest.mark.parametrize("demo", demos())
def test_what_a_board_is_called_changes_no_other_word_of_the_page(demo, tmp_path):
    names = OURS if len(OURS) >= len(NAMES[demo]) else MORE
    text = demo_text(demo)
    ours = on_the_page(called(text, demo, names), tmp_path / "ours")
    twins = on_the_page(called(text, demo, names.values()), tmp_path / "twins")
    assert len(ours["cards"]) > len(NAMES[demo])
    assert ours != twins
    assert list(differences(put_back(twins, names), ours)) == []
