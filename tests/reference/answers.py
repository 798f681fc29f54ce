"""All readings and answers of one case by the reference, under the product's names."""

import contextlib
from math import inf, isfinite

from tests.reference import habit, nearby
from tests.reference.device import WEEK_S
from tests.reference.march import March

MOST = 4000
"""Stretches of one march; a case in which more happens is left to the long run."""


class Right:
    """What is right for one case; what takes too long is left out."""

    def __init__(self, case, most=MOST, nudge=nearby.GIVEN):
        self.scenario, self.log = case
        self.device, self.nudge = nearby.device(case, nudge), nudge
        device = self.device
        self.most = most
        margins = self.scenario.margins
        self.allowed_s = margins.start_within_h * 3600.0
        self.first = habit.first_charge(device, self.allowed_s, most)
        self.starts = isfinite(self.first.started_s)
        self.answers = {
            "first_connect_s": self.first.connect_s,
            "first_charge_s": self.first.started_s,
            "longest_dark_s": self._longest_dark(),
        }
        self._try("full_charge_s", lambda: habit.full_charge_s(device, most))
        self._one_charge()
        self.margins = {"starts": self.allowed_s / max(self.first.started_s, 1e-9)}
        ratio, self.level_v = habit.balance(device)
        self.margins["balance"] = self.answers["balance_ratio"] = ratio
        self.course, self.never_settles, self.hardest = None, False, None
        if self.starts:
            try:
                self._first_operation()
                self._course()
            except habit.TooLong as fault:
                self.course = None
                self.never_settles = isinstance(fault, habit.NeverSettles)
        self.margins["ratings"] = habit.ratings(device)

    def _try(self, name, make):
        with contextlib.suppress(habit.TooLong):
            self.answers[name] = make()

    def _longest_dark(self):
        return max((n for _, n in habit.dark_stretches(self.device)), default=0.0)

    def _full(self):
        device = self.device
        return device.store.state(device.full_v)

    def _one_charge(self):
        device = self.device
        try:
            limit = habit.LONGEST_S
            time, march = habit.lasts(device, self._full(), 0.0, limit, self.most, False)
        except habit.TooLong:
            return
        if time < limit:
            self.answers["dark_time_s"] = time
            self.answers["operations_per_charge"] = sum(march.totals.served)

    def _first_operation(self):
        """Time to the end of the first operation: from where the start-up ended."""
        march = self.first.march
        if not self.device.jobs:
            return
        begin = habit.first_light_s(self.device)
        copy = March(self.device, march.y, connected=True, charging=march.charging,
                     begin_s=march.t, most=self.most)
        end = march.t + 4.0 * self.device.period_s
        copy.to(end, stop=lambda m: m.first_done_s < inf)
        if copy.first_done_s < inf:
            self.answers["first_operation_s"] = copy.first_done_s - begin

    def _course(self):
        device, gaps = self.device, habit.dark_stretches(self.device)
        moments = sorted({begin for begin, _ in gaps if begin < device.period_s})
        march = self.first.march
        march.y = nearby.higher(device, march.y, self.nudge.begin_v)
        march.most = self.most
        march.legs = 0
        self.course = course = habit.settle(device, march, self.most, moments)
        t = course.totals
        weeks = course.span_s / WEEK_S
        shares = [
            min(s / w, 1.0) if w > 0.0 else 1.0
            for s, w in zip(t.served, course.wanted, strict=True)
        ]
        self.answers |= {
            "lowest_store_V": t.lowest_v,
            "highest_store_V": t.highest_v,
            "lowest_terminal_V": t.lowest_terminal_v,
            "cut_offs_per_week": t.cut_offs / weeks,
        }
        if shares:
            self.answers["served_share"] = min(shares)
        self._dark(gaps)

    def _dark(self, gaps):
        """Least of (time it lasts) over (stretch), over all stretches and the closure."""
        device, course = self.device, self.course
        closure_s = self.scenario.margins.closure_days * 86_400.0
        stretches = []
        worst = None
        for moment, volts in course.begin.items():
            begin = moment % device.period_s
            for at, length in gaps:
                if abs(at - begin) < 1e-6:
                    stretches.append((volts, at, length))
                    if worst is None or volts < worst[0]:
                        worst = (volts, at)
        if closure_s > 0.0 and worst is not None:
            stretches.append((*worst, closure_s))
        if not stretches:
            return
        self.margins["dark"], self.hardest = min(
            (self.lasts(*stretch), stretch) for stretch in stretches
        )

    def lasts(self, volts, at, length):
        """Time that a level lasts in the dark, over the length of a stretch."""
        most_s, y = habit.FARTHEST * length, self.device.store.state(volts)
        time, _ = habit.lasts(self.device, y, at, most_s, self.most)
        return min(time, most_s) / length

    @property
    def serves_all(self):
        """Whether the settled course does everything without a cut-off."""
        return (
            self.course is not None
            and self.course.totals.cut_offs == 0
            and all(
                s > w - 1.0 + 1e-9
                for s, w in zip(self.course.totals.served, self.course.wanted, strict=True)
            )
        )
