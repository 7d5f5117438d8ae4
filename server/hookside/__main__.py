"""`python -m hookside` is `hookside`."""

from hookside.cli import main

main(prog_name="hookside")
