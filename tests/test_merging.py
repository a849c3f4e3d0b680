"""Three joints, studies, papers, files and lights, each set on a branch of its own: no two touch a common line."""

import pytest

from tests.merging import main


@pytest.mark.slow
def test_three_of_each_merge_clean(capsys):
    assert main() == 0, capsys.readouterr().out
