"""The arrows between the layers run one way, and the sources keep the rules of the house."""

import ast
import os
import re
import subprocess
import sys
from functools import cache
from pathlib import Path

import pytest

import explorer

PACKAGE = Path(explorer.__file__).parent
ROOT = Path(__file__).parent.parent
SOURCES = sorted(PACKAGE.rglob("*.py"))
TEXT_KINDS = {".py", ".md", ".toml", ".json", ".csv", ".txt", ".svg", ".html", ".yml", ".yaml"}
LONGEST_FILE = 450
SKIPPED_FOLDERS = {"build", "dist", "__pycache__"}


def repository_texts():
    """Every text file of the checkout that is not made by a tool."""
    for path in sorted(ROOT.rglob("*")):
        inner = path.relative_to(ROOT).parts
        hidden = any(part.startswith(".") for part in inner) and inner[0] != ".ci"
        if hidden or SKIPPED_FOLDERS & set(inner) or not path.is_file():
            continue
        if path.suffix in TEXT_KINDS or inner[0] == ".ci":
            yield path, path.read_text(encoding="utf-8")


@cache
def tree_of(path):
    """Read once: to read all of the code takes a second."""
    return ast.parse(path.read_text(encoding="utf-8"))


def imported_names(path):
    for node in ast.walk(tree_of(path)):
        if isinstance(node, ast.ImportFrom):
            yield node.module or ""
            yield from (f"{node.module}.{alias.name}" for alias in node.names)
        elif isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)


def test_the_import_contracts_hold():
    """In a process of its own: the tool would switch off the loggers of this one."""
    code = "import importlinter.cli as c; raise SystemExit(c.lint_imports(no_cache=True))"
    done = subprocess.run(
        [sys.executable, "-c", code], cwd=ROOT, capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, done.stdout + done.stderr


NEW_CACHE = () if (ROOT / ".mypy_cache").exists() else ("--cache-dir", os.devnull)
"""To write one that nobody will read takes a tenth of its time."""


@pytest.mark.parametrize(
    "command",
    [("ruff", "check", "explorer", "tests"), ("mypy", "--strict", *NEW_CACHE, "explorer")],
    ids=["ruff", "mypy"],
)
def test_the_checkers_find_nothing(command):
    """By the settings in pyproject.toml; mypy takes some 20 s where it has no cache yet."""
    done = subprocess.run(
        [sys.executable, "-m", *command], cwd=ROOT, capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, done.stdout + done.stderr


def test_state_knows_no_widgets():
    """The one rule that import-linter cannot say, as QtWidgets is part of another package."""
    paths = sorted((PACKAGE / "state").glob("*.py"))
    assert len(paths) > 1
    guilty = [p.name for p in paths if any("QtWidgets" in name for name in imported_names(p))]
    assert not guilty


@pytest.mark.parametrize("layer", ["physics", "engine"])
def test_physics_and_engine_touch_no_file(layer):
    opened = {"open", "read_text", "write_text", "read_bytes", "loadtxt", "genfromtxt"}
    for path in (PACKAGE / layer).glob("*.py"):
        called = {
            getattr(node.func, "attr", getattr(node.func, "id", ""))
            for node in ast.walk(tree_of(path))
            if isinstance(node, ast.Call)
        }
        assert not called & opened, path.name


CALLED_BY_TESTS_ALONE = {
    "turned_over_j": "the energy against which a ledger's remainder is judged",
    "lux_hours": "what a light log holds, by which its readers are proven",
}


def test_every_public_function_below_the_words_is_called_by_the_product():
    """Names, methods and properties; what only tests call is no part of the product."""
    trees = {path: tree_of(path) for path in SOURCES}
    called = {
        getattr(node, "attr", getattr(node, "id", ""))
        for tree in trees.values()
        for node in ast.walk(tree)
        if isinstance(node, ast.Attribute | ast.Name)
    }
    uncalled = {
        function.name
        for path, tree in trees.items()
        if path.relative_to(PACKAGE).parts[0] in ("physics", "engine", "scenario", "advice")
        for owner in [tree, *(n for n in tree.body if isinstance(n, ast.ClassDef))]
        for function in owner.body
        if isinstance(function, ast.FunctionDef) and not function.name.startswith("_")
        # Validators and the like are called by their decorator.
        and not any(isinstance(d, ast.Call) for d in function.decorator_list)
    } - called
    assert uncalled == set(CALLED_BY_TESTS_ALONE)


def test_what_is_kept_for_good_is_asked_by_no_number():
    """A cache without a bound that is asked by values of a knob grows for as long as it turns."""
    asked = {}
    for path in SOURCES:
        for node in ast.walk(tree_of(path)):
            if isinstance(node, ast.FunctionDef) and any(
                ast.unparse(mark) in ("cache", "functools.cache", "lru_cache(maxsize=None)")
                for mark in node.decorator_list
            ):
                kinds = {ast.unparse(a.annotation) for a in node.args.args if a.annotation}
                asked[f"{path.name}: {node.name}"] = kinds
    assert len(asked) > 5
    numbers = {name for name, kinds in asked.items() if kinds & {"float", "int"}}
    assert not numbers


def test_no_file_is_two_files():
    lengths = {p: len(p.read_text(encoding="utf-8").splitlines()) for p in SOURCES}
    assert not {path: n for path, n in lengths.items() if n > LONGEST_FILE}


def test_colours_come_from_the_theme_alone():
    literal = re.compile(r"#(?:[0-9a-fA-F]{8}|[0-9a-fA-F]{6}|[0-9a-fA-F]{3})\b")
    theme = PACKAGE / "state" / "theme.py"
    found = {
        path.relative_to(PACKAGE).as_posix(): literal.findall(path.read_text(encoding="utf-8"))
        for path in SOURCES
        if path != theme
    }
    assert literal.search(theme.read_text(encoding="utf-8")), "the theme itself names colours"
    assert not {name: hits for name, hits in found.items() if hits}


def test_the_checkout_stands_on_its_own():
    """No path of one machine, and no reach outside of the checkout."""
    # Put together, so that this file does not match itself.
    machine = re.compile("/" + r"(?:work|home|root|Users|tmp)/[\w.]")
    outside = re.compile(r"\.\./" + r"shared|\bshared/" + r"(?:data|design|look|example)")
    texts = dict(repository_texts())
    assert ROOT / "pyproject.toml" in texts
    guilty = {
        path.relative_to(ROOT).as_posix(): hit.group()
        for path, text in texts.items()
        for hit in [machine.search(text) or outside.search(text)]
        if hit
    }
    assert not guilty
