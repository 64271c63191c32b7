"""How many examples the longest properties take: `make test` a share of them, `make deep` all (EVENBED_SHARE=1)."""

import os

SHARE = float(os.environ.get("EVENBED_SHARE", "0.25"))


def share_of(count: int) -> int:
    """That share of `count` examples, one at the least."""
    return max(1, round(SHARE * count))
