"""`python -m tests.benchmarks` prints every table; with `--large` at the sizes that a company may come to."""

import argparse

from tests.benchmarks.applying import print_applying
from tests.benchmarks.browsers import print_browser
from tests.benchmarks.crowd import print_crowds
from tests.benchmarks.deciding import print_deciding
from tests.benchmarks.flatness import print_flatness
from tests.benchmarks.kriging import print_kriging
from tests.benchmarks.laying import print_laying
from tests.benchmarks.levels import print_levels
from tests.benchmarks.maturity import print_maturity
from tests.benchmarks.plans import print_plans
from tests.benchmarks.pulling import print_pulling
from tests.benchmarks.questions import print_questions
from tests.benchmarks.scans import print_scans
from tests.benchmarks.sizes import FEW, MANY
from tests.benchmarks.truing import print_truing

parser = argparse.ArgumentParser(prog="python -m tests.benchmarks", description=__doc__)
parser.add_argument("--large", action="store_true", help="longest rooms, two hundred phones, ten thousand records")
sizes = MANY if parser.parse_args().large else FEW

print_plans(sizes)
print_levels(sizes)
print_kriging(sizes)
print_questions(sizes)
print_maturity(sizes)
print_scans(sizes)
print_truing(sizes)
print_flatness(sizes)
print_applying(sizes)
print_crowds(sizes)
print_pulling(sizes)
print_browser(sizes)
print_deciding(sizes)
print_laying(sizes)
