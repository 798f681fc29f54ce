"""Questions for a worker that load nothing: a process that answers them is ready at once."""

import os
import time

from explorer.text import say


def where(hold):
    """Tells in which process it runs."""
    yield os.getpid()


def sentence(hold):
    """A text made over there."""
    yield say("lasts {time}", time=say("3 d"))


def until_stopped(hold):
    """Works until it is told to stop."""
    yield "begun"
    while not hold():
        time.sleep(0.005)
    yield "went on"


def ends_its_process(spared, hold):
    """As a crash does, except in the process of the window."""
    if os.getpid() != spared:
        os._exit(9)
    yield os.getpid()
