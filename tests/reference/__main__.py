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

from tests.reference import beside, columns, outside
from tests.reference.files import save
from tests.reference.habit import TooLong
from tests.reference.strategy import numbered

PARTS = ("columns", "answers")
ALL_PARTS = (*PARTS, "batch", "edges")


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

    def batch(self, case, most):
        found = outside.batch(case)
        self.add(case, "batch", found)
        for name in outside.contradicts(found):
            self.counts["batch against exact: below 0.75 and above 1.3: " + name] += 1

    def edges(self, case, most):
        self.add(case, "edges", outside.edges(case))

    def one(self, number, case, parts, most):
        """Compare one case."""
        self.number = number
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
    options.add_argument("--seed", type=int, default=1, help="number of the first case")
    options.add_argument("--most", type=int, default=600, help="stretches that one march may take")
    options.add_argument("--parts", nargs="+", choices=ALL_PARTS, default=PARTS)
    options.add_argument("--save", type=Path)
    given_options = options.parse_args()
    if given_options.save is not None:
        given_options.save.mkdir(parents=True, exist_ok=True)
    tally, began = Tally(given_options.save), time.monotonic()

    for number in range(given_options.seed, given_options.seed + given_options.examples):
        tally.one(number, numbered(number), given_options.parts, given_options.most)
        if (number - given_options.seed) % 100 == 99:
            print(f"to {number}, {time.monotonic() - began:.0f} s", file=sys.stderr)
    tally.report()


if __name__ == "__main__":
    main()
