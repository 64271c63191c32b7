"""`python -m tests.benchmarks` prints every table."""

from tests.benchmarks.applying import print_applying
from tests.benchmarks.browsers import print_browser
from tests.benchmarks.crowd import print_crowds
from tests.benchmarks.plans import print_plans
from tests.benchmarks.pulling import print_pulling
from tests.benchmarks.questions import print_questions

print_plans()
print_questions()
print_applying()
print_crowds()
print_pulling()
print_browser()
