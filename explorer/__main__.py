"""The command ``gloaming``, also as ``python -m explorer``."""

from __future__ import annotations

import gc


def main() -> None:
    """Load the command line and run it.

    What is loaded stays to the end, and the collector of cycles has nothing to find in it: it does
    not run meanwhile, and does not look there later.
    """
    gc.disable()
    from explorer.cli.main import main as run
    from explorer.loaded import settle_down

    settle_down()
    gc.enable()
    run()


if __name__ == "__main__":
    main()
