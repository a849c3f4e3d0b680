"""What the page's types are made from, and that the routes hold to it whatever is sent."""

import pytest
import schemathesis
from hypothesis import HealthCheck, Phase, settings

from dryfit.editing.refusals import STATUS
from tests.web.served import OWN_FAULT, SHELF, Window
from tools.openapi import described


def test_every_route_says_that_it_may_be_refused_in_the_one_shape():
    for path, methods in described()["paths"].items():
        for method, route in methods.items():
            for status, answer in route["responses"].items():
                if status != "200":
                    shape = answer["content"]["application/json"]["schema"]
                    assert shape == {"$ref": "#/components/schemas/Refusal"}, f"{method} {path} {status}"


def test_every_status_of_a_refusal_is_described():
    (route,) = described()["paths"]["/api/state"].values()
    assert {str(status) for status in STATUS.values()} <= set(route["responses"])


class Served:
    """The application once, with a job that is put back before each request."""

    def __init__(self, folder):
        self.job = folder / "shelf.toml"
        self.job.write_text(SHELF, encoding="utf-8")
        self.window = Window(self.job)
        self.schema = schemathesis.openapi.from_dict(described())
        self.schema.app = self.window.app


@pytest.fixture(scope="module")
def served(tmp_path_factory):
    found = Served(tmp_path_factory.mktemp("schemathesis"))
    yield found
    found.window.close()


# The model comes from the worker, which does not run here: see test_worker.py.
PATHS = [(path, method) for path, methods in described()["paths"].items() for method in methods if "model" not in path]


@pytest.mark.slow
@pytest.mark.parametrize(("path", "method"), PATHS, ids=[f"{method} {path}" for path, method in PATHS])
def test_whatever_is_sent_nothing_falls_over(served, path, method):
    """Requests drawn from the description, and half of them with the right base, give no 5xx and the one shape."""
    window = served.window
    strategy = served.schema[path][method.upper()].as_strategy()

    def send(case):
        body = case.body
        if isinstance(body, dict) and "base_revision" in body and case.body["base_revision"] % 2:
            body = {**body, "base_revision": window.revision()}
        query = dict((case.query or {}).items())
        given = {"params": query}
        if isinstance(body, (dict, list)):
            given["json"] = body
        answer = window.client.request(method.upper(), case.formatted_path, **given)
        assert answer.status_code < 500, answer.text
        assert OWN_FAULT not in answer.text, answer.text
        if answer.status_code >= 400:
            assert set(answer.json()) == {"error"}

    settings(
        max_examples=20,
        deadline=None,
        derandomize=True,
        database=None,
        phases=[Phase.explicit, Phase.generate],
        suppress_health_check=list(HealthCheck),
    )(given_case(strategy)(send))()


def given_case(strategy):
    from hypothesis import given

    return given(case=strategy)
