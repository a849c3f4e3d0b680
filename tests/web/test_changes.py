"""Changes from the page: done once, saved at once, taken back and done again, refused when the base is old.

The shelf at y = 500 (measure `low`) meets the uprights at x = 200 and at `wide` = 1000: two joints follow it.
"""

import pytest

from tests.web.served import SHELF, Window, moved, operation


def test_the_state_shows_the_job_as_it_is_built(window):
    state = window.state()
    assert state["job"]["title"] == "Shelf"
    assert [board["name"] for board in state["drawing"]["boards"]] == ["left upright", "right upright", "shelf"]
    assert {tuple(sorted(joint["boards"])) for joint in state["drawing"]["joints"]} == {
        ("left upright", "shelf"),
        ("right upright", "shelf"),
    }
    assert state["text"] == SHELF
    assert not state["stale"]
    assert state["undo"] is None


def test_a_drag_is_saved_says_what_it_did_and_can_be_taken_back(window, job):
    done = window.do(**moved("left upright", -20, 0)).raise_for_status().json()
    assert done["says"] == "left upright: 20 mm to the left; 1 joint comes apart"
    assert job.read_text() == SHELF.replace("[[200, 0], [200, 900]]", "[[180, 0], [180, 900]]")
    assert done["state"]["undo"] == "left upright moved 20 to the left"
    back = window.step("undo").raise_for_status().json()
    assert job.read_text() == SHELF
    assert back["state"]["redo"] == done["state"]["undo"]
    assert back["state"]["undo"] is None
    window.step("redo").raise_for_status()
    assert "[[180, 0], [180, 900]]" in job.read_text()


def test_a_drag_says_how_many_joints_follow_and_how_many_come_apart(window):
    """Up by 10 the shelf keeps both its housings; 25 to the right its left end comes away from the upright at 200."""
    assert window.do(**moved("shelf", 0, 10)).json()["says"] == "shelf: 10 mm up; 2 joints follow"
    assert window.do(**moved("shelf", 25, 0)).json()["says"].startswith("shelf: 25 mm to the right; ")
    keys = {tuple(joint["boards"]) for joint in window.state()["drawing"]["joints"]}
    assert (("left upright", "shelf") in keys, len(keys)) == (False, 1)
    assert window.do(**moved("shelf", 0, 5)).json()["says"] == "shelf: 5 mm up; 1 joint follows"


@pytest.mark.parametrize(("exact", "written"), [(True, '"low + 7.95"'), (False, '"low + 8"')])
def test_a_move_onto_a_face_is_written_as_it_is_and_one_by_hand_to_a_tenth(window, job, exact, written):
    window.do(**moved("shelf", 0, 7.95), exact=exact).raise_for_status()
    assert job.read_text().count(written) == 2


def test_a_change_sent_twice_is_done_once(window, job):
    op, base = operation(), window.revision()
    first = window.do(base, op, **moved("shelf", 0, 10)).raise_for_status().json()
    again = window.do(base, op, **moved("shelf", 0, 10)).raise_for_status().json()
    assert (first["again"], again["again"]) == (False, True)
    assert first["state"] == again["state"]
    assert job.read_text().count('"low + 10"') == 2


def test_an_undo_on_an_old_base_is_refused_with_what_happened_since(window, job):
    base = window.revision()
    window.do(**moved("shelf", 0, 10)).raise_for_status()
    before = job.read_bytes()
    refused = window.post("undo", base_revision=base, operation_id=operation())
    assert refused.status_code == 409
    error = refused.json()["error"]
    says = ["shelf moved 10 up"]
    assert (error["code"], error["revision"], [v["says"] for v in error["since"]]) == ("stale", base + 1, says)
    assert job.read_bytes() == before


def test_nothing_is_undone_where_nothing_was_done(window):
    refused = window.step("undo")
    assert (refused.status_code, refused.json()["error"]["code"]) == (409, "nothing to undo")


def test_a_change_that_changes_nothing_is_no_version(window):
    done = window.do(**moved("shelf", 0, 0)).raise_for_status().json()
    assert (done["says"], done["state"]["revision"]) == ("nothing changed", 1)


def test_undo_has_no_end_and_survives_a_restart(window, job):
    texts = [job.read_text()]
    for n in range(12):
        window.do(**moved("shelf", 0, n + 1)).raise_for_status()
        texts.append(job.read_text())
    window.close()
    other = Window(job)
    for text in reversed(texts[:-1]):
        other.step("undo").raise_for_status()
        assert job.read_text() == text
    for text in texts[1:]:
        other.step("redo").raise_for_status()
        assert job.read_text() == text
    other.close()


def test_any_version_can_be_brought_back_and_that_is_one_step(window, job):
    for n in (5, 6, 7):
        window.do(**moved("shelf", 0, n)).raise_for_status()
    late = job.read_text()
    sent = {"base_revision": window.revision(), "operation_id": operation(), "version": 1}
    window.post("restore", **sent).raise_for_status()
    assert job.read_text() == SHELF
    window.step("undo").raise_for_status()
    assert job.read_text() == late
    versions = window.client.get("/api/history").json()["versions"]
    assert [v["kind"] for v in versions] == ["undo", "restore", "edit", "edit", "edit", "opened"]


def test_text_with_a_mistake_is_saved_marked_and_the_last_good_drawing_stays(window, job):
    wrong = SHELF.replace('[200, "low"]', '[200, "lwo"]')
    good = window.state()["drawing"]
    state = window.write(wrong).raise_for_status().json()["state"]
    assert job.read_text() == wrong
    assert state["stale"]
    assert state["drawing"] == good
    assert state["drawn"] == state["revision"] - 1
    (mistake,) = state["mistakes"]
    line = wrong.split("\n")[mistake["line"] - 1]
    assert line[mistake["column"] : mistake["end_column"]] == '"lwo"'
    assert "low" in mistake["remedy"]
    refused = window.do(**moved("shelf", 0, 5))
    assert (refused.status_code, refused.json()["error"]["code"]) == (422, "refused")
    state = window.step("undo").raise_for_status().json()["state"]
    assert not state["stale"]
    assert not state["mistakes"]


def test_a_mistaken_file_opens_on_its_last_good_version(window, job):
    window.write(SHELF.replace("[measures]", "[measures")).raise_for_status()
    window.close()
    other = Window(job)
    state = other.state()
    assert state["stale"]
    assert len(state["drawing"]["boards"]) == 3
    assert state["drawn"] == 1
    other.close()


@pytest.mark.parametrize(
    ("doing", "expects"),
    [
        (moved("shelf", 0, 12), 'line = [[200, "low + 12"], ["wide", "low + 12"]]'),
        (moved("shelf", 0, 12, "measure low"), "low = 512\n"),
        (moved("shelf", 0, 12, "plain"), 'line = [[200, 512], ["wide", 512]]'),
        ({**moved("shelf", 0, 12, "named"), "name": "level"}, "level = 512\n"),
        ({"do": "figure", "target": {"what": "boards", "boards": ["left upright"]}, "axis": "x", "now": 200,
          "entry": "low / 2"}, '[["low / 2", 0], ["low / 2", 900]]'),
        ({"do": "figure", "target": {"what": "boards", "boards": ["shelf"]}, "axis": "y", "now": 500,
          "entry": "520"}, '"low + 20"'),
        ({"do": "typed", "card": {"board": "shelf"}, "key": ["depth"], "entry": "low / 2"}, 'depth = "low / 2"'),
        ({"do": "typed", "card": {"joint": ["shelf", "left upright"]}, "key": ["stop"], "entry": "front"},
         '[[joint]]\nbetween = ["left upright", "shelf"]\nstop = "front"'),
        ({"do": "typed", "card": {}, "key": ["measures", "low"], "entry": "1 1/2 in"}, 'low = "1 1/2 in"'),
        ({"do": "typed", "card": {"board": "shelf"}, "key": ["name"], "entry": "ledge"}, 'name = "ledge"'),
        ({"do": "draw", "what": "board", "points": [[400, 500], [400, 900]]}, "line = [[400, 500], [400, 900]]"),
        ({"do": "copy", "boards": ["shelf"], "by": [0, 200]}, "line = [[200, 700], [1000, 700]]"),
        ({"do": "mirror", "boards": ["left upright"], "x": 600}, "line = [[1000, 0], [1000, 900]]"),
    ],
    ids=["arithmetic", "through a measure", "plain number", "new measure", "figure of a number",
         "figure of arithmetic", "card", "joint without a table", "measure", "rename", "board drawn", "copied",
         "mirrored"],
)  # fmt: skip
def test_what_a_hand_does_is_written_as_the_job_file_says(window, job, doing, expects):
    seen = window.preview(**doing).raise_for_status().json()
    assert not seen["mistakes"]
    assert seen["writes"]
    window.do(**doing).raise_for_status()
    assert expects in job.read_text()
    after = {board["name"]: board for board in window.state()["drawing"]["boards"]}
    assert all(after[board["name"]] == board for board in seen["boards"])


def laid_over(before, seen, what, key):
    """What is drawn with a preview laid over it, as the page does: `what` "boards" or "joints"."""
    gone = [tuple(name) if what == "joints" else name for name in seen[f"gone_{what}"]]
    shown = {key(one): one for one in before if key(one) not in gone} | {key(one): one for one in seen[what]}
    for one in seen[f"{what}_moved"]:
        shown[key(one)] = shown[key(one)] | {name: value for name, value in one.items() if value is not None}
    return shown


def bare(note, **more):
    """A note as it is told while a hand moves: nothing is offered."""
    return note | {"cures": [], "uncured": ""} | more


def notes_laid_over(before, seen):
    """All live notes of a preview in their order, as the page puts them together."""
    told, known = {note["number"]: note for note in seen["notes"]}, {note["id"]: note for note in before}
    same = iter(seen["same_notes"])
    numbers = range(1, len(told) + len(seen["same_notes"]) + 1)
    return [told.get(number) or bare(known[next(same)], number=number) for number in numbers]


@pytest.mark.parametrize(
    "doing",
    [
        moved("shelf", 0, 12),
        moved("shelf", 12, 0),
        moved("left upright", -30, 0),
        {"do": "drag", "target": {"what": "end", "board": "right upright", "end": "end"}, "by": [40, 0]},
        {"do": "typed", "card": {"board": "shelf"}, "key": ["depth"], "entry": "low / 2"},
        {"do": "typed", "card": {"joint": ["shelf", "left upright"]}, "key": ["stop"], "entry": "front"},
        {"do": "draw", "what": "board", "points": [[400, 500], [400, 900]]},
        {"do": "delete", "boards": ["left upright"]},
        {"do": "mirror", "boards": ["left upright"], "x": 600},
    ],
    ids=["up", "along", "upright", "leant", "depth", "joint", "drawn", "taken out", "mirrored"],
)
def test_what_a_preview_tells_laid_over_what_was_drawn_is_what_is_drawn_after_it(window, doing):
    was, seen = window.state(), window.preview(**doing).raise_for_status().json()
    window.do(**doing).raise_for_status()
    now = window.state()
    before, after = was["drawing"], now["drawing"]
    assert notes_laid_over(was["notes"], seen) == [bare(note) for note in now["notes"]]
    for what, key in (("boards", lambda board: board["name"]), ("joints", lambda joint: tuple(joint["boards"]))):
        assert laid_over(before[what], seen, what, key) == {key(one): one for one in after[what]}
    assert (seen["dimensions"] or before["dimensions"]) == after["dimensions"]


def test_of_a_board_that_only_moves_the_step_tells_no_more_than_what_is_different(window):
    seen = window.preview(**moved("shelf", 0, 12)).raise_for_status().json()
    assert not seen["boards"], "it is no new board"
    (shelf,) = (board for board in seen["boards_moved"] if board["name"] == "shelf")
    assert shelf["line"] is not None
    assert shelf["length"] is shelf["along"] is shelf["rake"] is None, "its joints stand where they stood along it"


def test_notes_that_stay_as_they_are_are_not_told_again(window):
    apart = '\n[[board]]\nname = "apart"\nline = [[2000, 0], [2000, 300]]\ndepth = 200\n'
    window.write(SHELF + apart).raise_for_status()
    known = window.state()["notes"]
    (alone,) = [note["id"] for note in known if note["boards"] == ["apart"] and not note["stale"]][:1]
    seen = window.preview(**moved("shelf", 0, 12)).raise_for_status().json()
    assert alone in seen["same_notes"], "the shelf's move is nothing to it"
    assert notes_laid_over(known, seen)
    assert alone not in [note["id"] for note in seen["notes"]]
    away = window.preview(**moved("apart", 300, 0)).raise_for_status().json()
    assert alone in [note["id"] for note in away["notes"]], "its leader points elsewhere now"


def test_taking_a_board_out_takes_what_speaks_of_it_alone(window, job):
    window.write(
        SHELF
        + '\n[[joint]]\nbetween = ["shelf", "left upright"]\n\n[[unit]]\nname = "ends"\n'
        + 'boards = ["left upright", "right upright"]\n\n[finish]\nbefore_assembly = ["left upright", "shelf"]\n'
    ).raise_for_status()
    done = window.do(do="delete", boards=["left upright"]).raise_for_status().json()
    text = job.read_text()
    assert "left upright" not in text
    assert "[[joint]]" not in text
    assert 'boards = ["right upright"]' in text
    assert 'before_assembly = ["shelf"]' in text
    assert not done["state"]["mistakes"]


def test_a_cure_is_taken_as_it_was_sent(window, job):
    wrong = SHELF + '\n[[joint]]\nbetween = ["left upright", "right upright"]\n'
    state = window.write(wrong).raise_for_status().json()["state"]
    (note,) = [note for note in state["notes"] if note["cures"]]
    window.do(do="edits", edits=note["cures"][0]["edits"]).raise_for_status()
    assert job.read_text().rstrip("\n") == SHELF.rstrip("\n")


def test_a_row_moves_whole_or_one_of_it_alone(window, job):
    line = '[["300 + i * 200", 500], ["300 + i * 200", 900]]'
    row = f'[[board]]\nname = "post {{i}}"\ncount = 2\nline = {line}\ndepth = 200\n'
    window.write(f"{SHELF}\n{row}").raise_for_status()
    grip = window.post("drag", base_revision=window.revision(), target={"what": "boards", "boards": ["post 2"]}).json()
    assert [(offer["id"], offer["boards"]) for offer in grip["offers"]][:2] == [
        ("here", ["post 1", "post 2"]),
        ("only this one", ["post 2"]),
    ]
    window.do(**moved("post 2", 15, 0, "only this one")).raise_for_status()
    assert "[[board.except]]\ni = 2\nline = [[715, 500], [715, 900]]" in job.read_text()
    window.do(**moved("post 2", 5, 0)).raise_for_status()
    assert "line = [[720, 500], [720, 900]]" in job.read_text()


def test_a_grip_says_where_the_hand_may_snap_and_why(window):
    sent = {"base_revision": window.revision(), "target": {"what": "end", "board": "shelf", "end": "end"}}
    grip = window.post("drag", **sent).raise_for_status().json()
    reasons = {(c["snap"], c["at"], c["says"]) for c in grip["candidates"]}
    assert ("y", 900.0, "level with the end of right upright") in reasons
    assert ("x", 991.0, "at the left face of right upright") in reasons
    assert ("angle", 0.5, "half a degree") in reasons
    assert not any("shelf" in says for _, _, says in reasons), "it cannot snap to itself"


def test_a_measure_that_is_an_angle_is_no_place_to_snap_to(window):
    leaning = SHELF.replace("wide = 1000", "wide = 1000\nlean = 8").replace(
        "[200, 900]", '["200 + 900 * tan(lean)", 900]'
    )
    window.write(leaning).raise_for_status()
    sent = {"base_revision": window.revision(), "target": {"what": "end", "board": "shelf", "end": "end"}}
    says = {candidate["says"] for candidate in window.post("drag", **sent).raise_for_status().json()["candidates"]}
    assert "low" in says
    assert "lean" not in says, "8 degrees are not 8 mm"


def test_a_card_gives_the_other_kinds_with_their_reasons(window):
    card = window.client.get("/api/card", params={"joint": ["shelf", "left upright"]}).raise_for_status().json()
    kind = next(row for row in card["rows"] if row["label"] == "kind")
    assert (kind["value"], kind["from_"]) == ("housing", "[joints]")
    others = {choice["value"]: choice for choice in kind["choices"]}
    assert others["housing"]["possible"]
    assert not others["cross halving"]["possible"]
    assert others["cross halving"]["why"]
    clearance = next(row for row in card["rows"] if row["label"] == "clearance")
    assert clearance["unit"] == "mm"
    assert clearance["sentence"]


def test_what_is_not_there_is_said(window):
    for query in ({"board": "nobody"}, {"joint": ["shelf", "nobody"]}, {"frame": "nobody"}, {"fixing": "nobody"}):
        refused = window.client.get("/api/card", params=query)
        assert (refused.status_code, refused.json()["error"]["code"]) == (404, "not there")


MADE = """\
dryfit_made = 1

[pinned."shelf"]            # held since the first sheet
datum = "start"
face_side = "upper"
mark = "C"

[[cut]]
between = ["left upright", "shelf"]
front = "shelf"
"""


def test_a_rename_reaches_what_has_been_made_and_is_taken_back_there_too(window, job):
    made = job.with_name("shelf.made.toml")
    made.write_text(MADE, encoding="utf-8")
    window.session.look()
    window.do(do="typed", card={"board": "shelf"}, key=["name"], entry="ledge").raise_for_status()
    assert made.read_text(encoding="utf-8") == MADE.replace('"shelf"', '"ledge"')
    assert [board["mark"] for board in window.state()["drawing"]["boards"]][2] == "C", "its letter stays"
    window.step("undo").raise_for_status()
    assert made.read_text(encoding="utf-8") == MADE
    window.step("redo").raise_for_status()
    assert made.read_text(encoding="utf-8") == MADE.replace('"shelf"', '"ledge"')


def test_one_of_a_row_or_a_frame_is_renamed_with_all_that_names_it(window, job):
    row = '[[board]]\nname = "post"\ncount = 2\nline = [["300 + i * 200", 500], ["300 + i * 200", 900]]\ndepth = 200\n'
    box = '[[frame]]\nname = "box"\npoints = [[1200, 0], [1500, 0], [1500, 300], [1200, 300]]\ndepth = 200\n'
    joint = '[[unit]]\nname = "loose"\nboards = ["post 2", "box 3"]\n'
    window.write(f"{SHELF}\n{row}\n{box}\n{joint}").raise_for_status()
    for board, name in (("post 2", "stile"), ("box 3", "lid")):
        done = window.do(do="typed", card={"board": board}, key=["name"], entry=name).raise_for_status().json()
        assert not done["state"]["mistakes"]
    text = job.read_text(encoding="utf-8")
    assert 'boards = ["stile", "lid"]' in text
    assert 'names = ["box 1", "box 2", "lid", "box 4"]' in text
    names = [board["name"] for board in window.state()["drawing"]["boards"]]
    assert names[3:] == ["post 1", "stile", "box 1", "box 2", "lid", "box 4"]
    for _ in range(2):
        window.step("undo").raise_for_status()
    assert 'boards = ["post 2", "box 3"]' in job.read_text(encoding="utf-8")
