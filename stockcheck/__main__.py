"""``python -m stockcheck`` is the command ``stockcheck``."""

from stockcheck.cli import main

main(prog_name="stockcheck")
