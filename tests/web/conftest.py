"""A fresh shelf behind a server for every test that asks for a `window`."""

import pytest

from tests.web.served import SHELF, Window


@pytest.fixture
def job(tmp_path):
    path = tmp_path / "shelf.toml"
    path.write_text(SHELF, encoding="utf-8", newline="")
    return path


@pytest.fixture
def window(job):
    here = Window(job)
    yield here
    here.close()
