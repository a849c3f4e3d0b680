"""Papers kept for the page: what is saved beside the job is of one state, with the job's own rights.

Two sets of papers, whose stamps end in 1 and in 2; revision 3 of the job is shown.
"""

import stat
import sys

import pytest

from dryfit.documents.stamps import SIGN
from dryfit.editing.refusals import Refused
from dryfit.web.papers import PaperShelf
from dryfit.web.worker.messages import PaperMade


def made(file, number):
    data = f"{SIGN}{number:012x} {file}".encode()
    return PaperMade(task=1, revision=number, file=file, files=((file, data),), pages=(), pictures=())


@pytest.fixture
def shelf(tmp_path):
    job = tmp_path / "wall.toml"
    job.write_text("", encoding="utf-8")
    job.chmod(0o600)
    return PaperShelf(job)


def test_papers_of_two_states_are_not_saved_side_by_side(shelf):
    shelf.put(made("workshop.pdf", 2))
    shelf.put(made("assembly.pdf", 1))

    with pytest.raises(Refused) as told:
        shelf.save([])

    assert told.value.fault.says == "assembly.pdf: of an earlier state of the job than the others"
    assert not shelf.folder.exists()


def test_a_paper_saved_alone_lays_those_of_another_state_aside(shelf):
    for file in ("workshop.pdf", "assembly.pdf"):
        shelf.put(made(file, 1))
    shelf.save([])
    shelf.put(made("workshop.pdf", 2))

    assert shelf.save(["workshop.pdf"]).files == ("workshop.pdf",)
    assert sorted(path.name for path in shelf.folder.iterdir()) == ["assembly.old.pdf", "workshop.pdf"]


@pytest.mark.skipif(sys.platform == "win32", reason="no such rights there")
def test_they_are_as_private_as_the_job(shelf):
    shelf.put(made("parts.csv", 1))
    shelf.save([])

    assert stat.S_IMODE((shelf.folder / "parts.csv").stat().st_mode) == 0o600
    assert stat.S_IMODE(shelf.folder.stat().st_mode) == 0o700
