"""``python -m explorer``: the same as the command ``gloaming``."""

from __future__ import annotations

from explorer.cli.main import main

if __name__ == "__main__":
    main()
