import pytest

from tests.meters.bench_meter import SocketMeter


@pytest.fixture
def meters():
    """Makes meters on sockets, and pulls every plug at the end."""
    made = []

    def make(*args, **options):
        made.append(SocketMeter(*args, **options))
        return made[-1]

    yield make
    for meter in made:
        meter.close()
