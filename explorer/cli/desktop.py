"""``gloaming desktop`` and ``gloaming completion``: at home in a desktop and in a shell."""

from __future__ import annotations

import os
import sys
from pathlib import Path

import click
from click.shell_completion import get_completion_class

BAD_INPUT = 3


@click.command()
@click.option("--remove", "takes_off", is_flag=True, help="Take it off again.")
@click.pass_context
def desktop(context: click.Context, takes_off: bool) -> None:
    """Put the program into the menu of a Linux desktop, with its icon and its kind of file.

    Scenario files can then be opened with a double click. Everything lies in your own data
    folder, and --remove takes it away.
    """
    from explorer.files import desktop as files
    from explorer.files.disk import FileError

    if not sys.platform.startswith("linux"):
        click.echo("This is for desktops on Linux; elsewhere drag the program where you want it.",
                   err=True)  # fmt: skip
        context.exit(BAD_INPUT)
    folder = files.data_home(os.environ, Path.home())
    try:
        if takes_off:
            for place in files.remove(folder):
                click.echo(f"{place} is gone.")
        else:
            for place in files.install(folder, _command()):
                click.echo(f"{place} is written.")
    except FileError as fault:
        click.echo(str(fault), err=True)
        context.exit(BAD_INPUT)


def _command() -> list[str]:
    """What starts this program, wherever one stands."""
    called = Path(sys.argv[0]).absolute()
    if getattr(sys, "frozen", False):
        return [sys.executable]
    if called.name == "gloaming" and os.access(called, os.X_OK):
        return [str(called)]
    return [sys.executable, "-P", "-m", "explorer"]


@click.command()
@click.argument("shell", type=click.Choice(["bash", "zsh", "fish"]))
@click.pass_context
def completion(context: click.Context, shell: str) -> None:
    """Print what lets a SHELL complete commands and options with the tab key.

    \b
    bash:  gloaming completion bash > ~/.local/share/bash-completion/completions/gloaming
    zsh:   gloaming completion zsh > a file _gloaming in a folder of $fpath
    fish:  gloaming completion fish > ~/.config/fish/completions/gloaming.fish
    """  # noqa: D301 (click wants the mark itself)
    found = get_completion_class(shell)
    assert found is not None
    root = context.find_root().command
    click.echo(found(root, {}, "gloaming", "_GLOAMING_COMPLETE").source())
