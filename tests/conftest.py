"""How all tests draw: the same examples on every run, so that a red run can be looked at again.

To hunt with fresh ones: `HYPOTHESIS_PROFILE=hunt`. A fault of our own is raised, here and in every process that a test
starts: what is isolated from a maker would be hidden from the test. Tests of the isolation ask for `isolated`.
"""

import os

import pytest
from hypothesis import HealthCheck, settings

from dryfit.asking import RAISE

os.environ[RAISE] = "1"


@pytest.fixture
def isolated(monkeypatch: pytest.MonkeyPatch) -> None:
    """Faults are told and the rest goes on, as for a maker."""
    monkeypatch.delenv(RAISE)


# No deadlines: a machine that does something else as well is slow now and then.
settings.register_profile("same", derandomize=True, deadline=None, database=None, print_blob=True)
settings.register_profile(
    "hunt", deadline=None, suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much]
)
settings.load_profile(os.environ.get("HYPOTHESIS_PROFILE", "same"))
