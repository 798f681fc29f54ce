"""Commands of which each is loaded when it is called: the others would take their time, too."""

from __future__ import annotations

from importlib import import_module
from pathlib import Path

import click

ELSEWHERE = {
    "bench": ("explorer.cli.bench", "bench"),
    "builds": ("explorer.cli.builds", "builds"),
    "capture": ("explorer.cli.capture", "capture"),
    "completion": ("explorer.cli.desktop", "completion"),
    "desktop": ("explorer.cli.desktop", "desktop"),
    "look": ("explorer.cli.look", "look_command"),
    "measure": ("explorer.cli.measure", "measure"),
    "report": ("explorer.cli.report", "report"),
    "study": ("explorer.cli.study", "study"),
    "sweep": ("explorer.cli.sweep", "sweep"),
}
"""Module and name of each command that stands in a module of its own."""


class Later(click.Group):
    """A group that knows the names of all commands, and loads those that are asked for."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        """Names of all commands, in the order of the alphabet."""
        return sorted({*super().list_commands(ctx), *ELSEWHERE})

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        """One command; None where there is none of that name."""
        if cmd_name in ELSEWHERE:
            module, name = ELSEWHERE[cmd_name]
            found = getattr(import_module(module), name)
            assert isinstance(found, click.Command)
            return found
        return super().get_command(ctx, cmd_name)

    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        """The command that is named first; of a file there it says which commands take one."""
        name = args[0]
        if self.get_command(ctx, name) is None and Path(name).suffix.lower() == ".json":
            ctx.fail(
                f"{name} is no command. gloaming open {name} shows it, gloaming check {name} "
                "judges it."
            )
        return super().resolve_command(ctx, args)
