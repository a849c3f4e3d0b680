"""Three of each, added on three branches at once, merge without a hand: nothing that is added touches a common line.

    python -m tests.merging [COMMIT]

In a clone of its own, three branches from COMMIT (left out: HEAD) each add what the templates of the manual add, under
names of their own: a kind of joint with what the properties draw of it, a study, a paper of its own, a file, a light;
with the pages and the fragment of the changelog that the manual asks for. They are merged one after the other; the
registers' tests and a book with all of it are then run on the merge. 1 if anything of it fails, with what git or the
tests said.
"""

import os
import re
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

from tests.adding import PAGES, PIECE, ROOT, templates

BRANCHES = ("one", "two", "three")
TESTS = (
    "tests/test_scanning.py",
    "tests/test_codes.py",
    "tests/test_house.py",
    "tests/documents/test_writers.py",
    "tests/documents/test_writing.py",
    "tests/test_docs.py",
    "tests/property/test_volumes_and_gaps.py::test_every_kind_of_joint_has_its_strategy_and_its_closed_form",
)
LIGHT = re.compile(r"^`(\S+)`\n\n```(?:ts|svelte)\n(.*?)^```", re.MULTILINE | re.DOTALL)
LEFT_OUT = "not random and not template and not python and not name_of_another"  # what is slow or of no register
JOB = (
    PIECE
    + """\
[joints]
end_on_face = "plain end {branch}"
[trailer_{branch}]
length = 550
"""
)


class Trouble(Exception):  # noqa: N818 - it is what the script is there to find
    """A command failed; its text is what that said."""


def ran(folder, *command, **env):
    """What a command prints.

    Raises:
        Trouble: it failed.
    """
    own = {"GIT_AUTHOR_NAME": "a", "GIT_AUTHOR_EMAIL": "a@a", "GIT_COMMITTER_NAME": "a", "GIT_COMMITTER_EMAIL": "a@a"}
    done = subprocess.run(
        command, cwd=folder, env={**os.environ, **own, **env}, capture_output=True, text=True, check=False
    )
    if done.returncode:
        raise Trouble(f"{' '.join(command)}\n{done.stdout}{done.stderr}")
    return done.stdout


def called(text, branch):
    """A template under names of its own: each short text in quotes that names something."""
    for name in ("trailer", "loading", "lengths", "plain end"):
        more = f" {branch}" if " " in name else f"_{branch}"
        text = text.replace(f'"{name}"', f'"{name}{more}"')
    text = re.sub(r'"(loading|lengths)\.(pdf|csv)"', rf'"\1_{branch}.\2"', text)
    return re.sub(r'"(longer-than-the-trailer|Loading list|Lengths to buy)"', rf'"\1-{branch}"', text)


def additions(branch):
    """The files of a branch by their place in the checkout."""
    found = {}
    for page in PAGES:
        for place, text in templates(page).items():
            path = Path(place)
            if path.parts[0] != "studies":
                found[f"src/dryfit/{path.parent}/{path.stem}_{branch}{path.suffix}"] = called(text, branch)
            elif path.parts[1] == "trailer":  # of the page's studies the one: another of them fails on purpose
                found[f"src/dryfit/{path.parent}_{branch}/{path.name}"] = called(text, branch)
        for place, text in templates(page, "tests").items():
            path = Path(place)
            found[f"tests/{path.parent}/{path.stem}_{branch}{path.suffix}"] = called(text, branch)
    for name, text in LIGHT.findall((ROOT / "docs" / "adding-a-light.md").read_text(encoding="utf-8")):
        own = text.replace('name: "weight"', f'name: "weight-{branch}"').replace('"Weight"', f'"Weight {branch}"')
        found[f"page/src/lights/weight-{branch}/{name}"] = own
    code = f"longer-than-the-trailer-{branch}"
    means = "A part is longer than the trailer that is to carry it."
    found[f"docs/findings/{code}.md"] = f"<!-- Figures -->\n\n# {code}\n\n{means}\n\n*Warn.* Divide it.\n"
    found[f"docs/joints/plain-end-{branch}.md"] = (
        f"# Plain end {branch}\n\n`gap` and `glued`, of a **plain end {branch}**.\n"
    )
    found[f"docs/files/loading_{branch}.md"] = f"# The loading list {branch}\n\n`loading_{branch}.pdf`: what goes in.\n"
    found[f"docs/files/lengths_{branch}.md"] = f"# The lengths {branch}\n\n`lengths_{branch}.csv`: a row a part.\n"
    found[f"changelog.d/{branch}.md"] = f"# For those who add to it\n\n- Things called {branch}.\n"
    return found


def merged(folder, commit="HEAD"):
    """A clone in which three branches are merged.

    Raises:
        Trouble: two of them touched a common line.
    """
    ran(folder, "git", "clone", "--quiet", "--shared", str(ROOT), "clone")
    clone = folder / "clone"
    start = ran(ROOT, "git", "rev-parse", commit).strip()
    for branch in BRANCHES:
        ran(clone, "git", "checkout", "--quiet", "-b", branch, start)
        for place, text in additions(branch).items():
            path = clone / place
            assert not path.exists(), f"{place} is there: it is to be added"
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_text(text, encoding="utf-8")
        ran(clone, "git", "add", "--all")
        ran(clone, "git", "commit", "--quiet", "--message", f"Add things called {branch}")
    ran(clone, "git", "checkout", "--quiet", "-b", "all", start)
    for branch in BRANCHES:
        ran(clone, "git", "merge", "--quiet", "--no-edit", branch)
    return clone


def tried(clone):
    """Run the registers' tests and a book of each branch on the merge.

    Raises:
        Trouble: one fails, or something that was added is not made.
    """
    env = {"PYTHONPATH": os.pathsep.join((str(clone / "src"), str(clone))), "PYTHONDONTWRITEBYTECODE": "1"}
    made = {f"{name}_{branch}.{end}" for branch in BRANCHES for name, end in (("loading", "pdf"), ("lengths", "csv"))}
    for branch in BRANCHES:
        job = clone.parent / f"{branch}.toml"
        job.write_text(JOB.format(branch=branch), encoding="utf-8")
        papers = clone.parent / f"papers {branch}"
        said = ran(clone, sys.executable, "-m", "dryfit", "book", str(job), "--out", str(papers), **env)
        lacking = made - {path.name for path in papers.iterdir()}
        if lacking or "the trailer 550" not in said:
            raise Trouble(f"of {branch} were not made: {lacking}\n{said}")
    ran(clone, sys.executable, "-m", "tools.rooms", **env)
    fetched = ROOT / "page" / "node_modules"
    if fetched.is_dir():  # the lights are held to the types of what studies give, as they are built here
        (clone / "page" / "node_modules").symlink_to(fetched, target_is_directory=True)
        shutil.copy(ROOT / "page" / "src" / "core" / "api.ts", clone / "page" / "src" / "core" / "api.ts")
        ran(clone / "page", "npm", "run", "check")
        (clone / "page" / "node_modules").unlink()
    ran(clone, sys.executable, "-m", "pytest", "-q", "-x", "-k", LEFT_OUT, *TESTS, **env)


def main(commit="HEAD"):
    """Do it and say how it went; the exit code."""
    folder = Path(tempfile.mkdtemp(prefix="dryfit merging "))
    try:
        tried(merged(folder, commit))
    except Trouble as trouble:
        print(trouble)
        return 1
    finally:
        shutil.rmtree(folder, ignore_errors=True)
    print("three of each merge clean")
    return 0


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
