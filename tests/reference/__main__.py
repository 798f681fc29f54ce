"""The long run: ``python -m tests.reference --examples 10000 [--seed 1] [--save DIR]``.

Prints for every column, answer and margin how often it was compared, the typical and the worst
difference in units of what is allowed, and which cases lie beyond it; those are written to DIR.
"""

import argparse
import statistics
import sys
import time
import traceback
from collections import Counter, defaultdict
from pathlib import Path

from hypothesis import HealthCheck, Phase, given, seed, settings

from tests.reference import beside, columns
from tests.reference.files import save
from tests.reference.habit import TooLong
from tests.reference.strategy import cases

PARTS = ("columns", "answers")


class Tally:
    """What was seen."""

    def __init__(self, folder):
        self.folder, self.number = folder, 0
        self.seen, self.counts = defaultdict(list), Counter()

    def add(self, case, part, found):
        """Note the differences of one case, and keep the case where one is too large."""
        for name, off in found.items():
            self.seen[part, name].append((off.share, off.seen, off.right, off.time_s, self.number))
        if any(off.share > 1.0 for off in found.values()):
            self.counts[part + " off"] += 1
            self.keep(case, part)

    def keep(self, case, part):
        if self.folder is not None:
            save(case, self.folder / f"{part}_{self.number}.json")

    def columns(self, case, most):
        self.add(case, "columns", columns.compared(case, most=most)[0])

    def answers(self, case, most):
        right, _, verdict, found = beside.judged(case, most=most)
        self.counts["never starts" if not right.starts else
                    "settles" if right.course else "is not followed to its course"] += 1
        self.counts["verdict " + verdict.state] += 1
        self.add(case, "answers", beside.compared(right, verdict, found))
        for sentence in beside.broken_rules(right, verdict):
            self.counts["broken rules"] += 1
            print(f"case {self.number}: {sentence}", flush=True)
            self.keep(case, "rules")

    def one(self, case, parts, most):
        """Compare one case."""
        self.number += 1
        for part in parts:
            try:
                getattr(self, part)(case, most)
                self.counts[part] += 1
            except TooLong:
                self.counts[part + ": too much happens"] += 1
            except Exception as fault:
                name = f"{part}: {type(fault).__name__}: {str(fault)[:90]}"
                if not self.counts[name]:
                    traceback.print_exc(limit=-3)
                self.counts[name] += 1
                self.keep(case, part)

    def report(self):
        for name, count in sorted(self.counts.items()):
            print(f"{count:7d}  {name}")
        print(f"{'':34s} compared  beyond  typical    95 %     worst   seen, right, s, case")
        for (part, name), rows in self.seen.items():
            shares = sorted(row[0] for row in rows)
            worst = max(rows, key=lambda row: row[0])
            print(
                f"{part + ' ' + name:34s} {len(rows):8d} {sum(s > 1.0 for s in shares):7d}  "
                f"{statistics.median(shares):8.1e} {shares[int(0.95 * (len(shares) - 1))]:8.1e} "
                f"{worst[0]:8.1e}  " + (f"{worst[1:]}" if worst[0] > 1.0 else "")
            )


def main():
    options = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    options.add_argument("--examples", type=int, default=300)
    options.add_argument("--seed", type=int, default=1)
    options.add_argument("--most", type=int, default=600, help="stretches that one march may take")
    options.add_argument("--parts", nargs="+", choices=PARTS, default=PARTS)
    options.add_argument("--save", type=Path)
    given_options = options.parse_args()
    if given_options.save is not None:
        given_options.save.mkdir(parents=True, exist_ok=True)
    tally, began = Tally(given_options.save), time.monotonic()

    @seed(given_options.seed)
    @settings(
        max_examples=given_options.examples, database=None, deadline=None,
        phases=[Phase.generate], suppress_health_check=list(HealthCheck),
    )
    @given(cases())
    def run(case):
        tally.one(case, given_options.parts, given_options.most)
        if tally.number % 100 == 0:
            print(f"{tally.number} cases, {time.monotonic() - began:.0f} s", file=sys.stderr)

    run()
    tally.report()


if __name__ == "__main__":
    main()
