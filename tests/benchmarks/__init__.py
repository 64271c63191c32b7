"""Speed and memory, printed and never asserted: what a plan costs, against rivals measured in the same run."""
