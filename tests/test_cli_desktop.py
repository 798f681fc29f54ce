"""At home in a desktop and in a shell, and gone again without a trace."""

import configparser
import os
import shlex
import subprocess
import sys
from xml.etree import ElementTree

import click
import pytest

from explorer.cli.main import commands
from explorer.files.desktop import MIME_TYPE, data_home, desktop_files, install, remove
from explorer.resource_files import scenario_folder


def gloaming(*words, **environment):
    return subprocess.run(
        [sys.executable, "-m", "explorer", *words], env={**os.environ, **environment},
        capture_output=True, text=True, timeout=120, check=False,
    )  # fmt: skip


def everything(folder):
    return {path for path in folder.rglob("*") if path.is_file()}


def test_the_desktop_is_told_how_to_start_the_program_and_forgets_it_again(tmp_path):
    home = tmp_path / "home of m&m"
    assert gloaming("desktop", HOME=str(home), XDG_DATA_HOME="").returncode == 0
    share = home / ".local" / "share"
    entry = configparser.ConfigParser(interpolation=None, strict=True)
    entry.optionxform = str
    entry.read(share / "applications" / "gloaming.desktop", encoding="utf-8")
    said = entry["Desktop Entry"]
    program, *words = shlex.split(said["Exec"])
    assert program == sys.executable
    assert words[-2:] == ["open", "%f"]
    assert said["MimeType"] == f"{MIME_TYPE};"
    assert (share / "icons/hicolor/scalable/apps/gloaming.svg").read_text().lstrip()[0] == "<"
    done = gloaming("desktop", "--remove", HOME=str(home), XDG_DATA_HOME="")
    assert done.stdout.count("is gone") == 4
    assert not [path for path in everything(home) if "gloaming" in path.name]


def test_every_bundled_scenario_is_known_by_its_first_letters():
    root = ElementTree.fromstring(desktop_files(["gloaming"])["mime/packages/gloaming.xml"])
    match = root.find(".//{*}match")
    first, last = map(int, match.get("offset").split(":"))
    for scenario in scenario_folder().glob("*.json"):
        place = scenario.read_text(encoding="utf-8").find(match.get("value"))
        assert first <= place <= last, scenario


def test_odd_names_of_folders_reach_the_program_whole(tmp_path):
    odd = '/srv/m "q" $x `y` 100%/gloaming'
    entry = desktop_files([odd])["applications/gloaming.desktop"].decode()
    line = next(line for line in entry.splitlines() if line.startswith("Exec="))
    unescaped = line.removeprefix("Exec=").replace("\\\\", "\\")
    word = shlex.split(unescaped)[0]
    assert word.replace("\\$", "$").replace("\\`", "`").replace("%%", "%") == odd


def test_a_data_folder_that_cannot_be_is_said_in_a_sentence(tmp_path):
    (tmp_path / "share").write_text("", encoding="utf-8")
    done = gloaming("desktop", XDG_DATA_HOME=str(tmp_path / "share"))
    assert done.returncode == 3
    assert "cannot be made" in done.stderr
    assert "Traceback" not in done.stderr


def test_only_an_absolute_data_folder_counts(tmp_path):
    assert data_home({"XDG_DATA_HOME": "here"}, tmp_path) == tmp_path / ".local" / "share"
    assert data_home({"XDG_DATA_HOME": "/there"}, tmp_path).as_posix() == "/there"


def test_removing_what_was_never_there_is_no_fault(tmp_path):
    assert remove(tmp_path) == []
    install(tmp_path, ["gloaming"])
    assert len(remove(tmp_path)) == 4


def test_a_shell_completes_commands_and_options():
    asked = {"_GLOAMING_COMPLETE": "bash_complete", "COMP_CWORD": "1"}
    done = gloaming(COMP_WORDS="gloaming sw", **asked)
    assert (done.returncode, done.stdout.strip()) == (0, "plain,sweep")
    done = gloaming(COMP_WORDS="gloaming check --j", **{**asked, "COMP_CWORD": "2"})
    assert done.stdout.strip() == "plain,--json"


@pytest.mark.parametrize("shell", ["bash", "zsh", "fish"])
def test_the_script_for_a_shell_names_the_program(shell):
    done = gloaming("completion", shell)
    assert done.returncode == 0
    assert "_GLOAMING_COMPLETE" in done.stdout


def test_every_command_and_every_option_is_explained():
    context = click.Context(commands)
    for name in commands.list_commands(context):
        command = commands.get_command(context, name)
        assert command.hidden or command.help, name
        for option in command.params:
            if option.param_type_name == "option" and not option.hidden:
                assert option.help, f"{name} {option.name}"
