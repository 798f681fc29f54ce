"""Where the stand-alone program begins."""

import multiprocessing

if __name__ == "__main__":
    # The processes of a sweep are this program once more.
    multiprocessing.freeze_support()

    from explorer.cli.main import main

    main()
