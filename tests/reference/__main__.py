"""The long run: ``python -m tests.reference --examples 10000 [--seed 1] [--save DIR] [--log LOG]``.

Says at once what lies beyond what is allowed, and in the end for every column, answer and margin
how often it was compared, and the typical and the worst difference in units of what is allowed.
How many were right only under a nudge, or hang on a hair (`nearby`), is counted. Cases beyond it
are written to DIR. LOG takes a line for every case as it is done: the same command goes on after
the last of them, and its figures cover them all. ``--parts years`` takes years of daylight of the
same numbers, a second for those of lamps alone, ten for others.
"""

import argparse
import json
import statistics
import sys
import time
import traceback
from collections import Counter, defaultdict
from pathlib import Path

from tests.reference import beside, columns, nearby, outside
from tests.reference.files import save
from tests.reference.habit import TooLong
from tests.reference.strategy import numbered
from tests.reference.yearly import numbered_year
from tests.reference.years import judged_year

PARTS = ("columns", "answers")
ALL_PARTS = (*PARTS, "batch", "edges", "years")
MOST_OF_A_MONTH = 20_000
"""Stretches that one month of a year may take."""
MOST_NEARBY = 0.01
"""Share of designs that may hang on microvolts; more of them are a fault that hides there."""


class Tally:
    """What was seen."""

    def __init__(self, folder, log=None):
        self.folder, self.log, self.number = folder, log, 0
        self.seen, self.counts = defaultdict(list), Counter()
        self._new()
        if log is not None and log.exists():
            for line in log.read_text(encoding="utf-8").splitlines():
                self._take(json.loads(line))

    def _new(self):
        self.case_seen, self.case_counts = {}, Counter()

    def _take(self, line):
        """Count what a case was found to be."""
        self.number = line["case"]
        self.counts.update(line["counts"])
        for name, row in line["seen"].items():
            self.seen[name].append((*row, self.number))

    def done(self):
        """A case is done: count it, and write its line."""
        line = {"case": self.number, "counts": dict(self.case_counts), "seen": self.case_seen}
        self._take(line)
        if self.log is not None:
            with self.log.open("a", encoding="utf-8") as out:
                out.write(json.dumps(line) + "\n")
        self._new()

    def near(self, case, part, found):
        """The same where the reference may have been nudged, which is counted."""
        if found.how != nearby.AS_GIVEN:
            self.case_counts[f"{part} {found.how}"] += 1
        self.add(case, part, found.off)

    def add(self, case, part, found):
        """Note the differences of one case, and keep the case where one is too large."""
        for name, off in found.items():
            row = tuple(float(x) for x in (off.share, off.seen, off.right, off.time_s))
            self.case_seen[part + " " + name] = row
            if off.share > 1.0:
                print(
                    f"case {self.number}: {part} {name}: {off.share:.3g} of what is allowed, seen "
                    f"{off.seen!r}, right {off.right!r}, at {off.time_s!r} s", flush=True,
                )  # fmt: skip
        if any(off.share > 1.0 for off in found.values()):
            self.case_counts[part + " off"] += 1
            self.keep(case, part)

    def keep(self, case, part):
        if self.folder is not None:
            save(case, self.folder / f"{part}_{self.number}.json")

    def columns(self, case, most):
        self.near(case, "columns", columns.nearest(case, most))

    def answers(self, case, most):
        right, _, verdict, found = beside.judged(case, most=most)
        self.case_counts["never starts" if not right.starts else
                    "settles" if right.course else "is not followed to its course"] += 1
        self.case_counts["verdict " + verdict.state] += 1
        self.near(case, "answers", beside.nearest(case, right, verdict, found, most))
        for sentence in beside.broken_rules(right, verdict):
            self.case_counts["broken rules"] += 1
            print(f"case {self.number}: {sentence}", flush=True)
            self.keep(case, "rules")

    def batch(self, case, most):
        found = outside.batch(case)
        self.add(case, "batch", found)
        for name in outside.contradicts(found):
            self.case_counts["batch against exact: below 0.75 and above 1.3: " + name] += 1

    def edges(self, case, most):
        self.add(case, "edges", outside.edges(case))

    def years(self, _, most):
        """A year of its own, of the same number."""
        found, right = judged_year(numbered_year(self.number), MOST_OF_A_MONTH)
        self.case_counts["years followed" if right.course else "years not followed"] += 1
        self.add((right.scenario, None), "years", found)

    def one(self, number, case, parts, most):
        """Compare one case."""
        self.number = number
        for part in parts:
            try:
                getattr(self, part)(case, most)
                self.case_counts[part] += 1
            except TooLong:
                self.case_counts[part + ": too much happens"] += 1
            except Exception as fault:
                name = f"{part}: {type(fault).__name__}: {str(fault)[:90]}"
                if not self.counts[name]:
                    traceback.print_exc(limit=-3)
                print(f"case {number}: {name}", flush=True)
                self.case_counts[name] += 1
                self.keep(case, part)
        self.done()

    def report(self):
        for name, count in sorted(self.counts.items()):
            print(f"{count:7d}  {name}")
        for part in PARTS:
            some = sum(self.counts[f"{part} {how}"] for how in (nearby.NUDGED, nearby.ON_A_HAIR))
            if some > MOST_NEARBY * max(self.counts[part], 100):
                print(f"{part}: {some} of {self.counts[part]} were right only nearby: too many")
        print(f"{'':34s} compared  beyond  typical    95 %     worst   seen, right, s, case")
        for name, rows in self.seen.items():
            shares = sorted(row[0] for row in rows)
            worst = max(rows, key=lambda row: row[0])
            print(
                f"{name:34s} {len(rows):8d} {sum(s > 1.0 for s in shares):7d}  "
                f"{statistics.median(shares):8.1e} {shares[int(0.95 * (len(shares) - 1))]:8.1e} "
                f"{worst[0]:8.1e}  " + (f"{worst[1:]}" if worst[0] > 1.0 else "")
            )


def main():
    options = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    options.add_argument("--examples", type=int, default=300)
    options.add_argument("--seed", type=int, default=1, help="number of the first case")
    options.add_argument("--most", type=int, default=600, help="stretches that one march may take")
    options.add_argument("--parts", nargs="+", choices=ALL_PARTS, default=PARTS)
    options.add_argument("--save", type=Path, help="folder for cases beyond what is allowed")
    options.add_argument("--log", type=Path, help="a line for every case; goes on after the last")
    given_options = options.parse_args()
    if given_options.save is not None:
        given_options.save.mkdir(parents=True, exist_ok=True)
    tally, began = Tally(given_options.save, given_options.log), time.monotonic()
    seed, end = given_options.seed, given_options.seed + given_options.examples

    for number in range(max(seed, tally.number + 1), end):
        tally.one(number, numbered(number), given_options.parts, given_options.most)
        if (number - seed) % 100 == 99:
            print(f"to {number}, {time.monotonic() - began:.0f} s", file=sys.stderr)
    tally.report()


if __name__ == "__main__":
    main()
