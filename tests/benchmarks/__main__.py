"""`python -m tests.benchmarks` prints every table."""

from tests.benchmarks.plans import print_plans

print_plans()
