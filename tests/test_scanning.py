"""Registers filled by what stands in a folder: every file is found, an underscore hides one, no name has two owners."""

import sys

import pytest

from dryfit.joints import KINDS
from dryfit.scanning import Register, modules_in


def test_what_stands_in_a_folder_is_imported_by_name_but_for_what_begins_with_an_underscore(tmp_path, monkeypatch):
    room = tmp_path / "a_room_of_its_own"
    room.mkdir()
    (room / "__init__.py").write_text("")
    for name in ("b", "a", "_hidden"):
        (room / f"{name}.py").write_text(f"said = {name!r}\n")
    (room / "inner").mkdir()
    (room / "inner" / "__init__.py").write_text("said = 'a room'\n")
    (room / "notes.txt").write_text("no module")
    monkeypatch.syspath_prepend(str(tmp_path))
    monkeypatch.delitem(sys.modules, "a_room_of_its_own", raising=False)

    found = modules_in("a_room_of_its_own", [str(room)])

    assert [module.said for module in found] == ["a", "b", "a room"]


def test_a_register_keeps_its_things_in_the_order_that_they_give_themselves():
    register = Register("figures", lambda figure: figure)
    for name, figure in (("late", 9), ("early", 1), ("b", 5), ("a", 5)):
        register.file(name, figure)
    assert list(register) == ["early", "a", "b", "late"]


def test_a_second_of_one_name_is_refused_and_the_first_stays():
    register = Register("figures", lambda figure: figure)
    register.file("one", 1)
    with pytest.raises(ValueError, match="two figures are called 'one'"):
        register.file("one", 2)
    assert register == {"one": 1}


def test_joint_kinds_stand_in_one_order_however_they_were_found():
    assert list(KINDS) == sorted(KINDS, key=lambda name: (KINDS[name].order, name))
