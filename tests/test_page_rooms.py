"""The rules of the page's rooms (tools/rooms.py): nothing below imports from above, nobody imports a light.

Each rule is broken once in a page of five small files: `core/a.ts`, `lifted/b.ts`, `lights/hold/index.ts`,
`lights/bench/index.ts`, `main.ts`.
"""

from pathlib import Path

import pytest

ROOT = Path(__file__).parent.parent
WHOLE = {
    "core/a.ts": 'import { thing } from "three";\n',
    "lifted/b.ts": 'import type { A } from "../core/a";\nimport "./b.css";\n',
    "lights/hold/index.ts": 'import B from "../../lifted/b";\n',
    "lights/bench/index.ts": "",
    "lights/register.ts": 'const found = import.meta.glob("./*/index.ts");\n',
    "main.ts": 'import { LIGHTS } from "./lights/register";\n',
}


@pytest.fixture
def rooms(monkeypatch):
    monkeypatch.syspath_prepend(str(ROOT))
    from tools import rooms

    return rooms


@pytest.fixture
def said(rooms, tmp_path):
    """What is said of the small page with some files otherwise."""

    def of(**changes):
        for name, text in {**WHOLE, **{key.replace("__", "/") + ".ts": text for key, text in changes.items()}}.items():
            (tmp_path / name).parent.mkdir(parents=True, exist_ok=True)
            (tmp_path / name).write_text(text, encoding="utf-8")
        return rooms.faults(tmp_path)

    return of


def test_the_page_itself_keeps_to_them(rooms):
    assert len(list((ROOT / "page" / "src").rglob("*.svelte"))) > 30, "there is something to look at"
    assert rooms.faults(rooms.SOURCE) == []


def test_a_page_that_keeps_to_them_has_no_fault(said):
    assert said() == []


def test_a_room_below_imports_nothing_from_above(said):
    (fault,) = said(core__c='import { b } from "../lifted/b";\n')
    assert fault == "core/c.ts: imports lifted/b.ts, of a room above its own"


@pytest.mark.parametrize("way", ['from "../lights/hold"', '"../lights/hold/index"', '("../lights/hold/index.ts")'])
def test_nobody_imports_a_light_in_whatever_way_it_is_written(said, way):
    found = said(bar__c=f"import {way};\n")
    assert found == ["bar/c.ts: imports lights/hold/index.ts; nobody imports a light"]


def test_nor_does_another_light(said):
    found = said(lights__bench__more='import { light } from "../hold";\n')
    assert found == ["lights/bench/more.ts: imports lights/hold/index.ts; nobody imports a light"]


def test_only_one_file_asks_for_all_lights(said):
    found = said(bar__c='import { LIGHTS } from "../lights/register";\n')
    assert found == ["bar/c.ts: imports lights/register.ts; only main.ts asks for all lights"]


def test_a_circle_is_found_whatever_is_imported_over_it(said):
    found = said(
        core__c='import type { D } from "./d";\n', core__d='import { e } from "./e";\n', core__e='import "./c";\n'
    )
    assert found == ["core/c.ts -> core/d.ts -> core/e.ts -> core/c.ts: a circle"]


def test_a_new_folder_must_be_given_its_place(said):
    assert said(attic__c='import "../core/a";\n') == [
        "attic/c.ts: attic/ is no room; give it its place in tools/rooms.py"
    ]


def test_lint_runs_the_check():
    lint = (ROOT / "start.py").read_text(encoding="utf-8").partition("def lint(")[2].partition("\ndef ")[0]
    assert '"rooms.py"' in lint
