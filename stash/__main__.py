"""`python -m stash`: the same command line."""

from stash.cli import run

run()
