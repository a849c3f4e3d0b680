"""How all tests draw: the same examples on every run, so that a red run can be looked at again.

To hunt with fresh ones: `HYPOTHESIS_PROFILE=hunt`; for a first look a tenth of them: `fast`, as `start.py test --fast`
has it. A fault of our own is raised, here and in every process that a test
starts: what is isolated from a maker would be hidden from the test. Tests of the isolation ask for `isolated`.
"""

import gc
import os

import pytest
from hypothesis import HealthCheck, settings

from dryfit.asking import RAISE
from dryfit.joints import NAMED
from dryfit.shop.own import SETTINGS
from tests.fewer import fewer_everywhere
from tests.piece.making import UNMADE

LONGEST = ("test_merging.py", "test_setup.py")  # half a minute and more by the processor, in a test or two
os.environ[RAISE] = "1"
os.environ[SETTINGS] = os.path.join(os.path.dirname(__file__), "no settings")  # whose machine it is plays no part


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """What takes longest by itself comes first: begun last, it would leave the other processors idle meanwhile."""
    items.sort(key=lambda item: item.path.name not in LONGEST)


def pytest_collection_finish() -> None:
    """What has been imported and collected stays: no search for rings has to go through it again at every turn."""
    gc.freeze()


def pytest_unconfigure() -> None:
    """Compiled modules that could not be cleared on the way out would complain of it."""
    gc.unfreeze()


@pytest.fixture
def unmade(monkeypatch: pytest.MonkeyPatch) -> str:
    """A kind of joint known by name and not made, whatever kinds have come since."""
    monkeypatch.setattr("dryfit.book.reading.NAMED", (*NAMED, UNMADE))
    return UNMADE


@pytest.fixture
def isolated(monkeypatch: pytest.MonkeyPatch) -> None:
    """Faults are told and the rest goes on, as for a maker."""
    monkeypatch.delenv(RAISE)


# No deadlines: a machine that does something else as well is slow now and then.
settings.register_profile("same", derandomize=True, deadline=None, database=None, print_blob=True)
settings.register_profile(
    "hunt", deadline=None, suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much]
)
settings.register_profile("fast", settings.get_profile("same"), max_examples=10)
PROFILE = os.environ.get("HYPOTHESIS_PROFILE", "same")
settings.load_profile(PROFILE)
if PROFILE == "fast":
    fewer_everywhere()
