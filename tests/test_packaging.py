"""What a person installs holds everything that the program needs, and nothing else."""

import os
import re
import subprocess
import sys
import sysconfig
import venv
import zipfile
from pathlib import Path

import click
import pytest
from click.testing import CliRunner

from explorer.advice.assess import assess
from explorer.advice.case import Case
from explorer.cli.main import commands
from explorer.files.scenario_json import load_scenario, parse_scenario
from explorer.scenario import model, part
from explorer.scenario.model import with_value
from tests.bench_runs import hanging_run, written

ROOT = Path(__file__).parent.parent
TOP = {
    "README.md",
    "DEVELOPERS.md",
    "pyproject.toml",
    "explorer",
    "tests",
    "resources",
    "scenarios",
}
MADE_BY_TOOLS = {"build", "dist"}
EXIT_CODES = {"Runs": 0, "Marginal": 1, "Falls short": 2}


def run(*command, cwd):
    """Run a command that must not see the checkout."""
    kept = {k: v for k, v in os.environ.items() if not k.startswith(("PYTHON", "COV_"))}
    return subprocess.run(
        [str(part) for part in command],
        cwd=cwd,
        env=kept | {"PYTHONUTF8": "1"},
        capture_output=True,
        text=True,
        check=False,
        timeout=300,
    )


@pytest.fixture(scope="session")
def wheel(tmp_path_factory):
    """The wheel, built from the checkout as it stands."""
    out = tmp_path_factory.mktemp("wheel")
    built = run(
        sys.executable, "-m", "build", "--wheel", "--no-isolation", "-o", out, ROOT, cwd=out
    )
    assert built.returncode == 0, built.stdout + built.stderr
    return next(out.glob("*.whl"))


@pytest.fixture(scope="session")
def installed(wheel, tmp_path_factory):
    """Folder of programs of a bare environment that holds the wheel and an empty folder.

    The libraries are borrowed from the running environment, so nothing is downloaded; a path
    file is not followed into another, so an editable install of the checkout stays unseen.
    """
    place = tmp_path_factory.mktemp("bare")
    venv.create(place / "venv", symlinks=True)
    programs = place / "venv" / "bin"
    version = f"python{sys.version_info.major}.{sys.version_info.minor}"
    packages = place / "venv" / "lib" / version / "site-packages"
    (packages / "borrowed.pth").write_text(sysconfig.get_path("purelib") + "\n")
    (place / "empty").mkdir()
    pip = (sys.executable, "-m", "pip", "--python", programs / "python", "install")
    done = run(*pip, "--no-deps", "--no-index", "-q", wheel, cwd=place / "empty")
    assert done.returncode == 0, done.stdout + done.stderr
    return programs, place / "empty"


def test_the_wheel_holds_one_package_with_its_resources(wheel):
    names = zipfile.ZipFile(wheel).namelist()
    tops = {name.split("/")[0] for name in names}
    assert {top for top in tops if not top.endswith(".dist-info")} == {"explorer"}
    left_out = (ROOT / "resources" / "pictures", ROOT / "resources" / "packaging")
    bundled = {name for name in names if name.startswith("explorer/_bundled/")}
    assert bundled == {
        f"explorer/_bundled/{path.relative_to(ROOT).as_posix()}"
        for folder in ("resources", "scenarios")
        for path in (ROOT / folder).rglob("*")
        if path.is_file() and path.suffix not in (".ts", ".pyc") and not path.name.startswith(".")
        and not any(path.is_relative_to(folder) for folder in left_out)
    }
    assert not [name for name in names if name.endswith(".pyc") or "tests/" in name]


def test_the_wheel_declares_its_command_and_its_limits(wheel):
    with zipfile.ZipFile(wheel) as archive:
        texts = {
            n.split("/")[-1]: archive.read(n).decode() for n in archive.namelist() if "info/" in n
        }
    assert "gloaming = explorer.__main__:main" in texts["entry_points.txt"]
    assert "Requires-Python: >=3.11" in texts["METADATA"]
    assert "License-Expression: MIT" in texts["METADATA"]
    lines = texts["METADATA"].lower().splitlines()
    qt = next(line for line in lines if "requires-dist: pyside6-essentials" in line)
    assert all(limit in qt for limit in ("<6.11", "!=6.9.1", "!=6.9.2", ">=6.8"))


def test_the_installed_command_judges_a_bundled_scenario(installed):
    programs, empty = installed
    asked = "from explorer.resource_files import scenario_folder as f; print(f())"
    found = run(programs / "python", "-c", asked, cwd=empty)
    folder = Path(found.stdout.strip())
    assert programs.parent in folder.parents, found.stderr
    scenario = min(folder.glob("*.json"))
    judged = run(programs / "gloaming", "check", scenario, cwd=empty)
    word = next((word for word in EXIT_CODES if word in judged.stdout), None)
    assert word is not None, judged.stdout + judged.stderr
    assert judged.returncode == EXIT_CODES[word]
    assert judged.stderr == ""


def test_the_command_line_starts_without_qt(installed):
    programs, empty = installed
    asked = "import sys, explorer.cli.main; print(*{name.split('.')[0] for name in sys.modules})"
    loaded = run(programs / "python", "-c", asked, cwd=empty)
    assert loaded.returncode == 0, loaded.stderr
    assert not {"PySide6", "pyqtgraph", "shiboken6"} & set(loaded.stdout.split())


def test_a_bad_file_is_answered_with_a_sentence_and_3(installed):
    programs, empty = installed
    judged = run(programs / "gloaming", "check", "none.json", cwd=empty)
    assert judged.returncode == 3
    assert "There is no file none.json." in judged.stderr
    assert "Traceback" not in judged.stderr


def test_the_top_of_the_checkout_is_tidy():
    found = {path.name for path in ROOT.iterdir() if not path.name.startswith(".")}
    assert found - MADE_BY_TOOLS == TOP


def readme():
    return (ROOT / "README.md").read_text(encoding="utf-8")


def readme_blocks():
    return re.findall(r"^```\w*\n(.*?)\n```$", readme(), re.DOTALL | re.MULTILINE)


def test_the_device_of_the_readme_is_judged_as_it_says():
    """A newcomer copies this block first, so it must be taken as it stands."""
    (block,) = [block for block in readme_blocks() if block.startswith("{")]
    found = assess(Case(parse_scenario(block, "mine.json")))
    assert found.verdict.word == "Runs"
    assert "prints **Runs**" in readme()
    assert len(found.verdict.checks) == 6
    assert "more than a dozen answers" in readme()
    assert len(found.answers) > 12
    # What the text says to try next: either change turns the verdict.
    for path, value in (("light.illuminance_lx", 150.0), ("load.sleep_A", 4e-6)):
        worse = assess(Case(with_value(found.scenario, path, value)))
        assert min(c.margin for c in worse.verdict.checks) < min(
            c.margin for c in found.verdict.checks if c.name not in ("ratings", "service")
        )


def test_the_readme_names_the_versions_of_files_and_the_number_of_examples():
    """What a newcomer writes by hand begins as the program itself begins a file."""
    text = readme()
    assert f'"format": "gloaming-scenario", "version": {model.VERSION}`' in text
    assert f'"format": "gloaming-part", "version": {part.VERSION}`' in text
    assert set(re.findall(r'^  "version": (\d+),$', text, re.MULTILINE)) == {str(model.VERSION)}
    number = {7: "seven", 8: "eight", 9: "nine"}[len(list((ROOT / "scenarios").glob("*.json")))]
    assert f"shows {number} finished scenarios" in text


def test_the_readme_shows_every_command_and_no_other():
    (block,) = [block for block in readme_blocks() if "gloaming schema" in block]
    lines = [line for line in block.splitlines() if "open the window" not in line]
    context = click.Context(commands)
    names = commands.list_commands(context)
    shown = {name for name in names if not commands.get_command(context, name).hidden}
    assert {line.split()[1] for line in lines} == shown


def test_every_command_of_the_readme_does_what_it_says(tmp_path, monkeypatch):
    """Word for word, with real files in the place of the capital letters."""
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path / "share"))
    (block,) = [block for block in readme_blocks() if block.startswith("{")]
    Path("mine.json").write_text(block, encoding="utf-8")
    rows = [f"{i / 1000},{0.02 if i % 1000 < 100 else 2e-6}" for i in range(5000)]
    Path("load.csv").write_text("time_s,current_A\n" + "\n".join(rows), encoding="utf-8")
    probe = ROOT / "scenarios" / "soil_probe.json"
    (run_of_probe,) = written([hanging_run(load_scenario(probe).scenario, 1.0)], tmp_path)
    files = {
        "FILE…": "mine.json", "FILE": "mine.json", "CSV": "load.csv", "LOG…": str(run_of_probe),
        "LOG": str(run_of_probe), "PATH": "store.capacitance_F",
        "SHELL": "bash", "D": "1", "S": "600", "out.pdf|.html": "out.html",
    }  # fmt: skip
    (listed,) = [block for block in readme_blocks() if "gloaming schema" in block]
    ran = set()
    for line in listed.splitlines():
        words = re.sub(r"\[(?!--days).*?\]|(?<=\S)   +.*|[\[\]]", "", line).split()[1:]
        name, *rest = [files.get(word, word) for word in words if word != "…"] or ["window"]
        if name in ("trace", "sweep"):
            Path("out.csv").unlink(missing_ok=True)
        if name in ("window", "open", "measure", "stand"):
            continue  # windows, and a meter; tests of their own open them
        if name == "look":
            rest = [str(run_of_probe)]
        if name == "bench":
            rest[0] = str(probe)
        done = CliRunner().invoke(commands, [name, *rest])
        assert done.exit_code in (0, 1, 2), f"{line}: {done.output}"
        assert done.exception is None or isinstance(done.exception, SystemExit)
        ran.add(name)
    assert {"check", "trace", "report", "sweep", "bench", "capture", "look", "schema"} <= ran
    assert len(Path("out.csv").read_text().splitlines()) == 1 + 40 * 8
    assert Path("out.html").read_text(encoding="utf-8").startswith("<!DOCTYPE html>")


def test_the_stand_alone_program_knows_its_workers_and_its_processes():
    """What the recipe freezes begins like the command does; a bundle is tried by bundle_trial."""
    entry = ROOT / "resources" / "packaging" / "entry.py"
    text = entry.read_text(encoding="utf-8")
    assert text.index("freeze_support()") < text.index("main()")
    with subprocess.Popen(
        [sys.executable, entry, "worker"], stdin=subprocess.PIPE, stdout=subprocess.PIPE,
        env={**os.environ, "PYTHONPATH": str(ROOT)},
    ) as worker:  # fmt: skip
        assert b"ready" in worker.stdout.read1()
        worker.stdin.close()  # its input ends, and so does it
        assert worker.wait(timeout=60) == 0


def test_a_bundle_starts_itself_and_no_interpreter(monkeypatch):
    from explorer.state import own_program

    monkeypatch.setattr(sys, "frozen", True, raising=False)
    assert own_program.own_words("measure", "x") == ["measure", "x"]


def test_the_fresh_machine_runs_the_command_of_the_readme():
    (shown,) = [block for block in readme_blocks() if "pytest" in block and "pip install" in block]
    assert "\n" not in shown
    script = (ROOT / ".ci" / "run").read_text(encoding="utf-8")
    (used,) = re.findall(
        r"^test_command=\$\(cat <<'END'\n(.*?)\nEND\n\)$", script, re.M | re.DOTALL
    )
    assert used == shown
    assert os.access(ROOT / ".ci" / "run", os.X_OK)
