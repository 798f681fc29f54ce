"""What a test of the window waits for."""


def confirmed(found):
    """Whether every break-even that arrived has the word of the exact march."""
    return all(not one.is_draft for one in found.values())
