"""`python -m tests.benchmarks` prints every table."""

from tests.benchmarks.browsers import print_browser
from tests.benchmarks.plans import print_plans

print_plans()
print_browser()
