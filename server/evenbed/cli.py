"""The command line."""

import argparse
import json
import os
import sys

from evenbed.app import create_app
from evenbed.settings import settings_from


def main() -> int:
    """Run one command."""
    parser = argparse.ArgumentParser(prog="evenbed", description=__doc__)
    commands = parser.add_subparsers(dest="command", required=True)
    commands.add_parser("openapi", help="print the service's OpenAPI description")
    parser.parse_args()
    json.dump(create_app(settings_from(os.environ)).openapi(), sys.stdout, indent=1, ensure_ascii=False)
    return 0
