"""The job's card has every table that a job may have one of, those of studies and of its kinds of joint too."""

from dryfit.studies import STUDIES

OWNED = [table for study in STUDIES.values() for table in study.owns]


def test_tables_of_studies_and_kinds_stand_on_the_job_s_card(window):
    card = window.client.get("/api/card").json()
    keys = {tuple(row["key"]) for row in card["rows"]}
    for table in OWNED:
        assert {(table.word, key) for key in table.model.model_fields} <= keys
    made = {joint["kind"] for joint in window.client.get("/api/state").json()["drawing"]["joints"]}
    assert made & {key[1] for key in keys if key[0] == "joints" and len(key) == 3}


def test_the_section_of_a_joint_has_both_boards_and_its_widths_as_the_card_says_them(window):
    joints = window.client.get("/api/state").json()["drawing"]["joints"]
    looked = 0
    for joint in joints:
        card = window.client.get("/api/card", params={"joint": joint["boards"]}).json()
        if "wall" in joint["boards"]:
            assert card["section"] is None
            continue
        section = card["section"]
        assert {wood["board"] for wood in section["wood"]} == set(joint["boards"])
        left, foot, right, head = section["window"]
        assert all(
            left <= x <= right and foot <= y <= head for wood in section["wood"] for a in wood["areas"] for x, y in a
        )
        said = " ".join(text for _, text in card["figures"])
        assert all(f"{width['says']} across" in said for width in section["widths"])
        looked += len(section["widths"])
    assert looked > 0
