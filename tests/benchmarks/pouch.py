"""The rival: PouchDB's bulkDocs to its HTTP server in Node, which keeps them on disk without waiting for it."""

import json
import subprocess
import tempfile
from pathlib import Path

RIVAL = Path(__file__).parent / "rival"
PATIENCE_S = 120.0


def is_installed() -> bool:
    """True once `make bench` has installed it."""
    return (RIVAL / "node_modules" / ".installed").exists()


def bulk_docs_ms(fields: dict[str, object], count: int, runs: int) -> float:
    """So many documents with these fields in one bulkDocs: the fastest of some runs, each on a fresh database."""
    with tempfile.TemporaryDirectory() as folder:
        line = ["node", "measure.mjs", folder, json.dumps(fields), str(count), str(runs)]
        run = subprocess.run(line, cwd=RIVAL, stdout=subprocess.PIPE, text=True, check=True, timeout=PATIENCE_S)
    return float(run.stdout)
