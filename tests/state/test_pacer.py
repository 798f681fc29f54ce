from explorer.state.pacer import FramePacer


def test_a_burst_becomes_one_firing_with_one_more_at_its_end(qtbot):
    pacer, fired = FramePacer(interval_ms=30), []
    pacer.due.connect(lambda: fired.append(1))
    with qtbot.waitSignal(pacer.due):
        for _ in range(100):
            pacer.request()
    assert len(fired) == 1
    for _ in range(100):
        pacer.request()
    qtbot.waitUntil(lambda: len(fired) == 2)


def test_it_keeps_firing_while_requests_go_on(qtbot):
    pacer, fired = FramePacer(interval_ms=5), []

    def again():
        fired.append(1)
        if len(fired) < 5:
            pacer.request()

    pacer.due.connect(again)
    pacer.request()
    qtbot.waitUntil(lambda: len(fired) == 5)
